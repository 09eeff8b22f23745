// SPDX-License-Identifier: GPL-3.0-or-later
//
// What people's typing and spreadsheets put around numbers and units, UTF-8.
#pragma once

#include <string_view>

namespace spanwright {

inline constexpr std::string_view kMinusSign = "\u2212";

/// `text` without blanks at both ends: space, tabulator, line ends, no-break space U+00A0 and its narrow form
/// U+202F.
std::string_view trimmed(std::string_view text);

}  // namespace spanwright
