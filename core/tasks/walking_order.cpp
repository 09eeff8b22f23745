// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/walking_order.h"

#include <algorithm>
#include <limits>
#include <vector>

namespace spanwright {
namespace {

using Ranks = std::map<std::string, int, std::less<>>;
using Children = std::map<std::string_view, std::vector<const Place*>>;

void walk(const Children& children, std::string_view parent, Ranks& ranks) {
  const auto below = children.find(parent);
  if (below == children.end()) {
    return;
  }
  for (const Place* place : below->second) {
    // A path names its parents, so no place is below itself; met twice it keeps its first rank.
    if (ranks.emplace(place->path, static_cast<int>(ranks.size())).second) {
      walk(children, place->path, ranks);
    }
  }
}

}  // namespace

Ranks placeRanks(const Register& site) {
  Children children;
  for (const Place& place : site.places) {
    children[place.parentPath].push_back(&place);
  }
  for (auto& [parent, places] : children) {
    std::stable_sort(places.begin(), places.end(),
                     [](const Place* a, const Place* b) { return a->order < b->order; });
  }
  Ranks ranks;
  walk(children, "", ranks);
  for (const Place& place : site.places) {
    ranks.emplace(place.path, static_cast<int>(ranks.size()));
  }
  return ranks;
}

Ranks channelRanks(const Register& site) {
  const Ranks places = placeRanks(site);
  const auto rankOf = [&](const Channel* channel) {
    const auto at = places.find(channel->place);
    return at == places.end() ? std::numeric_limits<int>::max() : at->second;
  };
  std::vector<const Channel*> channels;
  channels.reserve(site.channels.size());
  for (const Channel& channel : site.channels) {
    channels.push_back(&channel);
  }
  std::stable_sort(channels.begin(), channels.end(),
                   [&](const Channel* a, const Channel* b) { return rankOf(a) < rankOf(b); });
  Ranks ranks;
  for (const Channel* channel : channels) {
    ranks.emplace(channel->tag, static_cast<int>(ranks.size()));
  }
  return ranks;
}

}  // namespace spanwright
