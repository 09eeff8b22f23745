// SPDX-License-Identifier: GPL-3.0-or-later
//
// A small invented site for the tests of entering visits, built in code.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/record/register.h"

namespace spanwright::test {

inline Date day(int year, int month, int dayOfMonth) {
  return {static_cast<unsigned short>(year), static_cast<unsigned short>(month),
          static_cast<unsigned short>(dayOfMonth)};
}
inline Moment moment(const std::string& text) {
  return parseMoment(text).value();
}

inline Tolerance plusMinus(const ToleranceSide& side) {
  return {side, side};
}

inline Plan plan(std::string code, TestScheme scheme, const ToleranceSide& tolerance,
                 std::vector<std::string> cautions = {}) {
  Plan made;
  made.code = std::move(code);
  made.revision = "2";
  made.title = made.code;
  made.scheme = std::move(scheme);
  made.tolerance = plusMinus(tolerance);
  made.cautions = std::move(cautions);
  return made;
}

inline StandardCertificate certificate(std::string number, Date from, Date until,
                                       std::vector<CertificateRange> ranges) {
  StandardCertificate made;
  made.number = std::move(number);
  made.issued = from;
  made.validFrom = from;
  made.validUntil = until;
  made.ranges = std::move(ranges);
  return made;
}

inline Channel channel(std::string tag, SetupKind kind, std::vector<Routine> routines) {
  Channel made;
  made.tag = std::move(tag);
  made.place = "Hall / Cabinet 1";
  made.terminal = "1";
  made.setups = {{1, moment("2018-03-01T08:00"), {kind}, "commissioning"}};
  made.routines = std::move(routines);
  return made;
}

inline void addStandards(Register& site) {
  const CertificateRange current{
      Unit::milliampere, 0.001, {{4, 0.0002, 0.0008}, {12, 0.0003, 0.0012}, {20, 0.0005, 0.0016}}};
  Standard loop;
  loop.serial = "LC-2201";
  loop.certificates = {certificate("C-1", day(2024, 2, 12), day(2025, 2, 28), {current}),
                       certificate("C-2", day(2025, 2, 20), day(2026, 12, 31), {current})};
  Standard old;
  old.serial = "LC-1100";
  old.certificates = {certificate("C-0", day(2022, 1, 1), day(2023, 1, 1), {current})};
  Standard oldest;
  oldest.serial = "LC-0900";
  oldest.certificates = {certificate("C-00", day(2016, 1, 1), day(2018, 1, 1), {current})};
  Standard volts;
  volts.serial = "VM-7";
  volts.certificates = {certificate("C-7", day(2025, 1, 1), day(2026, 12, 31),
                                    {{Unit::volt, 0.01, {{0, 0, 0.01}, {30, 0, 0.04}}},
                                     {Unit::millivolt, 0.001, {{-10, 0, 0.004}, {60, 0, 0.004}}}})};
  Standard bath;
  bath.serial = "TB-3";
  bath.certificates = {certificate("C-3", day(2025, 1, 1), day(2026, 12, 31),
                                   {{Unit::celsius, 0.01, {{-20, 0, 0.05}, {200, 0, 0.05}}}})};
  Standard bare;
  bare.serial = "NEW-1";
  site.standards = {loop, old, oldest, volts, bath, bare};
}

inline void addChannels(Register& site) {
  AnalogInputSetup input;
  input.signal = {4, 20, Unit::milliampere};
  input.units = Span{0, 150, Unit::celsius};
  input.bits = 16;
  input.resolution = 0.1;
  AnalogOutputSetup output;
  output.signal = {4, 20, Unit::milliampere};
  output.units = Span{0, 100, Unit::percent};
  ThermocoupleSetup couple;
  couple.range = {0, 400, Unit::celsius};

  Channel loop = channel("TT-101", input,
                         {{Subject::channel, "AI-5UD", "yearly"},
                          {Subject::sensor, "TX-3", "yearly"},
                          {Subject::loop, "TX-3", "yearly"}});
  loop.fittings = {{"TX-5510", moment("2019-01-01T00:00"), std::nullopt}};
  Channel repeated = channel("TT-102", input, {{Subject::channel, "AI-REP", "yearly"}});
  Channel retired = channel("TT-109", input, {{Subject::channel, "AI-3", "yearly"}});
  retired.retired = true;
  site.channels = {loop,
                   repeated,
                   retired,
                   channel("TT-110", input, {{Subject::channel, "AI-3", "yearly"}}),
                   channel("FV-201", output, {{Subject::channel, "AO-3", "yearly"}}),
                   channel("LS-301", ThresholdSetup{24, 14, 6, 0}, {{Subject::channel, "DI", "yearly"}}),
                   channel("XV-401", DiscreteOutputSetup{}, {{Subject::channel, "DO", "yearly"}}),
                   channel("TE-501", couple, {{Subject::channel, "TC-3", "yearly"}})};
}

inline Register visitSite() {
  Register site;
  site.site.code = "LARK";
  site.site.name = "Invented site of the tests";
  Place hall{"Hall", "Hall", "", 0};
  site.places = {hall, {"Hall / Cabinet 1", "Cabinet 1", "Hall", 0}};
  site.people = {{"mtolland", "Mara Tolland", {Role::technician}, std::nullopt},
                 {"pplan", "Pia Plan", {Role::planner}, std::nullopt},
                 {"gone", "Gus Gone", {Role::technician}, day(2025, 6, 30)}};
  IntervalPolicy yearly;
  yearly.code = "yearly";
  yearly.months = 12;
  site.intervals = {yearly};
  const std::vector<std::string> cautions{
      "Put the loop in manual under the site's own rules before injecting."};
  site.plans = {plan("AI-5UD", {{0, 25, 50, 75, 100}, RunOrder::upDown}, {.percentOfSpan = 0.25}, cautions),
                plan("AI-3", {{0, 50, 100}, RunOrder::up}, {.percentOfSpan = 0.25}),
                plan("AI-REP", {{0, 100}, RunOrder::up, 3}, {.percentOfSpan = 0.5}),
                plan("TX-3", {{0, 50, 100}, RunOrder::up}, {.percentOfSpan = 0.5}),
                plan("AO-3", {{0, 50, 100}, RunOrder::up, 1, false, true}, {.percentOfSpan = 0.25}),
                plan("DI", {}, {.absolute = 0.5}),
                plan("DO", {{}, RunOrder::up, 1, false, true}, {.absolute = 0.5}),
                plan("TC-3", {{0, 50, 100}, RunOrder::up}, {.absolute = 2})};
  Sensor transmitter;
  transmitter.serial = "TX-5510";
  transmitter.range.process = {0, 150, Unit::celsius};
  transmitter.range.output = Span{4, 20, Unit::milliampere};
  site.sensors = {transmitter};
  addStandards(site);
  addChannels(site);
  site.index();
  return site;
}

}  // namespace spanwright::test
