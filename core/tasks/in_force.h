// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which setup and sensor a subject is under, as the record stood at the end of a day.
#pragma once

#include "core/record/register.h"

namespace spanwright {

/// The last moment of `day`.
Moment endOf(Date day);

struct InForce {
  const SetupVersion* setup = nullptr;  ///< nullptr before the channel's first
  const Fitting* fitting =
      nullptr;             ///< sensor and loop: the one that holds, else the last one before; may be nullptr
  bool fittedNow = false;  ///< `fitting` still holds
};
InForce inForceOn(const Channel& channel, Subject subject, Date day);

}  // namespace spanwright
