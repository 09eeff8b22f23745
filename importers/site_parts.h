// SPDX-License-Identifier: GPL-3.0-or-later
//
// The parts a site file is read in; internal to the importers. Order matters: names are collected first where
// others refer to them.
#pragma once

#include "core/record/register.h"
#include "importers/toml_reader.h"

namespace spanwright {

/// What reading a site file keeps between its parts.
struct SiteReading {
  Register site;
  NameSet places{"place"};
  NameSet logins{"login"};
  NameSet intervals{"interval"};
  NameSet plans{"plan"};
  NameSet standards{"standard"};
  NameSet sensors{"sensor"};
  NameSet tags{"channel"};
};

// site_file.cpp
/// {low, high} and, unless `fixed` says which unit it is, {unit}. Nothing when it was reported.
std::optional<Span> readSpan(TomlTable& table, std::string_view key,
                             std::optional<Unit> fixed = std::nullopt);
/// The same, reported when missing.
std::optional<Span> needSpan(TomlTable& table, std::string_view key,
                             std::optional<Unit> fixed = std::nullopt);
inline constexpr std::pair<std::string_view, TransferKind> kTransfers[] = {
    {"linear", TransferKind::linear}, {"square-root", TransferKind::squareRoot}};
inline constexpr std::pair<std::string_view, ThermocoupleType> kCouples[] = {
    {"B", ThermocoupleType::B}, {"C", ThermocoupleType::C}, {"E", ThermocoupleType::E},
    {"J", ThermocoupleType::J}, {"K", ThermocoupleType::K}, {"N", ThermocoupleType::N},
    {"R", ThermocoupleType::R}, {"S", ThermocoupleType::S}, {"T", ThermocoupleType::T}};
inline constexpr std::pair<std::string_view, RtdElement> kElements[] = {{"pt100", RtdElement::pt100},
                                                                        {"pt1000", RtdElement::pt1000}};

/// What core found wrong with what was read from the table, each at its key. Only when nothing was reported
/// since `before` (a count of problems): the rules suppose that what stands there could be read.
void report(const TomlTable& table, const std::vector<Problem>& problems, std::size_t before);

// site_intervals.cpp
void readIntervals(TomlTable& file, SiteReading& reading);
// site_plans.cpp
void readPlans(TomlTable& file, SiteReading& reading);
// site_equipment.cpp
void readStandards(TomlTable& file, SiteReading& reading);
void readSensors(TomlTable& file, SiteReading& reading);
// site_setup.cpp
/// One version of a setup, `from` and `remark` included; nothing when it was reported.
std::optional<SetupVersion> readSetup(TomlTable& table);
// site_channels.cpp
void readChannels(TomlTable& file, SiteReading& reading);

}  // namespace spanwright
