// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/like_subjects.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cassert>
#include <cmath>
#include <limits>

#include "core/drift/pool.h"

namespace spanwright {

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kSuspicious = 0.01;
// Only a rate that stands out this far is compared with its group less itself, which costs a pooling each.
constexpr double kFarEnough = 1.5;

bool usable(const std::vector<Segment>& segments) {
  return !segments.empty() && std::all_of(segments.begin(), segments.end(), [](const Segment& segment) {
    return !segment.readings.empty() &&
           std::all_of(segment.readings.begin(), segment.readings.end(), [](const DriftReading& reading) {
             return std::isfinite(reading.time) && std::isfinite(reading.error);
           });
  });
}

using Column = std::vector<double>;

double dot(const Column& a, const Column& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i)
    sum += a[i] * b[i];
  return sum;
}

/// Divides by the covariance of a segment's readings, 1 + growth min(t, t'), by its Cholesky factor.
class Whitener {
 public:
  Whitener(const Segment& segment, double growth) {
    if (growth == 0.0)
      return;
    const std::size_t n = segment.readings.size();
    const auto since = [&](std::size_t i) {
      return segment.readings[i].time - segment.readings.front().time;
    };
    factor_.assign(n, Column(n, 0.0));
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j <= i; ++j) {
        double sum = growth * std::min(since(i), since(j)) + (i == j ? 1.0 : 0.0);
        for (std::size_t k = 0; k < j; ++k)
          sum -= factor_[i][k] * factor_[j][k];
        factor_[i][j] = i == j ? std::sqrt(sum) : sum / factor_[j][j];
      }
    }
  }

  /// L^-1 column: its products are those with the inverse covariance.
  Column operator()(Column column) const {
    for (std::size_t i = 0; i < factor_.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k)
        column[i] -= factor_[i][k] * column[k];
      column[i] /= factor_[i][i];
    }
    return column;
  }

 private:
  std::vector<Column> factor_;  ///< empty: independent readings
};

/// One segment, whitened and centred (times and errors about its first reading).
struct Whitened {
  Column ones, times, errors;
  double ofOnes = 0.0, meanTime = 0.0, meanError = 0.0;

  Whitened(const Segment& segment, const Whitener& whiten) {
    const DriftReading& first = segment.readings.front();
    for (const DriftReading& reading : segment.readings) {
      times.push_back(reading.time - first.time);
      errors.push_back(reading.error - first.error);
    }
    ones = whiten(Column(segment.readings.size(), 1.0));
    times = whiten(std::move(times));
    errors = whiten(std::move(errors));
    ofOnes = dot(ones, ones);
    meanTime = dot(ones, times) / ofOnes;
    meanError = dot(ones, errors) / ofOnes;
    for (std::size_t i = 0; i < ones.size(); ++i) {
      times[i] -= meanTime * ones[i];
      errors[i] -= meanError * ones[i];
    }
    meanTime += first.time;
    meanError += first.error;
  }
};

void predictFrom(const Segment& last, const Whitened& seen, const Whitener& whiten, DriftBasis& basis) {
  basis.lastTime = last.readings.back().time;
  basis.anchor = seen.meanTime;
  basis.level = seen.meanError;
  basis.ofReading = 1.0 + 1.0 / seen.ofOnes;
  if (basis.growth == 0.0)
    return;
  Column shared;  // covariance of the walk at the next reading with that at each one so far
  for (const DriftReading& reading : last.readings)
    shared.push_back(basis.growth * (reading.time - last.readings.front().time));
  const double walked = shared.back();
  shared = whiten(std::move(shared));
  basis.level += dot(shared, seen.errors);
  basis.anchor += dot(shared, seen.times);
  const double missing = 1.0 - dot(shared, seen.ones);
  basis.ofReading = 1.0 + walked - dot(shared, shared) + missing * missing / seen.ofOnes;
}

std::vector<ScatterEstimate> scattersOf(const std::vector<DriftBasis>& subjects,
                                        const std::vector<double>& least) {
  std::vector<ScatterEstimate> scatters;
  for (std::size_t i = 0; i < subjects.size(); ++i)
    scatters.push_back({std::max(subjects[i].residualVariance, least[i]), subjects[i].degreesOfFreedom});
  return scatters;
}

/// By how much the mean of s^2 falls short of its own when values beyond the tail kSuspicious are left out.
double leftOfMean(double d) {
  const double most =
      boost::math::quantile(boost::math::complement(boost::math::chi_squared(d), kSuspicious));
  return boost::math::cdf(boost::math::chi_squared(d + 2.0), most) / (1.0 - kSuspicious);
}

double scatterTail(double ratio, int own, double prior) {
  if (std::isinf(prior))
    return boost::math::cdf(boost::math::complement(boost::math::chi_squared(own), ratio * own));
  return boost::math::cdf(boost::math::complement(boost::math::fisher_f(own, prior), ratio));
}

