// SPDX-License-Identifier: GPL-3.0-or-later
//
// What makes one thing of the register one that can be kept, judged by itself. Site files, forms and the
// register as a whole (registerFaults) are held to the same rules. Each problem names its field as a site
// file does (Where::field), nested ones with a point: "signal", "routine.loop.plan".
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "core/record/problem.h"
#include "core/record/register.h"

namespace spanwright {

/// How deep places may lie within each other.
inline constexpr int kDeepestPlace = 20;

std::vector<Problem> siteProblems(const SiteInfo& site);
std::vector<Problem> calendarProblems(const CalendarRules& calendar);
/// Of the full name, parts joined by " / ".
std::vector<Problem> placePathProblems(std::string_view path);
std::vector<Problem> personProblems(const Person& person);
std::vector<Problem> planProblems(const Plan& plan);
std::vector<Problem> intervalProblems(const IntervalPolicy& policy);
std::vector<Problem> sensorProblems(const Sensor& sensor);
/// Without its certificates.
std::vector<Problem> standardProblems(const Standard& standard);
/// Of one setup, by field.
std::vector<Problem> setupProblems(const ChannelSetup& setup);

/// What a channel may refer to. Refers to the register, which must live as long.
class RegisterNames {
 public:
  explicit RegisterNames(const Register& site);
  const Plan* plan(std::string_view code) const;
  bool hasPlace(std::string_view path) const { return places_.contains(path); }
  bool hasInterval(std::string_view code) const { return intervals_.contains(code); }
  bool hasSensor(std::string_view serial) const { return sensors_.contains(serial); }

 private:
  std::unordered_set<std::string_view> places_, intervals_, sensors_;
  std::unordered_map<std::string_view, const Plan*> plans_;
};

/// The channel's place, setups, fittings and routines; its tag too, but not whether another has the same.
std::vector<Problem> channelProblems(const Channel& channel, const RegisterNames& names);
/// What keeps the plan from being carried out on a subject of a channel set up like this, as a clause with
/// what to do; empty when it can.
std::vector<Problem> planFitProblems(const Plan& plan, Subject subject, const ChannelSetup& setup);
/// Does the later one, by `from`, begin before the earlier one has ended?
bool overlap(const Fitting& earlier, const Fitting& later);

}  // namespace spanwright
