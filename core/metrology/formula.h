// SPDX-License-Identifier: GPL-3.0-or-later
//
// A measurement model written by a person: "l_S + d - l_S * (delta_alpha * theta + alpha_S * delta_theta)".
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace spanwright {

/// Why a text is no formula: a clause, and the character (from 0) where it shows.
struct FormulaFault {
  std::size_t position = 0;
  std::string what;
};

/// A formula over named inputs, parsed once (muParser), evaluated often. Numbers have a decimal point
/// whatever the locale. Operators: + - * / ^ (right to left, before a sign: -x^2 is -(x^2)), comparisons and
/// "a ? b : c". Functions: sin cos tan asin acos atan atan2 sinh cosh tanh asinh acosh atanh exp ln log10
/// log2 sqrt abs sign hypot; angles in radians; constant: pi. There is no "log", which some read as ln and
/// others as log10. A formula cannot change its inputs. Use one Formula from one thread.
class Formula {
 public:
  /// `names`: letters, digits and "_", not beginning with a digit, none a function's or constant's (see
  /// usableName), each once.
  static std::variant<Formula, FormulaFault> parse(const std::string& text,
                                                   const std::vector<std::string>& names);

  Formula(Formula&& other) noexcept;
  Formula& operator=(Formula&& other) noexcept;
  ~Formula();

  /// The formula's value for `values`, as many as there are names, in their order. Not a number, or infinite,
  /// where it has none (a division by zero, the root of a negative number).
  double operator()(std::span<const double> values) const;
  /// Does the formula mention the input with this index?
  bool uses(std::size_t input) const;

 private:
  struct Parts;
  explicit Formula(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

/// Can an input of a formula be called so?
bool usableName(std::string_view name);

}  // namespace spanwright
