// SPDX-License-Identifier: GPL-3.0-or-later
//
// Numbers and lists as text, the same in every locale.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace spanwright::sample {

/// Shortest text that reads back as `value`.
std::string shortest(double value);
/// Exactly `decimals` digits after the point; never "-0".
std::string fixedText(double value, int decimals);
/// With leading zeros to `width` digits.
std::string padded(int value, int width);
/// `value` to the nearest multiple of `step` (0: as it is).
double rounded(double value, double step);
/// The number that reads shortest among those equal to `value` at that many decimals.
double tidy(double value, int decimals);
/// Digits after the point that show `step`: 0.1 has 1, 5 has 0.
int decimals(double step);

std::string joined(const std::vector<std::string>& parts, std::string_view between);
/// In double quotes, for TOML; the samples hold nothing that needs escaping.
std::string quoted(std::string_view text);
/// One cell, quoted when it holds the separator, a quote or a line break.
std::string cell(std::string_view text, char separator);
/// UTF-8 to Latin-1; the text must hold nothing that Latin-1 does not have.
std::string latin1(std::string_view utf8);

void writeFile(const std::string& path, const std::string& content);

}  // namespace spanwright::sample
