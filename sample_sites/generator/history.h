// SPDX-License-Identifier: GPL-3.0-or-later
//
// The years of visits to an invented site, and the truth behind the readings.
#pragma once

#include <string>
#include <vector>

#include "sample_sites/generator/sheet.h"
#include "sample_sites/generator/site.h"

namespace spanwright::sample {

/// One reading as a technician would write it down; numbers with a decimal point, units apart.
struct Line {
  std::string key, direction;
  std::string applied, appliedUnit;  ///< empty where nothing is applied (switching, alarms, states)
  std::string reading, readingUnit;
};

struct Visit {
  std::string channel, subject, plan;
  When performed;
  int setup = 1;
  std::string sensor;
  std::string person;
  std::vector<std::string> standards;
  double temperature = 0.0, humidity = 0.0;
  bool adjusted = false;
  std::string adjustment, remarks;
  std::vector<Line> found, left;
  std::vector<std::string> skipped;            ///< keys of the points left out; `skipReason` says why
  std::vector<std::string> skippedDirections;  ///< in which directions they would have been taken
  std::string skipReason;
  bool milliamps = false;  ///< a current was injected
  // Truth.
  double zeroMoved = 0.0, spanMoved = 0.0;  ///< adjustment at 0 % and further at 100 %, in tolerances
  bool faultyStandard = false;              ///< the standard's fault is in these readings
};

/// The true drift of one subject at one point, from `from` to the next break of setup or sensor.
struct TrueRate {
  std::string channel, subject;
  int setup = 1;
  std::string sensor;
  std::string point, unit;
  double ratePerYear = 0.0, noiseSd = 0.0, resolution = 0.0, hysteresis = 0.0;
  int visits = 0;              ///< with an as-found reading there
  std::string notRecoverable;  ///< why the rate cannot be told from the readings; empty when it can
};

struct TrueBreak {
  std::string channel, subject, cause;
  When at;
  std::string point, unit;
  double amount = 0.0;  ///< by how much the error at the point jumped, reading units; adjustments only
};

/// A fault put in on purpose.
struct TrueFault {
  std::string channel, subject, kind;
  When at = {};        ///< when it came; all zero: it was there from the beginning
  std::string amount;  ///< in tolerances (fast drift: per year); faulty standard: share of the current
};

struct History {
  std::vector<Visit> visits;  ///< by time
  std::vector<TrueRate> rates;
  std::vector<TrueBreak> breaks;
  std::vector<TrueFault> faults;
  std::optional<Visit> next;  ///< the one in visit.toml, after the history
};

History simulate(const SiteSpec& site);

}  // namespace spanwright::sample