/// For how many degrees of freedom the others' scatter counts. A subject's own variance lies about the
/// group's as d0 tells, and the group's is itself known only as well as the others tell it: each s^2 has the
/// squared relative error 2 / d + 2 / d0. Both add up: 1 / counted = 1 / d0 + 1 / sum 1 / (1 / d + 1 / d0);
/// all that the others have when they scatter alike (d0 infinite).
double countedOf(const std::vector<ScatterEstimate>& group, std::size_t self, double d0) {
  double told = 0.0;
  for (std::size_t i = 0; i < group.size(); ++i) {
    if (i != self && group[i].degreesOfFreedom > 0)
      told += 1.0 / (1.0 / group[i].degreesOfFreedom + 1.0 / d0);
  }
  return 1.0 / (1.0 / d0 + 1.0 / told);
}

class Pooling {
 public:
  Pooling(const std::vector<DriftBasis>& subjects, const std::vector<double>& least)
      : subjects_(subjects),
        scatters_(scattersOf(subjects, least)),
        leaveOut_(subjects.size() <= kLeaveOutUpTo) {
    out_.subjects.resize(subjects.size());
  }

  std::optional<LikeSubjects> run() {
    judgeScatter();
    return poolScatters() && poolTheRates() ? std::optional(out_) : std::nullopt;
  }

 private:
  /// Several strange subjects would hide each other, so the group is first told by its middle: those far
  /// above it do not take part in saying how alike the others are, and are judged against them.
  void judgeScatter() {
    const double middle = middleVariance();
    std::vector<ScatterEstimate> quiet = scatters_;
    double degrees = 0.0;
    for (std::size_t i = 0; i < subjects_.size(); ++i) {
      const int own = scatters_[i].degreesOfFreedom;
      if (own <= 0 || !(middle > 0.0))
        continue;
      const double tail = scatterTail(scatters_[i].variance / middle, own, kInfinity);
      out_.subjects[i].scatterPValue = tail;
      quiet[i].variance /= leftOfMean(own);
      quiet[i].degreesOfFreedom = tail < kSuspicious ? 0 : own;
      degrees += quiet[i].degreesOfFreedom;
    }
    const auto prior = poolScatter(quiet);
    for (std::size_t i = 0; prior && i < subjects_.size(); ++i) {
      PooledDrift& subject = out_.subjects[i];
      subject.priorVariance = prior->variance;
      // Not countedOf: the tests made with it are strict enough already (tests/bench/drift_bench).
      subject.priorDegreesOfFreedom = std::min(prior->degreesOfFreedom, degrees - quiet[i].degreesOfFreedom);
      if (subject.scatterPValue && quiet[i].degreesOfFreedom == 0) {
        subject.scatterPValue = scatterTail(scatters_[i].variance / prior->variance,
                                            scatters_[i].degreesOfFreedom, subject.priorDegreesOfFreedom);
        subject.scatterApart = *subject.scatterPValue < kApart;
      }
    }
  }

  /// The median of s^2, each over the median that its degrees of freedom lead to expect; 0 where none tells.
  double middleVariance() const {
    std::vector<double> told;
    for (const ScatterEstimate& scatter : scatters_) {
      const double d = scatter.degreesOfFreedom;
      if (d > 0.0)
        told.push_back(scatter.variance * d / boost::math::median(boost::math::chi_squared(d)));
    }
    if (told.empty())
      return 0.0;
    const auto middle = told.begin() + static_cast<std::ptrdiff_t>(told.size() / 2);
    std::nth_element(told.begin(), middle, told.end());
    return *middle;
  }

  bool poolScatters() {
    std::vector<ScatterEstimate> kept = scatters_;
    for (std::size_t i = 0; i < kept.size(); ++i)
      kept[i].degreesOfFreedom = out_.subjects[i].scatterApart ? 0 : kept[i].degreesOfFreedom;
    const auto pooled = poolScatter(kept);
    if (!pooled)
      return false;
    out_.group.scatter = std::sqrt(pooled->variance);
    out_.group.scatterDegreesOfFreedom = pooled->degreesOfFreedom;
    for (std::size_t i = 0; i < kept.size(); ++i) {
      PooledDrift& subject = out_.subjects[i];
      const double own = scatters_[i].degreesOfFreedom;
      const double prior = subject.scatterApart ? 0.0 : countedOf(kept, i, pooled->degreesOfFreedom);
      const double variance = (prior * pooled->variance + own * scatters_[i].variance) / (prior + own);
      subject.band.scatter = std::sqrt(variance);
      subject.band.degreesOfFreedom = prior + own;
    }
    return true;
  }

  RateEstimate estimateOf(std::size_t i) const {
    const double scatter = *out_.subjects[i].band.scatter;
    return {subjects_[i].rate, scatter * scatter * subjects_[i].rateVariance};
  }

