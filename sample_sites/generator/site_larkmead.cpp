// SPDX-License-Identifier: GPL-3.0-or-later
//
// Larkmead Creamery: an invented site. Everything but its channels.
#include "sample_sites/generator/describe.h"
#include "sample_sites/generator/larkmead.h"
#include "sample_sites/generator/text.h"

namespace spanwright::sample {

namespace {

void cabinet(SiteSpec& site, const std::string& area, const std::string& name, int stations) {
  const std::string path = area + " / " + name;
  site.places.push_back(area);
  site.places.push_back(path);
  for (int station = 1; station <= stations; ++station) {
    site.places.push_back(path);
    site.places.back().append(" / Station ").append(std::to_string(station));
  }
}

void peopleAndPlaces(SiteSpec& site) {
  site.people = {
      {"mtolland",
       "Mara Tolland",
       {"technician"},
       std::nullopt,
       8,
       {{day(2027, 2, 15), day(2027, 2, 26), "holidays"}}},
      {"jfenwick", "Joss Fenwick", {"technician"}, day(2021, 6, 30)},
      {"ibrandner",
       "Ilse Brandner",
       {"technician"},
       std::nullopt,
       6,
       {{day(2027, 3, 22), day(2027, 4, 2), "holidays"}, {day(2027, 5, 3), day(2027, 5, 4), "training"}}},
      {"twyke", "Tomas Wyke", {"planner"}, std::nullopt},
      {"oharrow", "Odile Harrow", {"reviewer"}, std::nullopt},
      {"spelham", "Signe Pelham", {"administrator", "planner"}, std::nullopt},
  };
  cabinet(site, kHall, "Cabinet P1", 3);
  cabinet(site, kColdStore, "Cabinet C1", 2);
  cabinet(site, kTankFarm, "Cabinet T1", 2);
  cabinet(site, kSkid, "Cabinet S1", 1);
  site.intervals = {
      {"half-yearly", "fixed", 6, 0, 0, 0},
      {"yearly", "fixed", 12, 0, 0, 0},
      {"yearly-reviewed", "fixed", 12, 0, 180, 730},
      {"360-days", "fixed", 0, 360, 90, 1095},
      {"two-yearly", "fixed", 24, 0, 0, 0},
      {"stepwise", "staircase", 12, 0, 90, 1095, {{"lengthen", 1.25}, {"shorten", 0.5}}},
      {"to-target", "reliability", 12, 0, 90, 1095, {{"target", 0.9}}},
      {"by-forecast", "forecast", 12, 0, 60, 1095},
  };
  for (int year = 2025; year <= 2028; ++year) {
    site.closed.push_back({day(year, 8, 1), day(year, 8, 15), "summer maintenance shutdown"});
    site.closed.push_back({day(year, 12, 24), day(year + 1, 1, 2), "winter shutdown"});
  }
  site.closed.push_back({day(2027, 5, 14), day(2027, 5, 14), "founders' day"});
  site.closed.push_back({day(2028, 5, 12), day(2028, 5, 12), "founders' day"});
}

/// Some yearly routines are under the policies that propose another interval; all start with a year, so that
/// the histories are the same under each.
void policies(SiteSpec& site) {
  for (ChannelSpec& channel : site.channels) {
    for (RoutineSpec& routine : channel.routines) {
      if (routine.interval != "yearly" || routine.subject != "channel") {
        continue;
      }
      if (routine.plan.starts_with("TC-5") || routine.plan.starts_with("RTD-5")) {
        routine.interval = "to-target";
      } else if (routine.plan == "TH-1" || routine.plan == "AO-5") {
        routine.interval = "stepwise";
      } else if (routine.plan == "AI-5UD" || routine.plan == "SQ-4") {
        routine.interval = "by-forecast";
      }
    }
  }
}

std::vector<PlanSpec> inputPlans() {
  const auto inject =
      cautions({"Disconnect the field wire before injecting: a loop supply against a source "
                "damages both."});
  const std::vector<double> fifths{0, 25, 50, 75, 100};
  return {
      {"AI-5UD",
       "2",
       "Analog input, five points up and down",
       "WI-012 rev 2",
       fifths,
       "up-down",
       false,
       false,
       {.percentOfSpan = 0.25},
       0.7,
       5,
       25,
       inject},
      {"AI-5A",
       "1",
       "Analog input with alarm levels",
       "WI-013 rev 1",
       fifths,
       "up-down",
       true,
       false,
       {.percentOfSpan = 0.25},
       0.7,
       5,
       40,
       cautions(
           {"Alarm levels are passed on purpose: have trips and interlocks bypassed under the site's own "
            "rules, and put them back."})},
      {"AI-5C",
       "1",
       "Analog input read in counts, away from the converter's ends",
       "WI-014 rev 1",
       {5, 25, 50, 75, 95},
       "up",
       false,
       false,
       {.percentOfSpan = 0.2, .counts = 16},
       0.7,
       5,
       20,
       inject},
      {"SQ-4",
       "1",
       "Flow input with square root",
       "WI-015 rev 1",
       {4, 25, 56.25, 100},
       "up",
       false,
       false,
       {.percentOfSpan = 0.5},
       0.7,
       5,
       20,
       inject},
      {"TC-5",
       "3",
       "Thermocouple input, simulated temperature",
       "WI-020 rev 3",
       fifths,
       "up",
       false,
       false,
       {.absolute = 1.0, .percentOfReading = 0.2},
       0.7,
       20,
       30,
       cautions({"Use compensating cable of the right type up to the terminals."}),
       "\"simple\"",
       0.4},
      {"TC-5W",
       "1",
       "Thermocouple input read in whole degrees",
       "WI-022 rev 1",
       fifths,
       "up",
       false,
       false,
       {.absolute = 3.0},
       0.7,
       20,
       30,
       cautions({"Use compensating cable of the right type up to the terminals."})},
      {"RTD-5",
       "2",
       "Resistance thermometer input",
       "WI-021 rev 2",
       fifths,
       "up",
       false,
       false,
       {.absolute = 0.5},
       0.7,
       10,
       30,
       inject,
       "{ rule = \"guard-band\", factor = 1.0 }",
       0.0,
       0.02},
      {"TC-5T",
       "1",
       "Thermocouple input that reads tenths",
       "WI-023 rev 1",
       fifths,
       "up",
       false,
       false,
       {.absolute = 10, .percentOfReading = 0.2},
       0.7,
       20,
       30,
       cautions({"Use compensating cable of the right type up to the terminals."})},
      {"RTD-5T",
       "1",
       "Resistance thermometer input that reads tenths",
       "WI-024 rev 1",
       fifths,
       "up",
       true,
       false,
       {.absolute = 5},
       0.7,
       10,
       30,
       inject},
      {"TH-1",
       "1",
       "Threshold input, on and off level",
       "WI-030 rev 1",
       {},
       "up-down",
       false,
       false,
       {.absolute = 0.6},
       1.0,
       2,
       15,
       inject},
  };
}

std::vector<PlanSpec> outputAndLoopPlans() {
  const auto drive =
      cautions({"Stay clear of whatever the output moves; vent or lock off stored energy first.",
                "Loss of communication stops the whole station: agree it with production."});
  const std::vector<double> fifths{0, 25, 50, 75, 100};
  return {
      {"AO-5",
       "1",
       "Analog output with loss of communication",
       "WI-040 rev 1",
       fifths,
       "up",
       false,
       true,
       {.percentOfSpan = 0.3},
       0.7,
       5,
       30,
       drive},
      {"DO-1",
       "1",
       "Discrete output with loss of communication",
       "WI-041 rev 1",
       {},
       "up",
       false,
       true,
       {.absolute = 0.5},
       1.0,
       2,
       15,
       drive},
      {"LOOP-T3",
       "1",
       "Temperature loop in the dry block, three points",
       "WI-050 rev 1",
       {20, 50, 80},
       "up",
       false,
       false,
       {.absolute = 0.8},
       0.7,
       900,
       90,
       cautions({"The block and the probe stay hot after the visit."})},
      {"LOOP-P3",
       "1",
       "Pressure loop, three points",
       "WI-051 rev 1",
       {0, 50, 100},
       "up-down",
       false,
       false,
       {.percentOfSpan = 0.5},
       0.7,
       30,
       60,
       cautions({"Isolate and vent the transmitter; never loosen a fitting under pressure."})},
      {"SEN-P5",
       "1",
       "Pressure transmitter on the bench",
       "WI-052 rev 1",
       fifths,
       "up-down",
       false,
       false,
       {.percentOfSpan = 0.2},
       0.7,
       30,
       60,
       cautions({"Isolate and vent the transmitter before taking it off."})},
  };
}

void standards(SiteSpec& site) {
  const StandardRange milliamps{"mA", 0.001, {0, 4, 8, 12, 16, 20, 24}, 0.0008, 0.00002};
  const StandardRange volts{"V", 0.0001, {0, 1, 2.5, 5, 10, 30}, 0.0004, 0.00004};
  const StandardRange millivolts{"mV", 0.001, {-10, 0, 10, 25, 50, 75}, 0.003, 0.00005};
  const StandardRange ohms{"ohm", 0.001, {10, 50, 100, 200, 500, 1000, 2000}, 0.004, 0.00002};
  const StandardRange simulated{"degC", 0.01, {-100, 0, 100, 200, 400, 600, 800}, 0.15, 0.0002};
  const StandardRange resistanceDegrees{"degC", 0.001, {-100, 0, 100, 200, 400}, 0.02, 0.00005};
  const StandardRange block{"degC", 0.01, {-30, 0, 50, 100, 150}, 0.08, 0.0003};
  const StandardRange bars{"bar", 0.0001, {0, 2.5, 5, 10, 16, 25}, 0.0005, 0.0001};
  const StandardRange meterVolts{"V", 0.0001, {0, 0.5, 1, 5, 10, 24, 30}, 0.0005, 0.00005};
  site.standards = {
      standard("LC-2201", "loop calibrator", "current and voltage source", "workshop", 2, 2018, 2026,
               {milliamps, volts}),
      standard("LC-2202", "loop calibrator", "current and voltage source", "tank farm tool store", 2, 2018,
               2026, {milliamps, volts}),
      standard("TS-2210", "temperature simulator", "thermocouple source and simulator", "workshop", 1, 2018,
               2026, {millivolts, simulated}),
      standard("RB-2215", "resistance box", "resistance thermometer simulator", "workshop", 1, 2018, 2026,
               {ohms, resistanceDegrees}),
      standard("MM-2220", "bench multimeter", "voltmeter and ammeter", "workshop", 3, 2018, 2026,
               {meterVolts, milliamps, ohms}),
      standard("PC-2230", "pressure calibrator", "hand pump, pressure module and milliammeter", "workshop", 3,
               2018, 2026, {bars, milliamps}),
      standard("DB-2240", "dry block", "temperature source -30 to 150 degC", "workshop", 1, 2018, 2026,
               {block}),
      // Withdrawn: nobody sent it to the laboratory after 2021.
      standard("MM-2195", "hand-held multimeter", "voltmeter and ammeter, withdrawn in 2022", "stores", 5,
               2018, 2021, {meterVolts, milliamps}),
  };
  // What the laboratory found in 2024 (see kFaultySerial): stated as found, the source was then adjusted.
  for (StandardSpec& standard : site.standards) {
    if (standard.serial == kFaultySerial) {
      for (CertSpec& certificate : standard.certificates) {
        if (yearOf(certificate.issued) == 2024) {
          certificate.issuer += ", as found before adjustment";
          for (CertPoint& point : certificate.ranges.front().points) {
            point.error = tidy(faultAt(point.nominal), 4);
          }
          certificate.validUntil = certificate.issued;
          CertSpec after = certificate;
          after.number += "A";
          after.issuer = "Harrow Vale calibration laboratory (invented)";
          after.issued = after.validFrom = workingDay(certificate.issued + std::chrono::days(2));
          after.validUntil = after.issued + std::chrono::days(395);
          for (CertPoint& point : after.ranges.front().points) {
            point.error = 0.0001;
          }
          standard.certificates.insert(standard.certificates.begin() + (2024 - 2018) + 1, after);
          break;
        }
      }
    }
  }
}

}  // namespace

double faultAt(double milliamps) {
  return kFaultShare * milliamps;
}

SiteSpec larkmead() {
  SiteSpec site;
  site.head =
      "# Larkmead Creamery: an invented site. Places, people, companies, instruments, serial numbers and "
      "values are\n"
      "# made up. Written by sample_sites/generator; the histories beside it fit this file.\n";
  site.code = "LARK";
  site.name = "Larkmead Creamery";
  site.address = {"Dairy Lane 4", "Larkmead"};
  site.issuer = "Larkmead instrument workshop";
  site.issuerAddress = {"Dairy Lane 4, workshop yard", "Larkmead"};
  site.customer = "Larkmead production";
  site.contact = "production office";
  site.note = "Invented site for trying the program.";
  site.dueDateAgreed = true;
  peopleAndPlaces(site);
  site.plans = inputPlans();
  for (PlanSpec& plan : outputAndLoopPlans()) {
    site.plans.push_back(std::move(plan));
  }
  standards(site);
  larkmeadSensors(site);
  larkmeadChannels(site);
  policies(site);
  const std::string hall = std::string(kHall) + " / Cabinet P1 / Station ";
  const std::string cold = std::string(kColdStore) + " / Cabinet C1 / Station ";
  const std::string tanks = std::string(kTankFarm) + " / Cabinet T1 / Station ";
  site.rounds = {
      {hall + "1", 3, 4, 2019, 2026, "LC-2201"},
      {hall + "2", 4, 8, 2019, 2026, "LC-2201"},
      {hall + "3", 5, 13, 2019, 2026, "MM-2220"},
      {cold + "1", 9, 9, 2019, 2026, "LC-2201"},
      {cold + "2", 11, 13, 2018, 2025, "LC-2201"},
      {tanks + "1", 6, 10, 2019, 2026, "LC-2202"},
      {tanks + "2", 10, 12, 2018, 2025, "LC-2202"},
      {std::string(kSkid) + " / Cabinet S1 / Station 1", 12, 2, 2018, 2025, "LC-2201"},
  };
  site.historyEnd = when(2026, 10, 31, 23, 59);
  site.tools = {"TS-2210", "RB-2215", "DB-2240", "PC-2230", "MM-2220", "MM-2195", day(2022, 1, 1)};
  site.fault = {kFaultySerial, faultSince(), when(2024, 1, 31), kFaultShare};
  site.ohmsSince = day(2022, 1, 1);
  site.next = NextSpec{"TT-215", when(2026, 11, 20, 9, 30)};
  return site;
}

}  // namespace spanwright::sample
