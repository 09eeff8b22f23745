// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who goes where, when and with what.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "sample_sites/generator/random.h"
#include "sample_sites/generator/site.h"

namespace spanwright::sample {

class Schedule {
 public:
  explicit Schedule(const SiteSpec& site);
  /// Visits to one subject, oldest first, none later than the site's history.
  std::vector<When> visits(const ChannelSpec& channel, const RoutineSpec& routine) const;

 private:
  const SiteSpec& site_;
  std::map<std::string, int> slots_;  ///< "tag/subject": place within the round
};

std::string personFor(const SiteSpec& site, const std::string& place, When at, Random& random);
std::vector<std::string> standardsFor(const SiteSpec& site, const ChannelSpec& channel,
                                      const SetupSpec& setup, const std::string& subject, When at);
/// Share by which the current of a source in `standards` falls short of what it shows; 0 when it is sound.
double standardFault(const SiteSpec& site, const std::vector<std::string>& standards, When at);

}  // namespace spanwright::sample
