// SPDX-License-Identifier: GPL-3.0-or-later
//
// Short ways to describe the parts of a site.
#pragma once

#include "sample_sites/generator/site.h"

namespace spanwright::sample {

// Setups. `units` is what the signal means; a 16-bit converter scaled to 0..32000 counts unless said
// otherwise.
SetupSpec current(Range units, double resolution, double low = 4.0);
SetupSpec voltage(Range units, double resolution);
SetupSpec countsOf(SetupSpec setup, double countsHigh, int bits);  ///< reads as counts
SetupSpec rootFlow(Range units, double resolution, double cutOffPercent);
SetupSpec couple(const std::string& type, double low, double high, double resolution, bool tenths = false);
SetupSpec rtd(const std::string& element, int wires, double low, double high, bool tenths = false);
SetupSpec threshold(double rated, double on, double off, int inputType = 0);
SetupSpec analogOut(Range signal, Range units, const std::string& onLoss);
SetupSpec analogOutCounts(Range signal, double countsHigh, const std::string& onLoss);
SetupSpec discreteOut(const std::string& onLoss);
SetupSpec withAlarms(SetupSpec setup, const Alarms& alarms);
SetupSpec since(SetupSpec setup, When from, const std::string& remark);

// Manners.
Manner steady();                                             ///< drifts little, hardly ever needs adjusting
Manner drifting();                                           ///< needs adjusting every few years
Manner restless();                                           ///< is found out of tolerance now and then
Manner stepping(Manner manner, When at, double tolerances);  ///< jumps once, and is left as it is

/// Adds channels of one place one after the other, terminals numbered from 1.
class Station {
 public:
  Station(SiteSpec& site, std::string place) : site_(&site), place_(std::move(place)) {}
  /// In force from the site's commissioning on unless `setup` says since when.
  ChannelSpec& add(const std::string& tag, const std::string& title, SetupSpec setup, const std::string& plan,
                   const std::string& interval, const Manner& manner);

 private:
  SiteSpec* site_;
  std::string place_;
  int terminal_ = 0;
};

/// Fits `sensor` (already described) from the first setup on.
void fit(ChannelSpec& channel, const std::string& sensor);
void routine(ChannelSpec& channel, const std::string& subject, const std::string& plan,
             const std::string& interval, const Manner& manner);

/// The day every sample site was commissioned.
When commissioned();

// Standards: yearly certificates over the years, drifting a little from one to the next.
struct StandardRange {
  std::string unit;
  double resolution = 0.0;
  std::vector<double> nominals;
  double uncertainty = 0.0;         ///< expanded, k = 2, at zero
  double uncertaintyPerUnit = 0.0;  ///< more of it per unit of |nominal|
};
StandardSpec standard(const std::string& serial, const std::string& model, const std::string& description,
                      const std::string& location, unsigned month, int firstYear, int lastYear,
                      const std::vector<StandardRange>& ranges);

/// Cautions every plan begins with, then those of its own.
std::vector<std::string> cautions(std::vector<std::string> own);

}  // namespace spanwright::sample
