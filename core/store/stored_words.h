// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words enums are stored as. Private to the store.
#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "core/metrology/evaluate.h"
#include "core/metrology/test_points.h"
#include "core/record/calibration.h"
#include "core/record/register.h"
#include "core/signal/setup.h"

namespace spanwright::words {

template <class E, std::size_t N>
using Table = std::array<std::pair<E, std::string_view>, N>;

inline constexpr Table<Phase, 2> kPhases{{{Phase::asFound, "as found"}, {Phase::asLeft, "as left"}}};
inline constexpr Table<Subject, 3> kSubjects{
    {{Subject::channel, "channel"}, {Subject::sensor, "sensor"}, {Subject::loop, "loop"}}};
inline constexpr Table<Verdict, 3> kVerdicts{
    {{Verdict::pass, "pass"}, {Verdict::fail, "fail"}, {Verdict::notJudged, "not judged"}}};
inline constexpr Table<PointRole, 8> kPointRoles{{{PointRole::value, "value"},
                                                  {PointRole::switchOn, "switch on"},
                                                  {PointRole::switchOff, "switch off"},
                                                  {PointRole::alarmTrip, "alarm trip"},
                                                  {PointRole::alarmReset, "alarm reset"},
                                                  {PointRole::stateOn, "state on"},
                                                  {PointRole::stateOff, "state off"},
                                                  {PointRole::lossOfSignal, "loss of signal"}}};
inline constexpr Table<Direction, 3> kDirections{
    {{Direction::none, "none"}, {Direction::up, "up"}, {Direction::down, "down"}}};
inline constexpr Table<AlarmLevel, 4> kAlarmLevels{{{AlarmLevel::lowLow, "low-low"},
                                                    {AlarmLevel::low, "low"},
                                                    {AlarmLevel::high, "high"},
                                                    {AlarmLevel::highHigh, "high-high"}}};
inline constexpr Table<RunOrder, 4> kRunOrders{{{RunOrder::up, "up"},
                                                {RunOrder::down, "down"},
                                                {RunOrder::upDown, "up-down"},
                                                {RunOrder::downUp, "down-up"}}};
inline constexpr Table<TransferKind, 2> kTransfers{
    {{TransferKind::linear, "linear"}, {TransferKind::squareRoot, "square-root"}}};
inline constexpr Table<LossBehaviour, 3> kLossBehaviours{
    {{LossBehaviour::hold, "hold"}, {LossBehaviour::minimum, "minimum"}, {LossBehaviour::off, "off"}}};
inline constexpr Table<ReadsAs, 2> kReadsAs{{{ReadsAs::counts, "counts"}, {ReadsAs::units, "units"}}};
inline constexpr Table<ThermocoupleType, 9> kThermocouples{{{ThermocoupleType::B, "B"},
                                                            {ThermocoupleType::C, "C"},
                                                            {ThermocoupleType::E, "E"},
                                                            {ThermocoupleType::J, "J"},
                                                            {ThermocoupleType::K, "K"},
                                                            {ThermocoupleType::N, "N"},
                                                            {ThermocoupleType::R, "R"},
                                                            {ThermocoupleType::S, "S"},
                                                            {ThermocoupleType::T, "T"}}};
inline constexpr Table<RtdElement, 2> kRtdElements{
    {{RtdElement::pt100, "pt100"}, {RtdElement::pt1000, "pt1000"}}};
inline constexpr Table<Role, 4> kRoles{{{Role::technician, "technician"},
                                        {Role::planner, "planner"},
                                        {Role::reviewer, "reviewer"},
                                        {Role::administrator, "administrator"}}};

template <class E, std::size_t N>
constexpr std::string_view word(const Table<E, N>& table, E value) {
  for (const auto& [entry, text] : table) {
    if (entry == value) {
      return text;
    }
  }
  return {};
}

template <class E, std::size_t N>
constexpr std::optional<E> value(const Table<E, N>& table, std::string_view text) {
  for (const auto& [entry, word] : table) {
    if (word == text) {
      return entry;
    }
  }
  return std::nullopt;
}

/// The unit written as `text`; exact, unlike parseUnit.
std::optional<Unit> unit(std::string_view text);

}  // namespace spanwright::words
