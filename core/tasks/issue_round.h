// SPDX-License-Identifier: GPL-3.0-or-later
//
// Certificates of a whole round: what issuing them would do, and doing it in one go.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/tasks/issue.h"
#include "core/tasks/rounds.h"

namespace spanwright {

enum class CertificateDeed {
  first,     ///< a number will be allotted
  revision,  ///< signatures changed since it was issued: the next revision of its number
  again,     ///< it says what was issued already
  none       ///< it cannot be issued
};

struct RoundCertificate {
  RoundStop stop;
  CalibrationId calibration = 0;  ///< 0: the stop is not done yet
  CertificateDeed deed = CertificateDeed::none;
  std::string number;  ///< once it has one
  int revision = 1;    ///< that it will have
  LifeState state = LifeState::recorded;
  std::vector<std::string> faults;  ///< clauses: what keeps a calibration from being certified
};
/// One for each stop, in the round's order.
std::vector<RoundCertificate> certificatesOfRound(const Store& store, const Round& round);

/// Issues these, each handed to `take` as it is described; all of them or none: when `take` throws, or
/// answers false to stop, no number was allotted. Nothing when it was stopped. InputError when one must not
/// be certified.
std::optional<std::vector<Certificate>> issueTogether(Store& store,
                                                      const std::vector<CalibrationId>& calibrations,
                                                      const std::function<bool(const Certificate&)>& take);

}  // namespace spanwright
