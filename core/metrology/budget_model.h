// SPDX-License-Identifier: GPL-3.0-or-later
//
// A free uncertainty budget: input quantities, how they hang together, a measurement model, and what the law
// of propagation of uncertainty says about the result (JCGM 100:2008, the GUM).
#pragma once

#include <cstddef>
#include <functional>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace spanwright {

/// What is known about an input besides its value and standard uncertainty.
enum class InputShape { normal, student, rectangular, triangular, arcsine };
/// "normal", "t", "rectangular", "triangular", "U-shaped".
std::string_view text(InputShape shape);

/// One input quantity.
struct ModelInput {
  std::string name;
  double value = 0.0;
  /// In the value's unit; 0: taken as exact. For `student` the scale, which the GUM takes as standard
  /// uncertainty (s/sqrt(n) of n readings, GUM 4.2.3); the t distribution's own standard deviation is larger
  /// by sqrt(nu / (nu - 2)).
  double standardUncertainty = 0.0;
  double degreesOfFreedom = std::numeric_limits<double>::infinity();
  InputShape shape = InputShape::normal;
};

/// Correlation coefficient of the estimates of two inputs (by index), -1 to 1; those not named are 0.
struct Correlation {
  std::size_t first = 0;
  std::size_t second = 0;
  double coefficient = 0.0;
};

struct BudgetModel {
  std::vector<ModelInput> inputs;
  std::vector<Correlation> correlations;
};

/// The result for given values of the inputs, in their order.
using ModelFunction = std::function<double(std::span<const double>)>;

struct MeasurementModel {
  ModelFunction function;
  /// The partial derivatives when they are known (one per input); empty: taken numerically (derivative()).
  std::vector<double> sensitivities;
};

enum class CoverageMethod {
  student,             ///< k from t at the effective degrees of freedom (GUM G.3)
  given,               ///< k as stated
  dominantRectangular  ///< k = p sqrt(3), for a budget that one rectangular line governs
};

struct CoverageRule {
  CoverageMethod method = CoverageMethod::student;
  /// Nothing: that of two standard deviations of a normal distribution, 95.45 %.
  std::optional<double> probability;
  double factor = 2.0;  ///< for `given`
  /// Effective degrees of freedom cut to the next lower whole number before t is taken; else t is taken at
  /// them as they are. GUM G.4.1 NOTE 1 allows either (its own example H.1 cuts).
  bool truncate = false;
};

/// The coverage probability meant by a rule, erf(sqrt 2) = 0.95449973... when it states none.
double coverageProbability(const CoverageRule& rule);

/// Two-sided factor of Student's t for the coverage probability (GUM Table G.2); the normal one for infinite
/// degrees of freedom; infinite where it is larger than a double can be (below about 0.01 degrees).
/// std::invalid_argument unless 0 < probability < 1 and degrees of freedom above zero.
double studentFactor(double probability, double degreesOfFreedom);

/// Degrees of freedom of a standard uncertainty that is itself known to a relative standard uncertainty r:
/// 1/(2 r^2) (GUM G.4.2, G.3). Needs r above zero.
double degreesOfFreedomFrom(double relativeUncertainty);

/// Readings taken under repeatability: mean, experimental standard deviation of the mean, n - 1 degrees of
/// freedom (GUM 4.2.1 to 4.2.3). Needs at least two.
struct ReadingsSummary {
  double mean = 0.0;
  double standardUncertainty = 0.0;
  double degreesOfFreedom = 0.0;
};
ReadingsSummary summarise(std::span<const double> readings);
/// Correlation coefficient of the means of two quantities read simultaneously (GUM 5.2.3, eq. 17 and 14).
/// Nothing when one of them did not vary. Needs the same number, at least two, of both.
std::optional<double> readingsCorrelation(std::span<const double> first, std::span<const double> second);

