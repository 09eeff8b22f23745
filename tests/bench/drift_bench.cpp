// SPDX-License-Identifier: GPL-3.0-or-later
//
// drift_bench [ROUNDS]: how well drift bands, forecast days, probabilities and findings keep what they
// promise, on invented histories whose truth is known (tests/core/drift/simulated.h). Seeded: the same table
// every time.
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>

#include "core/drift/growth.h"
#include "core/drift/like_subjects.h"
#include "core/drift/robust_rate.h"
#include "core/drift/step.h"
#include "core/tasks/drift_findings.h"
#include "tests/core/drift/simulated.h"

namespace {

using namespace spanwright;
using simulated::History;
using simulated::Kind;
using simulated::Noise;

constexpr std::array kVisits{2, 3, 4, 6, 10, 20};

struct Group {
  std::vector<History> histories;
  std::vector<DriftBasis> bases;
  std::optional<LikeSubjects> pooled;
};

Group groupOf(const Kind& kind, std::size_t size, int visits, std::mt19937_64& random) {
  Group group;
  for (std::size_t i = 0; i < size; ++i) {
    const int count = i == 0 ? visits : 2 + static_cast<int>(random() % 8);
    group.histories.push_back(simulated::historyOf(kind, count, random));
    group.bases.push_back(*driftBasis(group.histories.back().segments));
  }
  group.pooled = poolDrift(group.bases, std::vector<double>(size, 0.0));
  return group;
}

struct Share {
  int held = 0;
  int all = 0;
  void add(bool inside) {
    held += inside ? 1 : 0;
    ++all;
  }
  std::string text() const { return all < 100 ? "     -" : fmt::format("{:6.2f}", 100.0 * held / all); }
};

bool holds(const DriftBand& band, const History& history) {
  const Prediction next = predictAt(band, history.nextTime);
  return *next.low <= history.next && history.next <= *next.high;
}

void coverageRow(const Kind& kind, std::size_t size, const std::string& name, int rounds) {
  std::string pooledRow;
  std::string ownRow;
  for (const int visits : kVisits) {
    std::mt19937_64 random(20260501);
    Share pooled;
    Share own;
    for (int round = 0; round < rounds; ++round) {
      const Group group = groupOf(kind, size, visits, random);
      if (group.pooled)
        pooled.add(holds(group.pooled->subjects[0].band, group.histories[0]));
      if (const auto band = ownBand(group.bases[0]))
        own.add(holds(*band, group.histories[0]));
    }
    pooledRow += pooled.text();
    ownRow += own.text();
  }
  fmt::print("{:<44} pooled {}   own {}\n", name, pooledRow, ownRow);
  std::fflush(stdout);
}

void coverage(int rounds) {
  fmt::print(
      "Next as-found values inside the 95 % band, %, after 2, 3, 4, 6, 10, 20 calibrations ({} histories a "
      "cell,\n"
      "standard deviation {:.2f}); \"own\": the history alone, no band below one degree of freedom.\n",
      rounds, 100.0 * std::sqrt(0.95 * 0.05 / rounds));
  for (const bool adjusted : {false, true}) {
    for (const Noise noise : {Noise::normal, Noise::heavyTailed}) {
      Kind kind;
      kind.adjusted = adjusted;
      kind.noise = noise;
      coverageRow(kind, 12,
                  fmt::format("group of 12, {}, {}", adjusted ? "adjusted" : "not adjusted",
                              noise == Noise::normal ? "normal" : "t of 4 degrees"),
                  rounds);
    }
  }
  Kind kind;
  coverageRow(kind, 5, "group of 5, adjusted, normal", rounds);
  coverageRow(kind, 30, "group of 30, adjusted, normal", rounds);
  kind.scatterSpread = 0.3;
  coverageRow(kind, 12, "group of 12, scatters differ by 30 %", rounds);
}

/// First time at which the true error leaves the tolerance, from the last visit on.
double trueDay(const History& history) {
  const double limit = history.rate > 0.0 ? 1.0 : -1.0;
  return history.nextTime + (limit - history.nextTrue) / history.rate;
}

void forecastDays(int rounds) {
  fmt::print(
      "\nDay the line leaves tolerance, less the true day, in days (rates 0.3 a year, spread 0.1, within 6 "
      "years):\n");
  for (const int visits : kVisits) {
    std::mt19937_64 random(20260502);
    Kind kind;
    kind.rateMean = 0.3;
    double sum = 0.0;
    double size = 0.0;
    double ownSize = 0.0;
    int bandBefore = 0;
    int all = 0;
    int owns = 0;
    for (int round = 0; round < rounds; ++round) {
      const Group group = groupOf(kind, 12, visits, random);
      const History& history = group.histories[0];
      const double real = trueDay(history);
      if (!group.pooled || real > history.nextTime + 6.0)
        continue;
      const DriftBand& band = group.pooled->subjects[0].band;
      const auto line = lineLeaves(band, -1.0, 1.0, band.lastTime, history.nextTime + 30.0);
      const auto edge = bandLeaves(band, -1.0, 1.0, band.lastTime, history.nextTime + 30.0);
      if (!line)
        continue;
      ++all;
      sum += *line - real;
      size += std::abs(*line - real);
      bandBefore += edge && *edge <= real ? 1 : 0;
      if (const auto own = ownBand(group.bases[0])) {
        const auto alone = lineLeaves(*own, -1.0, 1.0, own->lastTime, history.nextTime + 30.0);
        ownSize += alone ? std::abs(*alone - real) : 0.0;
        owns += alone ? 1 : 0;
      }
    }
    fmt::print(
        "  {:2} visits: mean {:6.0f}, mean size {:5.0f} (own fit {:5.0f}); band out before the true day "
        "{:5.1f} %\n",
        visits, 365.25 * sum / all, 365.25 * size / all, owns > 0 ? 365.25 * ownSize / owns : 0.0,
        100.0 * bandBefore / all);
  }
}

void calibration(int rounds) {
  fmt::print(
      "\nProbability of being in tolerance, said and happened (groups of 12, 3 calibrations, limits 0.4):\n");
  std::mt19937_64 random(20260503);
  Kind kind;
  kind.rateSpread = 0.25;
  std::array<double, 10> said{};
  std::array<double, 10> happened{};
  std::array<int, 10> count{};
  for (int round = 0; round < rounds; ++round) {
    const Group group = groupOf(kind, 12, 3, random);
    for (std::size_t i = 0; group.pooled && i < group.bases.size(); ++i) {
      const History& history = group.histories[i];
      const double p = *probabilityWithin(group.pooled->subjects[i].band, history.nextTime, -0.4, 0.4);
      const auto bin = std::min<std::size_t>(9, static_cast<std::size_t>(10.0 * p));
      said[bin] += p;
      happened[bin] += std::abs(history.next) <= 0.4 ? 1.0 : 0.0;
      ++count[bin];
    }
  }
  for (std::size_t bin = 0; bin < 10; ++bin)
    fmt::print("  said {:5.1f} %  happened {:5.1f} %  ({} readings)\n", 100.0 * said[bin] / count[bin],
               100.0 * happened[bin] / count[bin], count[bin]);
}

void falseAlarms(int rounds) {
  fmt::print(
      "\nFalse alarms in quiet points of groups of 12, per 10 000 (stated: at most 100, and at most "
      "2;\nsteps and scatter are judged from {} degrees of freedom on):\n",
      kLeastOfItsOwn);
  for (const int visits : {3, 5, 6, 8, 10, 15}) {
    std::mt19937_64 random(20260504);
    std::array<std::array<int, 2>, 4> found{};
    constexpr std::array kRates{0.01, 2e-4};
    int all = 0;
    for (int round = 0; round < rounds; ++round) {
      Group group;
      for (std::size_t i = 0; i < 12; ++i) {
        group.histories.push_back(simulated::historyOf(Kind{}, visits, random));
        group.bases.push_back(*driftBasis(group.histories.back().segments));
      }
      group.pooled = poolDrift(group.bases, std::vector<double>(12, 0.0));
      for (std::size_t i = 0; group.pooled && i < 12; ++i) {
        const PooledDrift& pooled = group.pooled->subjects[i];
        const auto& segments = group.histories[i].segments;
        const auto step = likeliestStep(segments, {pooled.priorVariance, pooled.priorDegreesOfFreedom});
        const auto growth = scatterGrowth(segments);
        const bool judged = group.bases[i].degreesOfFreedom >= kLeastOfItsOwn;
        const std::array<std::optional<double>, 4> tails{
            judged && step ? std::optional(step->pValue) : std::nullopt,
            judged ? pooled.scatterPValue : std::nullopt, pooled.ratePValue,
            growth ? std::optional(growth->pValue) : std::nullopt};
        for (std::size_t kind = 0; kind < 4; ++kind)
          for (std::size_t rate = 0; rate < 2; ++rate)
            found[kind][rate] += tails[kind] && *tails[kind] < kRates[rate] ? 1 : 0;
        ++all;
      }
    }
    const auto per = [&](int count) { return 1e4 * count / all; };
    fmt::print(
        "  {:2} visits, {} points: step {:5.1f} {:4.1f}, intermittent {:5.1f} {:4.1f}, fast drift {:5.1f} "
        "{:4.1f}, "
        "growing scatter {:5.1f} {:4.1f}\n",
        visits, all, per(found[0][0]), per(found[0][1]), per(found[1][0]), per(found[1][1]), per(found[2][0]),
        per(found[2][1]), per(found[3][0]), per(found[3][1]));
  }
}

}  // namespace

int main(int count, char** arguments) {
  const int rounds = count > 1 ? std::atoi(arguments[1]) : 4000;
  if (rounds < 200) {
    fmt::print(stderr, "usage: drift_bench [ROUNDS, at least 200]\n");
    return 2;
  }
  coverage(rounds);
  forecastDays(rounds);
  calibration(rounds);
  falseAlarms(rounds);
  return 0;
}
