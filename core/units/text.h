// SPDX-License-Identifier: GPL-3.0-or-later
//
// What people's typing and spreadsheets put around numbers and units, UTF-8.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace spanwright {

inline constexpr std::string_view kMinusSign = "\u2212";

/// `text` without blanks at both ends: space, tabulator, line ends, no-break space U+00A0 and its narrow form
/// U+202F.
std::string_view trimmed(std::string_view text);

/// `text` in small letters, for comparing what people type with what is written: Latin letters with and
/// without marks, Greek and Cyrillic. Everything else, and what is no UTF-8, stays as it is; the result is as
/// long as `text`.
std::string smallLetters(std::string_view text);

/// The words of `text`, which blanks and control characters stand between.
std::vector<std::string_view> wordsOf(std::string_view text);

}  // namespace spanwright
