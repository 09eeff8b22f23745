// SPDX-License-Identifier: GPL-3.0-or-later
//
// Dates as exports write them, read strictly and without locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/units/time.h"

namespace spanwright {

/// %Y four digits; %m %d %H %I %M %S one or two digits; %b an English month's first three letters in any
/// case; %p AM or PM, with %I; %% a percent sign; a blank stands for one or more blanks; everything else for
/// itself. Two-digit years are not read: which century was meant is never guessed.
class DateForm {
 public:
  /// ISO 8601 as parseMoment reads it.
  DateForm() = default;
  /// What is wrong with `form`, a clause, or the form.
  static std::variant<DateForm, std::string> parse(std::string_view form);

  /// Nothing unless the whole text has the form and is a moment that exists. No time of day is midnight.
  std::optional<Moment> read(std::string_view text) const;
  /// As given to parse; "2026-03-01 or 2026-03-01T08:30:00" for ISO.
  const std::string& form() const { return form_; }

 private:
  struct Part {
    char field = 0;    // Y m d H I M S b p, or 0 for a literal
    char literal = 0;  // blank: any number of blanks
  };
  std::vector<Part> parts_;  // empty: ISO 8601
  std::string form_ = "2026-03-01 or 2026-03-01T08:30:00";
};

}  // namespace spanwright
