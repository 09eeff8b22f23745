// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/in_force.h"

namespace spanwright {

Moment endOf(Date day) {
  return Moment(day, boost::posix_time::hours(24) - boost::posix_time::microseconds(1));
}

InForce inForceOn(const Channel& channel, Subject subject, Date day) {
  const Moment when = endOf(day);
  InForce now;
  now.setup = setupInForce(channel, when);
  if (subject == Subject::channel) {
    return now;
  }
  now.fitting = fittingAt(channel, when);
  now.fittedNow = now.fitting != nullptr;
  if (!now.fittedNow) {
    for (const Fitting& fitting : channel.fittings) {
      if (fitting.from <= when && (now.fitting == nullptr || fitting.from > now.fitting->from)) {
        now.fitting = &fitting;
      }
    }
  }
  return now;
}

}  // namespace spanwright
