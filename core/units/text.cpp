// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/text.h"

#include <array>

namespace spanwright {

namespace {
constexpr std::array<std::string_view, 6> kBlanks{" ", "\t", "\r", "\n", "\u00a0", "\u202f"};
}

std::string_view trimmed(std::string_view text) {
  for (bool again = true; again;) {
    again = false;
    for (const std::string_view blank : kBlanks) {
      if (text.starts_with(blank)) {
        text.remove_prefix(blank.size());
        again = true;
      }
      if (text.ends_with(blank)) {
        text.remove_suffix(blank.size());
        again = true;
      }
    }
  }
  return text;
}

}  // namespace spanwright
