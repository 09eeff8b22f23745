// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words somebody types to narrow a list.
#pragma once

#include <QString>
#include <algorithm>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/units/text.h"
#include "gui/words/words.h"

namespace spanwright {

/// Texts of rows in small letters, as many as there are rows; made beside the rows, off the window's thread,
/// because a long list is looked through at every letter.
using SmallTexts = std::shared_ptr<const std::vector<std::string>>;

class SearchWords {
 public:
  explicit SearchWords(const QString& typed) : small_(smallLetters(toCore(typed))), words_(wordsOf(small_)) {}
  // The words point into the text.
  SearchWords(const SearchWords&) = delete;
  SearchWords& operator=(const SearchWords&) = delete;

  /// Whether every word stands in the one text or the other, both in small letters.
  bool standIn(std::string_view text, std::string_view more = {}) const {
    return std::all_of(words_.begin(), words_.end(), [&](std::string_view word) {
      return text.find(word) != std::string_view::npos || more.find(word) != std::string_view::npos;
    });
  }

 private:
  std::string small_;
  std::vector<std::string_view> words_;
};

}  // namespace spanwright
