// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/find_channels.h"

#include <algorithm>
#include <tuple>
#include <unordered_map>

#include "core/units/text.h"

namespace spanwright {
namespace {

// Smaller is better.
enum Rank : std::uint8_t { kTag, kBeginsTag, kInTag, kSerial, kBeginsSerial, kBeginsWord, kInside, kNowhere };

bool isLetterOrDigit(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

std::string withoutMarks(std::string_view tag) {
  std::string bare;
  std::copy_if(tag.begin(), tag.end(), std::back_inserter(bare), isLetterOrDigit);
  return bare;
}

/// Whether the word stands in `text` from `from` on, and there at the beginning of a word.
Rank rankIn(std::string_view text, std::string_view word, std::size_t from = 0) {
  std::size_t at = text.find(word, from);
  if (at == std::string_view::npos) {
    return kNowhere;
  }
  for (; at != std::string_view::npos; at = text.find(word, at + 1)) {
    if (at == 0 || !isLetterOrDigit(text[at - 1])) {
      return kBeginsWord;
    }
  }
  return kInside;
}

}  // namespace

ChannelFinder::ChannelFinder(const Register& site) {
  std::unordered_map<std::string_view, std::uint32_t> placeNumbers;
  const auto placeNumber = [&](const std::string& path) {
    const auto [at, added] = placeNumbers.emplace(path, static_cast<std::uint32_t>(places_.size()));
    if (added) {
      places_.push_back(smallLetters(path));
    }
    return at->second;
  };
  const auto end = [this] { return static_cast<std::uint32_t>(text_.size()); };
  const auto add = [&](std::string_view line) {
    text_ += smallLetters(line);
    const std::uint32_t at = end();
    text_ += '\n';
    return at;
  };
  entries_.reserve(site.channels.size());
  for (const Channel& channel : site.channels) {
    Entry entry;
    entry.begin = end();
    entry.tagEnd = add(channel.tag);
    entry.bareEnd = add(withoutMarks(smallLetters(channel.tag)));
    for (const Fitting& fitting : channel.fittings) {
      add(fitting.sensor);
    }
    entry.serialsEnd = end();
    add(channel.title);
    add(channel.terminal);
    for (const Fitting& fitting : channel.fittings) {
      if (const Sensor* const sensor = site.sensor(fitting.sensor)) {
        add(sensor->description);
        add(sensor->model);
      }
    }
    entry.end = end();
    entry.place = placeNumber(channel.place);
    entry.retired = channel.retired;
    entries_.push_back(entry);
    tags_.push_back(channel.tag);
  }
}

int ChannelFinder::rank(const Entry& entry, std::string_view word) const {
  const std::string_view all = part(entry.begin, entry.end);
  const std::size_t first = all.find(word);
  if (first == std::string_view::npos) {
    return kNowhere;
  }
  const std::size_t at = entry.begin + first;
  const std::string_view tag = part(entry.begin, entry.tagEnd);
  const std::string_view bare = part(entry.tagEnd + 1, entry.bareEnd);
  if (at < entry.bareEnd) {
    return tag == word || bare == word                       ? kTag
           : tag.starts_with(word) || bare.starts_with(word) ? kBeginsTag
                                                             : kInTag;
  }
  if (at < entry.serialsEnd) {
    const bool begins = text_[at - 1] == '\n';
    return !begins ? kInside : text_[at + word.size()] == '\n' ? kSerial : kBeginsSerial;
  }
  return rankIn(all, word, first);
}

FoundChannels ChannelFinder::find(std::string_view typed, std::size_t most) const {
  const std::string small = smallLetters(typed);
  const std::vector<std::string_view> words = wordsOf(small);
  FoundChannels found;
  if (words.empty()) {
    return found;
  }
  // A place is looked at once, not for each of its channels.
  std::vector<std::vector<int>> inPlaces;
  for (const std::string_view word : words) {
    std::vector<int>& ranks = inPlaces.emplace_back();
    for (const std::string& place : places_) {
      ranks.push_back(rankIn(place, word));
    }
  }
  struct Match {
    int rank;
    bool retired;
    std::size_t number;
  };
  std::vector<Match> matches;
  for (std::size_t number = 0; number < entries_.size(); ++number) {
    const Entry& entry = entries_[number];
    int best = kNowhere;
    bool all = true;
    for (std::size_t w = 0; w < words.size() && all; ++w) {
      const int one = std::min(rank(entry, words[w]), inPlaces[w][entry.place]);
      all = one != kNowhere;
      best = std::min(best, one);
    }
    if (all) {
      matches.push_back({best, entry.retired, number});
    }
  }
  found.matched = matches.size();
  const auto shown = matches.begin() + static_cast<std::ptrdiff_t>(std::min(most, matches.size()));
  std::partial_sort(matches.begin(), shown, matches.end(), [this](const Match& a, const Match& b) {
    return std::tie(a.rank, a.retired, tags_[a.number]) < std::tie(b.rank, b.retired, tags_[b.number]);
  });
  for (auto match = matches.begin(); match != shown; ++match) {
    found.tags.push_back(tags_[match->number]);
  }
  return found;
}

}  // namespace spanwright
