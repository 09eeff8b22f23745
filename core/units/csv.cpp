// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/csv.h"

#include <cstring>

namespace spanwright {

std::string csvCell(std::string_view text, char separator) {
  const bool quoted = text.find_first_of("\"\r\n") != std::string_view::npos ||
                      text.find(separator) != std::string_view::npos || text.starts_with(' ') ||
                      text.ends_with(' ');
  if (!quoted) {
    return std::string(text);
  }
  std::string made = "\"";
  for (const char c : text) {
    made += c == '"' ? "\"\"" : std::string(1, c);
  }
  return made + '"';
}

std::string harmlessCell(const std::string& text) {
  return !text.empty() && std::strchr("=+-@", text.front()) != nullptr ? "'" + text : text;
}

}  // namespace spanwright
