// SPDX-License-Identifier: GPL-3.0-or-later
//
// Labels for channels, filled in from the record. Loads and computes; writes nothing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/certificate/label.h"
#include "core/store/store.h"

namespace spanwright {

struct LabelProposal {
  RoundStop stop;
  std::optional<ChannelLabel> label;
  std::string why;  ///< there is none, a clause
};
/// A label says that the subject is proven, so there is one only when its latest calibration that counts
/// proves, passed as left, and was made under the setup and with the sensor now in force. With the due date
/// only where the site has agreed to its being printed (ISO/IEC 17025:2017 7.8.4.3 says the same of labels as
/// of certificates).
std::vector<LabelProposal> labelsFor(const Store& store, const std::vector<RoundStop>& stops, Moment now);
/// The stops of every routine of this channel; empty when it is not there.
std::vector<RoundStop> routinesOf(const Register& site, std::string_view channel);

}  // namespace spanwright
