// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the files describing Larkmead share.
#pragma once

#include "sample_sites/generator/site.h"

namespace spanwright::sample {

inline constexpr const char* kHall = "Pasteuriser hall";
inline constexpr const char* kColdStore = "Cold store";
inline constexpr const char* kTankFarm = "Tank farm";
inline constexpr const char* kSkid = "Cleaning skid";

/// The standard later found bad: it was knocked on this day; its laboratory saw it at the next certificate.
inline constexpr const char* kFaultySerial = "LC-2202";
inline When faultSince() {
  return when(2023, 6, 1);
}
inline constexpr double kFaultShare = 0.0026;
/// Indication less true value of its current source from that day until the certificate of 2024.
double faultAt(double milliamps);

void larkmeadSensors(SiteSpec& site);
void larkmeadChannels(SiteSpec& site);

}  // namespace spanwright::sample
