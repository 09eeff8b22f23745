// SPDX-License-Identifier: GPL-3.0-or-later
//
// Larkmead's sensors and channels.
#include "sample_sites/generator/describe.h"
#include "sample_sites/generator/larkmead.h"

namespace spanwright::sample {

namespace {

const Range k420{4, 20, "mA"};

SensorSpec transmitter(const std::string& serial, const std::string& description, Range process,
                       Range output = k420) {
  return {serial,
          "Generic Process Instruments (invented)",
          "head transmitter",
          description,
          std::move(process),
          std::move(output)};
}

SensorSpec probe(const std::string& serial, const std::string& description, double low, double high,
                 const std::string& couple, const std::string& element) {
  SensorSpec sensor{
      serial, "Plain Probe Works (invented)", "insertion probe", description, {low, high, "degC"}};
  sensor.thermocouple = couple;
  sensor.rtd = element;
  return sensor;
}

/// A channel in force for the first time on `from`, later than the site.
SetupSpec added(SetupSpec setup, When from) {
  return since(std::move(setup), from, "channel added");
}

void hallTemperatures(SiteSpec& site) {
  Station at(site, std::string(kHall) + " / Cabinet P1 / Station 1");
  ChannelSpec* channel =
      &at.add("TT-101", "Holding tube temperature",
              withAlarms(current({0, 150, "degC"}, 0.01),
                         {.lowLow = 60, .low = 72, .high = 90, .highHigh = 95, .deadBand = 1}),
              "AI-5A", "yearly", steady());
  fit(*channel, "TX-5510");
  routine(*channel, "loop", "LOOP-T3", "half-yearly", drifting());
  channel = &at.add("TT-102", "Hot water temperature", current({0, 150, "degC"}, 0.01), "AI-5UD", "yearly",
                    stepping(steady(), when(2022, 9, 19, 3), 0.9));
  fit(*channel, "TX-5511");
  routine(*channel, "loop", "LOOP-T3", "yearly", drifting());
  channel =
      &at.add("TE-103", "Product inlet temperature", rtd("pt100", 3, 0, 150), "RTD-5", "yearly", drifting());
  fit(*channel, "RP-6101");
  channel = &at.add("TE-104", "Regenerator outlet temperature", rtd("pt100", 4, 0, 100, true), "RTD-5T",
                    "yearly", drifting());
  fit(*channel, "RP-6102");
  channel =
      &at.add("TE-105", "Steam header temperature", couple("K", 0, 400, 1.0), "TC-5W", "yearly", drifting());
  fit(*channel, "CP-6201");
  channel = &at.add("TE-106", "Boiler flue temperature",
                    withAlarms(couple("K", 0, 600, 0.1), {.high = 350, .highHigh = 400, .deadBand = 5}),
                    "TC-5", "yearly", restless());
  fit(*channel, "CP-6202");
  channel = &at.add("TE-107", "Chilled water temperature", couple("T", -50, 150, 0.1, true), "TC-5T",
                    "yearly", drifting());
  fit(*channel, "CP-6203");
  channel =
      &at.add("TE-108", "Drying bench temperature", couple("J", 0, 300, 0.1), "TC-5", "yearly", drifting());
  fit(*channel, "CP-6204");
}

void hallPressuresAndFlows(SiteSpec& site) {
  Station at(site, std::string(kHall) + " / Cabinet P1 / Station 2");
  ChannelSpec* channel = &at.add("PT-111", "Homogeniser feed pressure", current({0, 10, "bar"}, 0.001),
                                 "AI-5UD", "yearly-reviewed", drifting());
  fit(*channel, "PX-5601");
  routine(*channel, "sensor", "SEN-P5", "two-yearly", drifting());
  channel = &at.add("PT-112", "Homogeniser pressure", current({0, 250, "bar"}, 0.01), "AI-5UD", "yearly",
                    drifting());
  channel->setups.push_back(
      since(current({0, 400, "bar"}, 0.01), when(2023, 1, 16, 7), "range extended for the new homogeniser"));
  channel->extraVisits.push_back(when(2023, 1, 17, 9));
  channel = &at.add("FT-113", "Steam condensate flow", rootFlow({0, 60, "m3/h"}, 0.01, 5), "SQ-4", "yearly",
                    drifting());
  fit(*channel, "DX-5701");
  channel =
      &at.add("FT-114", "Raw milk flow", current({0, 40, "m3/h"}, 0.01), "AI-5UD", "360-days", drifting());
  fit(*channel, "FX-5801");
  at.add("PDT-115", "Filter differential pressure", countsOf(voltage({0, 2, "bar"}, 0), 32000, 12), "AI-5C",
         "yearly", drifting());
  channel = &at.add("VT-116", "Diversion valve position", voltage({0, 100, "%"}, 0.01), "AI-5UD", "yearly",
                    drifting());
  channel->setups.push_back(
      since(current({0, 100, "%"}, 0.01), when(2022, 7, 4, 7), "new positioner with a current output"));
  channel->extraVisits.push_back(when(2022, 7, 5, 9));
  at.add("GS-117", "Diversion valve end switch, forward", threshold(24, 9, 7, 3), "TH-1", "two-yearly",
         steady());
  at.add("GS-118", "Diversion valve end switch, divert", threshold(24, 12, 8, 1), "TH-1", "two-yearly",
         drifting());
  at.add("LS-119", "Balance tank low level", threshold(24, 15, 7), "TH-1", "yearly", drifting());
}

void hallOutputs(SiteSpec& site) {
  Station at(site, std::string(kHall) + " / Cabinet P1 / Station 3");
  at.add("TV-121", "Steam control valve", analogOut(k420, {0, 100, "%"}, "minimum"), "AO-5", "yearly",
         drifting());
  at.add("SC-122", "Feed pump speed", analogOut({0, 10, "V"}, {0, 1500, "rpm"}, "hold"), "AO-5", "yearly",
         drifting());
  at.add("PV-123", "Back-pressure valve", analogOut(k420, {0, 100, "%"}, "off"), "AO-5", "yearly-reviewed",
         restless());
  at.add("XV-124", "Diversion valve solenoid", discreteOut("off"), "DO-1", "two-yearly", steady());
  at.add("XV-125", "Cooling water valve solenoid", discreteOut("hold"), "DO-1", "two-yearly", steady());
  at.add("HS-126", "Homogeniser release", discreteOut("off"), "DO-1", "two-yearly", steady());
}

void coldStore(SiteSpec& site) {
  Station one(site, std::string(kColdStore) + " / Cabinet C1 / Station 1");
  ChannelSpec* channel = &one.add(
      "TE-201", "Cold room 1 temperature",
      withAlarms(rtd("pt1000", 2, -40, 60, true), {.low = 1, .high = 6, .highHigh = 8, .deadBand = 0.5}),
      "RTD-5T", "yearly", drifting());
  fit(*channel, "RP-6111");
  channel =
      &one.add("TE-202", "Cold room 2 temperature", rtd("pt1000", 2, -40, 60), "RTD-5", "yearly", drifting());
  fit(*channel, "RP-6112");
  routine(*channel, "loop", "LOOP-T3", "two-yearly", steady());
  channel =
      &one.add("TE-203", "Freezer temperature", rtd("pt100", 3, -50, 50), "RTD-5", "yearly", drifting());
  fit(*channel, "RP-6113");
  channel = &one.add("TE-204", "Blast chiller temperature", rtd("pt100", 4, -50, 50), "RTD-5", "yearly",
                     restless());
  fit(*channel, "RP-6114");
  channel = &one.add("TE-205", "Evaporator coil temperature", couple("T", -100, 100, 0.1), "TC-5", "yearly",
                     drifting());
  fit(*channel, "CP-6211");
  one.add("MT-206", "Cold room humidity", added(current({0, 100, "%RH"}, 0.01), when(2024, 8, 19)), "AI-5UD",
          "yearly", drifting());
  channel = &one.add("PT-207", "Refrigerant suction pressure", current({0, 16, "bar"}, 0.001), "AI-5UD",
                     "yearly", stepping(steady(), when(2023, 2, 11, 22), -1.0));
  fit(*channel, "PX-5611");
  one.add("PT-208", "Refrigerant discharge pressure",
          added(countsOf(voltage({0, 25, "bar"}, 0), 4095, 12), when(2025, 2, 3)), "AI-5C", "yearly",
          drifting());
  Station two(site, std::string(kColdStore) + " / Cabinet C1 / Station 2");
  two.add("GS-211", "Cold room 1 door", threshold(24, 9.5, 6.5, 2), "TH-1", "two-yearly", steady());
  two.add("GS-212", "Cold room 2 door", threshold(12, 8, 4), "TH-1", "yearly", drifting());
  two.add("SC-213", "Evaporator fan speed", analogOut({0, 10, "V"}, {0, 100, "%"}, "hold"), "AO-5", "yearly",
          drifting());
  two.add("XV-214", "Defrost valve", discreteOut("hold"), "DO-1", "yearly", steady());
  two.add("TT-215", "Loading dock temperature", current({-30, 50, "degC"}, 0.01, 0.0), "AI-5UD", "yearly",
          drifting());
}

void tankFarm(SiteSpec& site) {
  Station one(site, std::string(kTankFarm) + " / Cabinet T1 / Station 1");
  one.add("LT-301", "Raw milk silo 1 level",
          withAlarms(current({0, 6, "m"}, 0.001), {.lowLow = 0.3, .low = 0.6, .high = 5.4, .deadBand = 0.05}),
          "AI-5A", "yearly", drifting());
  one.add("LT-302", "Raw milk silo 2 level", countsOf(current({0, 5, "m"}, 0, 0.0), 4095, 12), "AI-5C",
          "yearly", drifting());
  Manner loose = drifting();
  loose.intermittent = true;
  one.add("LT-303", "Cream tank level", current({0, 4, "m"}, 0.001), "AI-5UD", "yearly", loose);
  ChannelSpec* channel = &one.add("TE-304", "Raw milk silo 1 temperature", rtd("pt100", 3, 0, 50), "RTD-5",
                                  "yearly", drifting());
  fit(*channel, "RP-6121");
  channel = &one.add("TT-305", "Raw milk silo 2 temperature", current({0, 100, "degC"}, 0.01), "AI-5UD",
                     "yearly", steady());
  channel->fittings = {{"TX-5530", commissioned(), when(2021, 9, 14, 10)},
                       {"TX-5544", when(2021, 9, 14, 10), std::nullopt}};
  channel->extraVisits.push_back(when(2021, 9, 15, 9));
  routine(*channel, "loop", "LOOP-T3", "yearly", drifting());
  channel =
      &one.add("TE-306", "Cream tank temperature", rtd("pt1000", 3, 0, 100), "RTD-5", "yearly", drifting());
  fit(*channel, "RP-6122");
  channel = &one.add("PT-307", "Tanker bay pump pressure", current({0, 6, "bar"}, 0.001), "AI-5UD", "yearly",
                     steady());
  fit(*channel, "PX-5631");
  routine(*channel, "loop", "LOOP-P3", "yearly", drifting());
  Station two(site, std::string(kTankFarm) + " / Cabinet T1 / Station 2");
  two.add("LS-308", "Silo 1 overfill probe", threshold(5, 3.5, 1.5), "TH-1", "yearly", drifting());
  two.add("LS-309", "Silo 2 overfill probe", threshold(24, 13, 8, 1), "TH-1", "yearly", drifting());
  two.add("XV-310", "Silo 1 inlet valve", discreteOut("off"), "DO-1", "yearly", steady());
  channel = &two.add("FT-311", "Cooling water flow", rootFlow({0, 30, "m3/h"}, 0.01, 8), "SQ-4", "yearly",
                     drifting());
  fit(*channel, "DX-5711");
  two.add("LV-312", "Silo 1 outlet valve", analogOutCounts(k420, 4095, "minimum"), "AO-5", "yearly",
          drifting());
  two.add("FT-313", "Tanker bay flow", current({0, 20, "m3/h"}, 0.01, 0.0), "AI-5UD", "yearly", restless());
}

void cleaningSkid(SiteSpec& site) {
  Station at(site, std::string(kSkid) + " / Cabinet S1 / Station 1");
  ChannelSpec* channel = &at.add("TT-401", "Caustic return temperature", current({0, 120, "degC"}, 0.01),
                                 "AI-5UD", "yearly", stepping(steady(), when(2022, 6, 8, 14), 0.9));
  fit(*channel, "TX-5540");
  routine(*channel, "loop", "LOOP-T3", "yearly", drifting());
  channel =
      &at.add("TE-402", "Heater jacket temperature", couple("J", 0, 200, 0.1), "TC-5", "yearly", drifting());
  fit(*channel, "CP-6241");
  channel = &at.add("QT-403", "Return conductivity", current({0, 200, "mS/cm"}, 0.01), "AI-5UD", "yearly",
                    drifting());
  fit(*channel, "QX-5901");
  Manner fast = drifting();
  fast.fastRate = 1.0;
  channel = &at.add("QT-404", "Return acidity", current({0, 14, "pH"}, 0.001), "AI-5UD", "yearly", fast);
  fit(*channel, "QX-5902");
  at.add("FT-405", "Cleaning flow", added(rootFlow({0, 25, "m3/h"}, 0.01, 5), when(2024, 11, 4)), "SQ-4",
         "yearly", drifting());
  channel =
      &at.add("PT-406", "Cleaning pressure", current({0, 6, "bar"}, 0.001), "AI-5UD", "yearly", restless());
  fit(*channel, "PX-5641");
  routine(*channel, "sensor", "SEN-P5", "yearly", drifting());
  at.add("LS-407", "Caustic tank low level", threshold(24, 16, 9), "TH-1", "yearly", drifting());
  at.add("XV-408", "Caustic dosing valve", discreteOut("off"), "DO-1", "yearly", steady());
  at.add("SC-409", "Cleaning pump speed", analogOut({0, 10, "V"}, {0, 50, "Hz"}, "minimum"), "AO-5", "yearly",
         drifting());
  channel = &at.add("TE-410", "Rinse water temperature", voltage({0, 100, "degC"}, 0.01), "AI-5UD", "yearly",
                    drifting());
  channel->setups.push_back(
      since(couple("J", 0, 150, 0.1), when(2026, 9, 7, 7), "transmitter taken out, couple wired directly"));
  channel->fittings.push_back({"CP-6242", when(2026, 9, 7, 7), std::nullopt});
}

}  // namespace

void larkmeadSensors(SiteSpec& site) {
  site.sensors = {
      transmitter("TX-5510", "temperature transmitter, holding tube", {0, 150, "degC"}),
      transmitter("TX-5511", "temperature transmitter, hot water", {0, 150, "degC"}),
      transmitter("TX-5530", "temperature transmitter, taken off silo 2 in 2021", {0, 100, "degC"}),
      transmitter("TX-5540", "temperature transmitter, caustic return", {0, 120, "degC"}),
      transmitter("TX-5544", "temperature transmitter, silo 2", {0, 100, "degC"}),
      transmitter("PX-5601", "pressure transmitter, homogeniser feed", {0, 10, "bar"}),
      transmitter("PX-5611", "pressure transmitter, refrigerant suction", {0, 16, "bar"}),
      transmitter("PX-5631", "pressure transmitter, tanker bay", {0, 6, "bar"}),
      transmitter("PX-5641", "pressure transmitter, cleaning skid", {0, 6, "bar"}),
      transmitter("DX-5701", "differential pressure transmitter, orifice plate", {0, 250, "mbar"}),
      transmitter("DX-5711", "differential pressure transmitter, orifice plate", {0, 160, "mbar"}),
      transmitter("FX-5801", "magnetic flow meter", {0, 40, "m3/h"}),
      transmitter("QX-5901", "conductivity transmitter", {0, 200, "mS/cm"}),
      transmitter("QX-5902", "acidity transmitter", {0, 14, "pH"}),
      probe("RP-6101", "product inlet", 0, 150, "", "pt100"),
      probe("RP-6102", "regenerator outlet", 0, 100, "", "pt100"),
      probe("RP-6111", "cold room 1", -40, 60, "", "pt1000"),
      probe("RP-6112", "cold room 2", -40, 60, "", "pt1000"),
      probe("RP-6113", "freezer", -50, 50, "", "pt100"),
      probe("RP-6114", "blast chiller", -50, 50, "", "pt100"),
      probe("RP-6121", "silo 1", 0, 50, "", "pt100"),
      probe("RP-6122", "cream tank", 0, 100, "", "pt1000"),
      probe("CP-6201", "steam header", 0, 400, "K", ""),
      probe("CP-6202", "boiler flue", 0, 600, "K", ""),
      probe("CP-6203", "chilled water", -50, 150, "T", ""),
      probe("CP-6204", "drying bench", 0, 300, "J", ""),
      probe("CP-6211", "evaporator coil", -100, 100, "T", ""),
      probe("CP-6241", "heater jacket", 0, 200, "J", ""),
      probe("CP-6242", "rinse water", 0, 150, "J", ""),
  };
}

void larkmeadChannels(SiteSpec& site) {
  hallTemperatures(site);
  hallPressuresAndFlows(site);
  hallOutputs(site);
  coldStore(site);
  tankFarm(site);
  cleaningSkid(site);
}

}  // namespace spanwright::sample
