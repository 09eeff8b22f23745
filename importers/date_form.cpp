// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/date_form.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/units/text.h"

namespace spanwright {
namespace {

constexpr std::string_view kLetters = "YmdHIMSbp";
constexpr std::array<std::string_view, 12> kMonths{"jan", "feb", "mar", "apr", "may", "jun",
                                                   "jul", "aug", "sep", "oct", "nov", "dec"};

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Takes `least` to `most` digits from the front of `text`; -1 when there are fewer.
int takeNumber(std::string_view& text, std::size_t least, std::size_t most) {
  int value = 0;
  std::size_t taken = 0;
  while (taken < most && taken < text.size() && text[taken] >= '0' && text[taken] <= '9') {
    value = value * 10 + (text[taken++] - '0');
  }
  text.remove_prefix(taken);
  return taken >= least ? value : -1;
}

int takeMonth(std::string_view& text) {
  if (text.size() < 3) {
    return -1;
  }
  const std::array<char, 3> letters{lower(text[0]), lower(text[1]), lower(text[2])};
  const auto found =
      std::find(kMonths.begin(), kMonths.end(), std::string_view(letters.data(), letters.size()));
  text.remove_prefix(3);
  return found == kMonths.end() ? -1 : static_cast<int>(found - kMonths.begin()) + 1;
}

/// 0 for AM, 1 for PM.
int takeHalf(std::string_view& text) {
  if (text.size() < 2 || lower(text[1]) != 'm' || (lower(text[0]) != 'a' && lower(text[0]) != 'p')) {
    return -1;
  }
  const int half = lower(text[0]) == 'p' ? 1 : 0;
  text.remove_prefix(2);
  return half;
}

int takeField(char field, std::string_view& text) {
  switch (field) {
    case 'Y':
      return takeNumber(text, 4, 4);
    case 'b':
      return takeMonth(text);
    case 'p':
      return takeHalf(text);
    default:
      return takeNumber(text, 1, 2);
  }
}

bool isBlank(char c) {
  return c == ' ' || c == '\t';
}

}  // namespace

std::variant<DateForm, std::string> DateForm::parse(std::string_view form) {
  DateForm parsed;
  if (form == "iso") {
    return parsed;
  }
  std::string seen;
  for (std::size_t i = 0; i < form.size(); ++i) {
    if (form[i] != '%') {
      if (!(isBlank(form[i]) && !parsed.parts_.empty() && parsed.parts_.back().literal == ' ')) {
        parsed.parts_.push_back({0, isBlank(form[i]) ? ' ' : form[i]});
      }
      continue;
    }
    const char field = ++i < form.size() ? form[i] : '\0';
    if (field == '%') {
      parsed.parts_.push_back({0, '%'});
    } else if (field == '\0' || kLetters.find(field) == std::string_view::npos) {
      return fmt::format("%{} is none of %Y %m %b %d %H %I %p %M %S", field == '\0' ? ' ' : field);
    } else if (seen.find(field) != std::string::npos) {
      return fmt::format("%{} stands there twice", field);
    } else {
      parsed.parts_.push_back({field, 0});
      seen += field;
    }
  }
  const auto has = [&seen](char field) { return seen.find(field) != std::string::npos; };
  if (!has('Y') || has('m') == has('b') || !has('d')) {
    return "a year (%Y), a month (one of %m and %b) and a day (%d) are needed";
  }
  if (has('I') != has('p') || (has('H') && has('I'))) {
    return "an hour is %H, or %I together with %p";
  }
  if ((has('M') && !has('H') && !has('I')) || (has('S') && !has('M'))) {
    return "minutes need an hour and seconds need minutes";
  }
  parsed.form_ = std::string(form);
  return parsed;
}

std::optional<Moment> DateForm::read(std::string_view text) const {
  if (parts_.empty()) {
    return parseMoment(trimmed(text));
  }
  text = trimmed(text);
  std::array<int, 128> values{};  // by the field's letter
  std::fill(values.begin(), values.end(), -1);
  for (const Part& part : parts_) {
    if (part.literal == ' ') {
      if (text.empty() || !isBlank(text.front())) {
        return std::nullopt;
      }
      text.remove_prefix(std::min(text.find_first_not_of(" \t"), text.size()));
    } else if (part.literal != 0) {
      if (!text.starts_with(part.literal)) {
        return std::nullopt;
      }
      text.remove_prefix(1);
    } else {
      const int value = takeField(part.field, text);
      if (value < 0) {
        return std::nullopt;
      }
      values[static_cast<unsigned char>(part.field)] = value;
    }
  }
  if (!text.empty()) {
    return std::nullopt;
  }
  int hour = std::max(0, values['H']);
  if (values['I'] >= 0) {
    if (values['I'] < 1 || values['I'] > 12) {
      return std::nullopt;
    }
    hour = values['I'] % 12 + 12 * values['p'];
  }
  // The one reader of dates decides whether there is such a moment.
  return parseMoment(fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}", values['Y'],
                                 std::max(values['m'], values['b']), values['d'], hour,
                                 std::max(0, values['M']), std::max(0, values['S'])));
}

}  // namespace spanwright