  bool poolTheRates() {
    std::vector<RateEstimate> estimates;
    std::vector<std::size_t> whose;
    for (std::size_t i = 0; i < subjects_.size(); ++i) {
      if (subjects_[i].tellsRate() && estimateOf(i).variance > 0.0) {
        estimates.push_back(estimateOf(i));
        whose.push_back(i);
      }
    }
    const auto pooled = poolRates(estimates);
    if (!pooled)
      return false;
    out_.group.size = static_cast<int>(estimates.size());
    out_.group.rateMean = pooled->mean;
    out_.group.rateMeanStandardError = std::sqrt(pooled->meanVariance);
    out_.group.rateSpread = std::sqrt(pooled->betweenVariance);
    for (std::size_t i = 0; i < subjects_.size(); ++i)
      place(i, pooled->otherMean, pooled->otherVariance);
    for (std::size_t e = 0; e < whose.size(); ++e) {
      place(whose[e], pooled->shrunk[e], pooled->shrunkVariance[e]);
      out_.subjects[whose[e]].ratePValue = rateTail(estimates, e, *pooled);
    }
    return true;
  }

  void place(std::size_t i, double rate, double variance) {
    PooledDrift& subject = out_.subjects[i];
    subject.band.rate = rate;
    subject.band.rateVariance = variance;
    subject.rateStandardError = std::sqrt(variance);
    subject.band.anchor = subjects_[i].anchor;
    subject.band.level = subjects_[i].level;
    subject.band.lastTime = subjects_[i].lastTime;
    subject.band.ofReading = subjects_[i].ofReading;
    subject.band.growth = subjects_[i].growth;
  }

  /// The spread of the others is known with k - 2 degrees of freedom.
  std::optional<double> rateTail(const std::vector<RateEstimate>& estimates, std::size_t e,
                                 const PooledRates& all) const {
    const auto apart = [&](const PooledRates& group) {
      return std::abs(estimates[e].rate - group.otherMean) /
             std::sqrt(group.otherVariance + estimates[e].variance);
    };
    double t = apart(all);
    double degrees = static_cast<double>(estimates.size()) - 1.0;
    if (leaveOut_ && t > kFarEnough) {
      std::vector<RateEstimate> rest = estimates;
      rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(e));
      const auto others = poolRates(rest);
      if (!others)
        return std::nullopt;
      t = apart(*others);
      degrees -= 1.0;
    }
    return 2.0 * boost::math::cdf(boost::math::complement(boost::math::students_t(degrees), t));
  }

  const std::vector<DriftBasis>& subjects_;
  std::vector<ScatterEstimate> scatters_;
  bool leaveOut_;
  LikeSubjects out_;
};

}  // namespace

bool DriftBasis::tellsRate() const {
  return std::isfinite(rateVariance);
}

std::optional<DriftBasis> driftBasis(const std::vector<Segment>& segments, double growth) {
  if (!usable(segments))
    return std::nullopt;
  DriftBasis basis;
  basis.growth = growth;
  std::vector<Whitened> seen;
  double sxx = 0.0;
  double sxy = 0.0;
  int readings = 0;
  for (const Segment& segment : segments) {
    seen.emplace_back(segment, Whitener(segment, growth));
    sxx += dot(seen.back().times, seen.back().times);
    sxy += dot(seen.back().times, seen.back().errors);
    readings += static_cast<int>(segment.readings.size());
  }
  const bool tells = sxx > 0.0 && std::isfinite(sxx) && std::isfinite(sxy);
  basis.rate = tells ? sxy / sxx : 0.0;
  basis.rateVariance = tells ? 1.0 / sxx : kInfinity;
  basis.degreesOfFreedom = std::max(0, readings - static_cast<int>(segments.size()) - (tells ? 1 : 0));
  double rss = 0.0;
  for (const Whitened& segment : seen) {
    for (std::size_t i = 0; i < segment.times.size(); ++i) {
      const double residual = segment.errors[i] - basis.rate * segment.times[i];
      rss += residual * residual;
    }
  }
  if (!std::isfinite(rss))
    return std::nullopt;
  basis.residualVariance = basis.degreesOfFreedom > 0 ? rss / basis.degreesOfFreedom : 0.0;
  predictFrom(segments.back(), seen.back(), Whitener(segments.back(), growth), basis);
  return basis;
}

std::optional<DriftBand> ownBand(const DriftBasis& basis) {
  if (!basis.tellsRate() || basis.degreesOfFreedom < 1)
    return std::nullopt;
  return DriftBand{basis.rate,
                   basis.anchor,
                   basis.level,
                   basis.lastTime,
                   std::sqrt(basis.residualVariance),
                   basis.ofReading,
                   basis.growth,
                   basis.residualVariance * basis.rateVariance,
                   static_cast<double>(basis.degreesOfFreedom)};
}

std::optional<LikeSubjects> poolDrift(const std::vector<DriftBasis>& subjects,
                                      const std::vector<double>& leastVariance) {
  assert(subjects.size() == leastVariance.size());
  return Pooling(subjects, leastVariance).run();
}

}  // namespace spanwright