struct ModelLine {
  std::string name;
  double value = 0.0;
  double standardUncertainty = 0.0;
  double degreesOfFreedom = 0.0;
  double sensitivity = 0.0;
  double sensitivityError = 0.0;  ///< estimated error of a numerical derivative; 0 for a known one
  double jump = 0.0;              ///< Derivative::jump, likewise
  double contribution = 0.0;      ///< |sensitivity| x standard uncertainty, GUM 5.1.3
};

/// What a pair of inputs (or one with itself) adds to the variance beyond the first order; may be negative.
struct SecondOrderTerm {
  std::size_t first = 0;
  std::size_t second = 0;
  double variance = 0.0;
};

struct ModelBudget {
  double value = 0.0;
  std::vector<ModelLine> lines;
  double combined = 0.0;
  double firstOrder = 0.0;                   ///< equal to `combined` unless second-order terms were asked for
  std::vector<SecondOrderTerm> secondOrder;  ///< empty unless asked for
  double degreesOfFreedom = 0.0;             ///< effective (GUM G.4.1), infinite when all are
  double usedDegreesOfFreedom = 0.0;         ///< after the rule's truncation
  double probability = 0.0;
  double coverageFactor = 0.0;
  double expanded = 0.0;
  /// The line that alone is at least 1/0.3 of the root sum of squares of all others, when there is one.
  std::optional<std::size_t> dominant;
};

/// Why no result can be given: two clauses, and the input they are about if it is one.
struct BudgetFault {
  std::optional<std::size_t> input;
  std::string what;
  std::string todo;
};

/// Propagates. First order with correlations: GUM 5.2.2 eq. 16. With `secondOrder` also the terms of the NOTE
/// to GUM 5.1.2, [ (d2f/dxi dxj)^2 / 2 + df/dxi d3f/dxi dxj2 ] u^2(xi) u^2(xj), for independent inputs
/// distributed symmetrically, their derivatives taken numerically (to about 1e-6 of u_c); the first-order
/// result is then about the value f(x), which is not corrected for the curvature.
///
/// Effective degrees of freedom: Welch-Satterthwaite, GUM G.4.1, with the second-order terms counted as known
/// exactly. It holds for independent lines only; lines that are correlated, directly or through others, are
/// one line here, with the smallest of their degrees of freedom (for quantities read simultaneously that is
/// n - 1, as in approach 2 of GUM H.2.4; otherwise a cautious choice, common practice, no source).
///
/// A BudgetFault for: no input; a value not finite; an uncertainty negative or not finite; degrees of freedom
/// not above zero; a correlation beyond -1..1, with itself, given twice, or of an exact input; correlations
/// that cannot all be true together (matrix not positive semidefinite); a model without a value or without a
/// derivative there; derivatives too inaccurate to show u_c to 1e-6; nothing contributing; a probability not
/// between 0 and 1; a factor not above zero; effective degrees of freedom below one that are to be cut; a
/// rule of a dominant rectangular line where there is none (the condition, remaining contributions at most
/// 0.3 of it, is that of EA-4/02 S9, from memory); second-order terms with correlated inputs.
std::variant<ModelBudget, BudgetFault> evaluate(const BudgetModel& model, const MeasurementModel& measurement,
                                                const CoverageRule& coverage = {}, bool secondOrder = false);

/// Correlation coefficient of two results of the same inputs (GUM H.2.3, eq. H.9): covariance over the
/// product of their first-order combined uncertainties. Both budgets must come from `model`.
double resultCorrelation(const BudgetModel& model, const ModelBudget& first, const ModelBudget& second);

/// Lower triangular L with L L^T = R, the correlation matrix, row by row; rank-deficient matrices (complete
/// correlation) have columns of zeros. Nothing when R is not positive semidefinite (to 1e-9).
std::optional<std::vector<std::vector<double>>> correlationRoot(const BudgetModel& model);

/// For each input the number of its group: inputs correlated directly or through others share one.
std::vector<std::size_t> correlatedGroups(const BudgetModel& model);

}  // namespace spanwright
