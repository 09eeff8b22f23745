// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is typed on the calculator's command line, read without locale. Every function throws InputError with
// one sentence that names the option.
#pragma once

#include <string>

#include "core/signal/range_result.h"
#include "core/units/quantity.h"

namespace spanwright {

/// The number typed for `option`: "12.5", "-40", "12,5".
double typedNumber(const std::string& option, const std::string& text);

/// A number with or without a unit: "12", "12mA", "8000 counts".
TypedQuantity typedQuantity(const std::string& option, const std::string& text);

/// The unit named by `text`.
Unit typedUnit(const std::string& option, const std::string& text);

/// "LOW:HIGH:UNIT". Where `otherwise` is not Unit::none, the unit may be left out and is then that.
Span typedSpan(const std::string& option, const std::string& text, Unit otherwise = Unit::none);

/// The value, or an InputError saying that `option` is (below the range of ...).
double valueOrRefuse(const std::string& option, const Expected& expected, const std::string& todo);

/// `value` to so many significant digits for people, without the zeros behind: "100", "14.50377377".
std::string shownNumber(double value, int digits);

}  // namespace spanwright
