// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/step.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <utility>

#include "core/drift/fit.h"

namespace spanwright {

namespace {

// Below this fraction of its own size, what is left of the step's indicator is rounding.
constexpr double kNothingLeft = 1e-9;

double twoSided(double t, double freedom) {
  if (std::isinf(freedom))
    return 2.0 * boost::math::cdf(boost::math::complement(boost::math::normal(), std::abs(t)));
  return 2.0 * boost::math::cdf(boost::math::complement(boost::math::students_t(freedom), std::abs(t)));
}

/// Residuals of the line fit, segment by segment, and what it takes to project on it.
class Residuals {
 public:
  Residuals(const std::vector<Segment>& segments, const DriftFit& fit) : fit_(fit) {
    for (std::size_t s = 0; s < segments.size(); ++s) {
      const auto& readings = segments[s].readings;
      const auto count = static_cast<double>(readings.size());
      double time = 0.0;
      double error = 0.0;
      for (const DriftReading& reading : readings) {
        time += (reading.time - readings.front().time) / count;
        error += (reading.error - readings.front().error) / count;
      }
      times_.emplace_back();
      residuals_.emplace_back();
      for (const DriftReading& reading : readings) {
        times_.back().push_back(reading.time - readings.front().time - time);
        residuals_.back().push_back(reading.error - readings.front().error - error -
                                    fit.rate * times_.back().back());
        sum_ += residuals_.back().back() * residuals_.back().back();
      }
    }
  }

  double sum() const { return sum_; }

  /// The step behind reading `k` of segment `s`: sum of e h and of h^2.
  std::pair<double, double> along(std::size_t s, std::size_t k) const {
    const auto& times = times_[s];
    const auto count = static_cast<double>(times.size());
    const double behind = (count - 1.0 - static_cast<double>(k)) / count;
    double followed = 0.0;  // of the rate
    double cumulative = 0.0;
    for (std::size_t i = k + 1; i < times.size(); ++i) {
      followed += times[i];
      cumulative += residuals_[s][i];
    }
    // h = indicator - its mean - followed / Sxx * (t - mean t), in all segments.
    const double square = behind * (1.0 - behind) * count - followed * followed / fit_.sxx;
    return {cumulative, square > kNothingLeft * count ? square : 0.0};
  }

 private:
  const DriftFit& fit_;
  std::vector<std::vector<double>> times_, residuals_;
  double sum_ = 0.0;
};

}  // namespace

std::optional<StepFound> likeliestStep(const std::vector<Segment>& segments, const ScatterKnown& known) {
  const auto fit = fitDrift(segments);
  if (!fit)
    return std::nullopt;
  const Residuals residuals(segments, *fit);
  const int own = fit->degreesOfFreedom - 1;
  const double freedom = own + known.degreesOfFreedom;
  if (own < 0 || !(freedom > 0.0))
    return std::nullopt;

  std::optional<StepFound> best;
  double most = 0.0;
  int places = 0;
  for (std::size_t s = 0; s < segments.size(); ++s) {
    const auto& readings = segments[s].readings;
    for (std::size_t k = 0; k + 1 < readings.size(); ++k) {
      const auto [along, square] = residuals.along(s, k);
      if (square == 0.0 || readings[k].time == readings[k + 1].time)
        continue;
      ++places;
      const double explained = along * along / square;
      if (!best || explained > most) {
        most = explained;
        best = StepFound{readings[k].time, readings[k + 1].time, along / square, 1.0 / std::sqrt(square)};
      }
    }
  }
  if (!best)
    return std::nullopt;
  const double left = own == 0 ? 0.0 : std::max(0.0, residuals.sum() - most);
  const double seen = std::isinf(known.degreesOfFreedom)
                          ? known.variance
                          : (left + known.degreesOfFreedom * known.variance) / freedom;
  const double variance = std::max(seen, known.leastVariance);
  if (!(variance > 0.0) || !std::isfinite(variance))
    return std::nullopt;
  best->standardError *= std::sqrt(variance);
  best->pValue = std::min(1.0, places * twoSided(best->amount / best->standardError, freedom));
  best->residualVariance = own > 0 ? left / own : 0.0;
  best->degreesOfFreedom = own;
  return best;
}

}  // namespace spanwright
