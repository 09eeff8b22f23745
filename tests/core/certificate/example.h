// SPDX-License-Identifier: GPL-3.0-or-later
//
// Invented calibrations to describe and draw: laid out and judged by the same code the program uses.
#pragma once

#include <string>
#include <vector>

#include "core/certificate/certificate.h"

namespace spanwright::example {

/// A register with one channel and one calibration of it. Points into itself: not copied or moved.
struct Example {
  Example() = default;
  Example(const Example&) = delete;
  Example& operator=(const Example&) = delete;

  Register site;
  Calibration calibration;
  CertificateSource source();
};

/// Sets up `example` for a subject with this setup and plan; no readings yet.
void prepare(Example& example, const ChannelSetup& setup, const Plan& plan,
             Subject subject = Subject::channel);
/// All points of the plan, read `errors` (over and over) away from what is expected and typed with
/// `decimals`.
std::vector<Reading> readings(const Example& example, const std::vector<double>& errors, int decimals,
                              double uncertainty);
/// Sets both phases' verdicts from the readings.
void judge(Calibration& calibration);

/// 4-20 mA to 0-150 degC, five points up and down: fails as found, adjusted, passes as left.
void fiveUpDown(Example& example);
/// 24 V threshold input of type 1, not adjusted.
void threshold(Example& example);
/// Three repeats of eleven points up and down with long texts everywhere.
void longTexts(Example& example);
/// Discrete output with loss of communication, one point skipped.
void discreteOutput(Example& example);
/// Thermocouple input read in tenths with alarm levels.
void alarmLevels(Example& example);
/// Analog output with loss of communication.
void analogOutput(Example& example);
/// Pressure transmitter on its own.
void sensorAlone(Example& example);

}  // namespace spanwright::example
