// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/text.h"

#include <array>

namespace spanwright {

namespace {
constexpr std::array<std::string_view, 6> kBlanks{" ", "\t", "\r", "\n", "\u00a0", "\u202f"};

/// The small letter of a letter of two bytes in UTF-8 whose small letter has two bytes as well.
unsigned smallLetter(unsigned c) {
  const bool pairs = (c >= 0x100 && c <= 0x137 && c != 0x130) || (c >= 0x14A && c <= 0x177) ||
                     (c >= 0x460 && c <= 0x481) || (c >= 0x48A && c <= 0x4BF);
  const bool oddPairs = (c >= 0x139 && c <= 0x148) || (c >= 0x179 && c <= 0x17E);
  if (pairs) {
    return c | 1U;
  }
  if (oddPairs) {
    return c + (c & 1U);
  }
  if ((c >= 0xC0 && c <= 0xDE && c != 0xD7) || (c >= 0x391 && c <= 0x3A9) || (c >= 0x410 && c <= 0x42F)) {
    return c + 0x20;
  }
  return c >= 0x400 && c <= 0x40F ? c + 0x50 : c;
}

unsigned byteAt(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}
}  // namespace

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

std::string smallLetters(std::string_view text) {
  std::string small(text);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const unsigned first = byteAt(text, i);
    if (first >= 'A' && first <= 'Z') {
      small[i] = static_cast<char>(first + ('a' - 'A'));
    } else if (first >= 0xC3 && first <= 0xDF && i + 1 < text.size() &&
               (byteAt(text, i + 1) & 0xC0U) == 0x80U) {
      const unsigned letter = smallLetter((first & 0x1FU) << 6U | (byteAt(text, i + 1) & 0x3FU));
      small[i] = static_cast<char>(0xC0U | letter >> 6U);
      small[++i] = static_cast<char>(0x80U | (letter & 0x3FU));
    }
  }
  return small;
}

std::vector<std::string_view> wordsOf(std::string_view text) {
  const auto between = [](char c) { return static_cast<unsigned char>(c) <= ' ' || c == '\x7f'; };
  std::vector<std::string_view> words;
  for (std::size_t at = 0; at < text.size();) {
    if (between(text[at])) {
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && !between(text[end])) {
      ++end;
    }
    words.push_back(text.substr(at, end - at));
    at = end;
  }
  return words;
}

}  // namespace spanwright
