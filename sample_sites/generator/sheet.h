// SPDX-License-Identifier: GPL-3.0-or-later
//
// What one visit asks for and what an ideal subject would answer. Worked out here from the standards'
// formulas and not with the program's own code, so that the histories are a second road to what the program
// computes.
#pragma once

#include <string>
#include <vector>

#include "sample_sites/generator/site.h"

namespace spanwright::sample {

enum class Role { value, switching, alarm, state, loss };

struct SheetPoint {
  std::string key;        ///< "25", "on", "high-high trip"
  std::string direction;  ///< "up", "down", empty
  Role role = Role::value;
  double percent = 0.0;   ///< of span; where on the line from zero to span the drift is read off
  double nominal = 0.0;   ///< applied, value points only
  double expected = 0.0;  ///< for the nominal
};

class Sheet {
 public:
  /// `sensor` may be nullptr for subject channel.
  Sheet(const PlanSpec& plan, const std::string& subject, const SetupSpec& setup, const SensorSpec* sensor);

  const std::vector<SheetPoint>& points() const { return points_; }
  const std::string& appliedUnit() const { return applied_.unit; }
  const std::string& readingUnit() const { return reading_.unit; }
  /// Smallest change of what is read, in reading units.
  double step() const { return step_; }
  bool takesOhms() const { return ohms_; }

  /// The reading an ideal subject gives; value points only.
  double expected(double applied) const;
  /// Plus/minus limit where `expected` is expected.
  double tolerance(double expected) const;
  /// `reading` as it would be shown.
  double shown(double reading) const;

 private:
  void valuePoints(const PlanSpec& plan);
  void alarmPoints(const SetupSpec& setup);
  void lossPoint(const SetupSpec& setup);

  Range applied_, reading_;
  bool root_ = false;
  double step_ = 0.0;
  double converterStep_ = 0.0;  ///< of a reading in counts
  double perUnit_ = 1.0;        ///< reading for one engineering unit
  bool ohms_ = false;
  ToleranceSpec tolerance_;
  std::vector<SheetPoint> points_;
};

/// IEC 60751 resistance of a platinum element of `nominalOhms` at 0 degC, and back (-200 to 850 degC).
double platinumOhms(double nominalOhms, double celsius);
double platinumCelsius(double nominalOhms, double ohms);

}  // namespace spanwright::sample
