// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/growth.h"

#include <algorithm>
#include <boost/math/constants/constants.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numeric>

namespace spanwright {

namespace {

using Row = std::vector<double>;
using Matrix = std::vector<Row>;

struct Mark {
  double time = 0.0;
  double error = 0.0;
  std::size_t segment = 0;
  double since = 0.0;  ///< years since the segment's first reading
};

std::vector<Mark> marksOf(const std::vector<Segment>& segments) {
  std::vector<Mark> marks;
  for (std::size_t s = 0; s < segments.size(); ++s) {
    for (const DriftReading& reading : segments[s].readings)
      marks.push_back({reading.time, reading.error, s, reading.time - segments[s].readings.front().time});
  }
  if (marks.size() > kMostForGrowth)
    marks.erase(marks.begin(), marks.end() - static_cast<std::ptrdiff_t>(kMostForGrowth));
  return marks;
}

double product(const Row& a, const Row& b) {
  return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

/// Takes off what `basis` (orthonormal) already holds, twice because once loses digits; false when nothing is
/// left.
bool orthonormalise(Row& row, const Matrix& basis) {
  const double size = std::sqrt(product(row, row));
  for (int pass = 0; pass < 2; ++pass) {
    for (const Row& held : basis) {
      const double along = product(row, held);
      for (std::size_t i = 0; i < row.size(); ++i)
        row[i] -= along * held[i];
    }
  }
  const double left = std::sqrt(product(row, row));
  if (!(left > 1e-8 * size))
    return false;
  for (double& value : row)
    value /= left;
  return true;
}

/// An orthonormal basis of what intercepts and rate cannot reach.
Matrix contrasts(const std::vector<Mark>& marks) {
  const std::size_t n = marks.size();
  Matrix basis;
  for (std::size_t s = marks.front().segment; s <= marks.back().segment; ++s) {
    Row row(n);
    for (std::size_t i = 0; i < n; ++i)
      row[i] = marks[i].segment == s ? 1.0 : 0.0;
    if (orthonormalise(row, basis))
      basis.push_back(row);
  }
  Row slope(n);
  for (std::size_t i = 0; i < n; ++i)
    slope[i] = marks[i].since;
  if (!orthonormalise(slope, basis))
    return {};
  basis.push_back(slope);
  const std::size_t reached = basis.size();
  for (std::size_t i = 0; i < n && basis.size() < n; ++i) {
    Row unit(n, 0.0);
    unit[i] = 1.0;
    if (orthonormalise(unit, basis))
      basis.push_back(unit);
  }
  basis.erase(basis.begin(), basis.begin() + static_cast<std::ptrdiff_t>(reached));
  return basis;
}

double covariance(const Mark& a, const Mark& b) {
  return a.segment == b.segment ? std::min(a.since, b.since) : 0.0;
}

/// Eigenvalues of the symmetric `a` and its eigenvectors in the rows of the answer's second part, by Jacobi's
/// rotations: slow but exact enough, and the matrices are small.
struct Eigen {
  Row values;
  Matrix vectors;
};
Eigen eigenOf(Matrix a) {
  const std::size_t n = a.size();
  Matrix vectors(n, Row(n, 0.0));
  for (std::size_t i = 0; i < n; ++i)
    vectors[i][i] = 1.0;
  for (int sweep = 0; sweep < 60; ++sweep) {
    double off = 0.0;
    double all = 0.0;
    for (std::size_t p = 0; p < n; ++p)
      for (std::size_t q = 0; q < n; ++q)
        (p == q ? all : off) += a[p][q] * a[p][q];
    if (off <= 1e-28 * all)
      break;
    for (std::size_t p = 0; p < n; ++p) {
      for (std::size_t q = p + 1; q < n; ++q) {
        if (a[p][q] == 0.0)
          continue;
        const double theta = (a[q][q] - a[p][p]) / (2.0 * a[p][q]);
        const double t = (theta >= 0.0 ? 1.0 : -1.0) / (std::abs(theta) + std::sqrt(1.0 + theta * theta));
        const double c = 1.0 / std::sqrt(1.0 + t * t);
        const double s = t * c;
        for (std::size_t k = 0; k < n; ++k) {
          const double kp = a[k][p];
          const double kq = a[k][q];
          a[k][p] = c * kp - s * kq;
          a[k][q] = s * kp + c * kq;
        }
        for (std::size_t k = 0; k < n; ++k) {
          const double pk = a[p][k];
          const double qk = a[q][k];
          a[p][k] = c * pk - s * qk;
          a[q][k] = s * pk + c * qk;
          const double vp = vectors[p][k];
          const double vq = vectors[q][k];
          vectors[p][k] = c * vp - s * vq;
          vectors[q][k] = s * vp + c * vq;
        }
      }
    }
  }
  Eigen out{Row(n), std::move(vectors)};
  for (std::size_t i = 0; i < n; ++i)
    out.values[i] = std::max(0.0, a[i][i]);
  return out;
}

/// P(sum weight_i chi^2_1 > 0), weights of both signs.
double tailOf(const Row& weights) {
  const auto integrand = [&](double u) {
    double angle = 0.0;
    double logSize = 0.0;
    for (const double weight : weights) {
      angle += 0.5 * std::atan(weight * u);
      logSize += 0.25 * std::log1p(weight * weight * u * u);
    }
    return std::sin(angle) * std::exp(-logSize) / u;
  };
  const double integral = boost::math::quadrature::gauss_kronrod<double, 31>::integrate(
      integrand, 0.0, std::numeric_limits<double>::infinity(), 15, 1e-9);
  return std::clamp(0.5 + integral / boost::math::constants::pi<double>(), 0.0, 1.0);
}

/// Minus twice the restricted log likelihood, but for a constant.
double deviance(double ratio, const Row& mu, const Row& squares) {
  double sum = 0.0;
  double logs = 0.0;
  for (std::size_t i = 0; i < mu.size(); ++i) {
    sum += squares[i] / (1.0 + ratio * mu[i]);
    logs += std::log1p(ratio * mu[i]);
  }
  return static_cast<double>(mu.size()) * std::log(sum) + logs;
}

double bestRatio(const Row& mu, const Row& squares) {
  const double scale = *std::max_element(mu.begin(), mu.end());
  const auto at = [&](double logRatio) { return deviance(std::exp(logRatio) / scale, mu, squares); };
  // The likelihood may have more than one hill: look at all of it first. Beyond 1e6 noise is nothing beside
  // the walk.
  const double low = std::log(1e-6);
  const double high = std::log(1e6);
  constexpr int kLooks = 56;
  int best = 0;
  double least = deviance(0.0, mu, squares);
  bool none = true;
  for (int i = 0; i <= kLooks; ++i) {
    const double value = at(low + (high - low) * i / kLooks);
    if (value < least) {
      least = value;
      best = i;
      none = false;
    }
  }
  if (none)
    return 0.0;
  const double step = (high - low) / kLooks;
  std::uintmax_t rounds = 100;
  const auto found = boost::math::tools::brent_find_minima(
      at, std::max(low, low + step * (best - 1)), std::min(high, low + step * (best + 1)), 40, rounds);
  return std::exp(found.first) / scale;
}

}  // namespace

std::optional<ScatterGrowth> scatterGrowth(const std::vector<Segment>& segments) {
  const std::vector<Mark> marks = marksOf(segments);
  if (marks.empty() || std::any_of(marks.begin(), marks.end(), [](const Mark& mark) {
        return !std::isfinite(mark.time) || !std::isfinite(mark.error);
      }))
    return std::nullopt;
  const Matrix basis = contrasts(marks);
  const std::size_t freedom = basis.size();
  if (freedom < static_cast<std::size_t>(kLeastForGrowth))
    return std::nullopt;

  Matrix walk(freedom, Row(freedom, 0.0));
  Row seen(freedom, 0.0);
  for (std::size_t r = 0; r < freedom; ++r) {
    Row moved(marks.size(), 0.0);
    for (std::size_t i = 0; i < marks.size(); ++i) {
      for (std::size_t j = 0; j < marks.size(); ++j)
        moved[i] += covariance(marks[i], marks[j]) * basis[r][j];
      seen[r] += basis[r][i] * marks[i].error;
    }
    for (std::size_t c = 0; c < freedom; ++c)
      walk[r][c] = product(moved, basis[c]);
  }
  const Eigen eigen = eigenOf(walk);
  Row squares(freedom);
  double sum = 0.0;
  double weighted = 0.0;
  for (std::size_t i = 0; i < freedom; ++i) {
    const double along = product(eigen.vectors[i], seen);
    squares[i] = along * along;
    sum += squares[i];
    weighted += eigen.values[i] * squares[i];
  }
  const double largest = *std::max_element(eigen.values.begin(), eigen.values.end());
  if (!(sum > 0.0) || !std::isfinite(sum) || !(largest > 0.0))
    return std::nullopt;
  Row weights(freedom);
  for (std::size_t i = 0; i < freedom; ++i)
    weights[i] = (eigen.values[i] - weighted / sum) / largest;
  return ScatterGrowth{bestRatio(eigen.values, squares), tailOf(weights), static_cast<int>(freedom)};
}

}  // namespace spanwright
