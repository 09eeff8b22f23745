// SPDX-License-Identifier: GPL-3.0-or-later
//
// Finding a channel while its name is being typed: by tag, by the serial number of what is or was fitted to
// it, by its place and terminal, or by words of what it measures. Made once for a register and asked for
// every letter, so it keeps what it looks at in one piece of text. May be made and asked in any thread.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/register.h"

namespace spanwright {

/// What was found. `tags` are the best ones first: the tag itself; then what begins like the tag, holds it,
/// is a serial number or begins one, stands at the beginning of a word elsewhere, or inside one. Among equals
/// those in use come before retired ones, then by tag.
struct FoundChannels {
  std::size_t matched = 0;        ///< all that match, also those not in `tags`
  std::vector<std::string> tags;  ///< at most as many as asked for
};

class ChannelFinder {
 public:
  explicit ChannelFinder(const Register& site);

  /// Channels in which every word of `typed` stands somewhere, large and small letters alike; the dashes,
  /// dots and strokes of a tag may be left out. The word that tells most decides the place in the list.
  /// Nothing for no words.
  FoundChannels find(std::string_view typed, std::size_t most) const;

 private:
  /// Where the parts of a channel's text end in text_; each part is followed by a line end.
  struct Entry {
    std::uint32_t begin = 0;
    std::uint32_t tagEnd = 0;
    std::uint32_t bareEnd = 0;     ///< of the tag without dashes, dots and strokes
    std::uint32_t serialsEnd = 0;  ///< one in a line
    std::uint32_t end = 0;         ///< what it measures, its terminal, what its sensors are
    std::uint32_t place = 0;
    bool retired = false;
  };
  std::string_view part(std::uint32_t from, std::uint32_t to) const {
    return std::string_view(text_).substr(from, to - from);
  }
  int rank(const Entry& entry, std::string_view word) const;

  std::string text_;  ///< in small letters
  std::vector<Entry> entries_;
  std::vector<std::string> tags_;    ///< as written, in the order of entries_
  std::vector<std::string> places_;  ///< in small letters
};

}  // namespace spanwright
