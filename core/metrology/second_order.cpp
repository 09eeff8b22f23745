// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/second_order.h"

#include <cmath>
#include <limits>
#include <optional>

#include "core/metrology/derivatives.h"

namespace spanwright {
namespace {

/// The function of standardised inputs: z moves an input by z times its standard uncertainty, so that every
/// derivative comes in the result's unit and one step serves all.
class Standardised {
 public:
  Standardised(const ModelFunction& function, std::span<const ModelLine> lines)
      : function_(function), lines_(lines), at_(lines.size()) {
    for (std::size_t i = 0; i < lines.size(); ++i) {
      at_[i] = lines[i].value;
    }
    size_ = std::abs(function_(at_));
  }
  double operator()(std::size_t i, double zi, std::size_t j, double zj) {
    at_[i] += zi * lines_[i].standardUncertainty;
    at_[j] += zj * lines_[j].standardUncertainty;
    const double result = function_(at_);
    at_[i] = lines_[i].value;
    at_[j] = lines_[j].value;
    return result;
  }

  /// d2/dzi dzj.
  std::optional<Derivative> mixed(std::size_t i, std::size_t j) {
    Standardised& f = *this;
    const auto quotient = [&, i, j](double h) {
      return i == j ? (f(i, h, j, 0.0) - 2.0 * f(i, 0.0, j, 0.0) + f(i, -h, j, 0.0)) / (h * h)
                    : (f(i, h, j, h) - f(i, h, j, -h) - f(i, -h, j, h) + f(i, -h, j, -h)) / (4.0 * h * h);
    };
    return extrapolate(
        quotient, [&](double h) { return rounding() / (h * h); }, 1.0);
  }

  /// d3/dzi dzj2.
  std::optional<Derivative> third(std::size_t i, std::size_t j) {
    Standardised& f = *this;
    const auto quotient = [&, i, j](double h) {
      if (i == j) {
        return (f(i, 2.0 * h, j, 0.0) - 2.0 * f(i, h, j, 0.0) + 2.0 * f(i, -h, j, 0.0) -
                f(i, -2.0 * h, j, 0.0)) /
               (2.0 * h * h * h);
      }
      const double across = (f(i, h, j, h) - f(i, -h, j, h)) + (f(i, h, j, -h) - f(i, -h, j, -h));
      return (across - 2.0 * (f(i, h, j, 0.0) - f(i, -h, j, 0.0))) / (2.0 * h * h * h);
    };
    return extrapolate(
        quotient, [&](double h) { return rounding() / (h * h * h); }, 1.0);
  }

 private:
  double rounding() const { return 2.0 * std::numeric_limits<double>::epsilon() * size_; }

  const ModelFunction& function_;
  std::span<const ModelLine> lines_;
  std::vector<double> at_;
  double size_ = 0.0;
};

}  // namespace

std::variant<std::vector<SecondOrderTerm>, BudgetFault> secondOrderTerms(const ModelFunction& function,
                                                                         std::span<const ModelLine> lines) {
  Standardised model(function, lines);
  const auto slope = [&](std::size_t i) { return lines[i].sensitivity * lines[i].standardUncertainty; };
  std::vector<SecondOrderTerm> terms;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (std::size_t j = i; j < lines.size(); ++j) {
      if (lines[i].standardUncertainty == 0.0 || lines[j].standardUncertainty == 0.0) {
        continue;
      }
      const auto mixed = model.mixed(i, j);
      const auto thirdOne = model.third(i, j);
      const auto thirdOther = i == j ? thirdOne : model.third(j, i);
      if (!mixed || !thirdOne || !thirdOther) {
        return BudgetFault{i,
                           "the model has no second or third derivative with respect to \"" + lines[i].name +
                               "\" and \"" + lines[j].name + "\" at their values",
                           "leave second_order out, and check the result with --monte-carlo"};
      }
      const double squared = mixed->value * mixed->value / 2.0;
      const double variance = i == j
                                  ? squared + slope(i) * thirdOne->value
                                  : 2.0 * squared + slope(i) * thirdOne->value + slope(j) * thirdOther->value;
      if (variance != 0.0) {
        terms.push_back({i, j, variance});
      }
    }
  }
  return terms;
}

}  // namespace spanwright
