// SPDX-License-Identifier: GPL-3.0-or-later
//
// Text as a cell of a CSV table (RFC 4180).
#pragma once

#include <string>
#include <string_view>

namespace spanwright {

/// In double quotes where it holds a quote, the separator, a line end, or blanks at its ends.
std::string csvCell(std::string_view text, char separator);
/// With ' before it where a spreadsheet would take it for a formula.
std::string harmlessCell(const std::string& text);

}  // namespace spanwright
