// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands in a form's fields, as text by the names a site file uses, and reading it: every mistake is
// collected with the field it stands in (Where::field).
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/problem.h"
#include "core/record/register.h"
#include "core/units/quantity.h"

namespace spanwright {

/// Field to text; a box that is ticked holds "yes". A field left out is an empty one.
using TypedFields = std::map<std::string, std::string, std::less<>>;

/// The text of a field, without blanks around it; empty when there is none.
std::string typedText(const TypedFields& fields, std::string_view field);

/// Reads fields below a prefix ("setup." for those of a channel's setup) and keeps what is wrong.
class FieldReader {
 public:
  explicit FieldReader(const TypedFields& fields, std::string prefix = {});
  /// The same fields and problems below a longer prefix.
  FieldReader below(std::string_view part) const;

  std::string text(std::string_view field) const;
  /// Lines of a text of several; empty ones are left out.
  std::vector<std::string> lines(std::string_view field) const;
  bool yes(std::string_view field) const;
  bool has(std::string_view field) const { return !text(field).empty(); }

  /// Nothing for an empty field; a point or a comma, and the unit where one is typed must be `unit`'s kind
  /// and is converted to it.
  std::optional<double> maybeNumber(std::string_view field, Unit unit = Unit::none);
  double number(std::string_view field, double fallback, Unit unit = Unit::none);
  /// `what` completes "the ... is missing".
  double needNumber(std::string_view field, std::string_view what, Unit unit = Unit::none);
  int whole(std::string_view field, int fallback);
  /// Fields "<field>.low", "<field>.high" and, unless `fixed`, "<field>.unit"; an end may carry the unit.
  /// Nothing when both ends are empty or when it was reported, at `field`.
  std::optional<Span> span(std::string_view field, std::optional<Unit> fixed = std::nullopt);
  std::optional<Span> needSpan(std::string_view field, std::string_view what,
                               std::optional<Unit> fixed = std::nullopt);
  std::optional<Date> maybeDate(std::string_view field);
  std::optional<Moment> needMoment(std::string_view field, std::string_view what);
  /// "2026-07-01 to 2026-07-14 holidays", a line each; the second day and the name may be left out.
  std::vector<DayRange> days(std::string_view field);
  /// "0, 25, 50" in any of the usual ways of listing.
  std::vector<double> numbers(std::string_view field);

  void wrong(std::string_view field, std::string what, std::string todo);
  /// Adds these, their fields below the prefix.
  void take(const std::vector<Problem>& problems);
  /// Nothing was wrong so far.
  bool sound() const { return problems_->empty(); }
  std::vector<Problem>& problems() { return *problems_; }

 private:
  std::string full(std::string_view field) const { return prefix_ + std::string(field); }

  const TypedFields* fields_;
  std::string prefix_;
  std::shared_ptr<std::vector<Problem>> problems_;
};

/// How these stand in fields, to be read again by the above.
void putSpan(TypedFields& into, const std::string& field, const Span& span);
std::string typedNumber(double value);
std::string typedNumber(const std::optional<double>& value);  ///< empty when there is none
std::string typedKnown(double value);                         ///< empty for 0, which stands for "not known"
std::string typedYes(bool on);
std::string typedDays(const std::vector<DayRange>& days);
std::string typedNumbers(const std::vector<double>& numbers);
std::string typedLines(const std::vector<std::string>& lines);

}  // namespace spanwright
