// SPDX-License-Identifier: GPL-3.0-or-later
//
// A sheet with the mistakes people make, and what must be said to each.
#pragma once

#include <string>

#include "sample_sites/generator/history.h"

namespace spanwright::sample {

struct MistakeSheet {
  std::string csv;       ///< in the long form in use since 2022
  std::string expected;  ///< mistake,first_line,last_line,line,heading,reason: what must be refused and why
};
MistakeSheet larkmeadMistakes(const History& history);

}  // namespace spanwright::sample
