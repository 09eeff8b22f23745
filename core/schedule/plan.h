// SPDX-License-Identifier: GPL-3.0-or-later
//
// Visits fitted into technicians' days and weeks. Minutes throughout; days are working days of the calendar;
// a week is that of ISO 8601, Monday to Sunday.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/schedule/calendar.h"
#include "core/units/time.h"

namespace spanwright {

/// Both days included.
struct DaySpan {
  Date first;
  Date last;
  bool contains(Date day) const { return day >= first && day <= last; }
  friend bool operator==(const DaySpan&, const DaySpan&) = default;
};

struct PlanTechnician {
  std::string name;
  int minutesPerWeek = 0;  ///< in a week without days off; one with days off has its share of them
  int minutesPerDay = 0;
  std::vector<DaySpan> away;
};

/// One quantity that must be vouched for during a visit, and who can: standard (its index) on which days.
struct StandardNeed {
  struct Able {
    std::size_t standard = 0;
    DaySpan days;
    int choice = 0;  ///< 0 first choice; a visit takes a later one only where that makes it less late
    friend bool operator==(const Able&, const Able&) = default;
  };
  std::string what;        ///< for the reasons: "mA"
  std::vector<Able> able;  ///< of the same choice: preferred first
  friend bool operator==(const StandardNeed&, const StandardNeed&) = default;
};

struct PlanVisit {
  std::string place;  ///< visits of the same place are put together where that makes nothing later
  int minutes = 0;    ///< in one go, by one technician, on one day
  bool unproven = false;
  Date earliest;               ///< by the early grace
  Date due;                    ///< on or after `earliest`
  Date last;                   ///< by the late grace, on or after `due`; afterwards the visit is late
  std::vector<DaySpan> only;   ///< not empty: may be visited on these days only
  std::vector<DaySpan> never;  ///< may not be visited on these days
  std::vector<StandardNeed> needs;
  std::optional<std::size_t> agreed;  ///< with this technician: nobody else may make it, and it comes first
};

struct PlanRequest {
  Date from;
  int weeks = 1;  ///< `from` and 7 x weeks - 1 days after it
  WorkCalendar calendar;
  int weekdays = 5;  ///< how many days of a week are working days when nothing is closed
  std::vector<PlanTechnician> technicians;
  std::vector<std::string> standards;  ///< their names; a standard serves one technician a day
  std::vector<PlanVisit> visits;
  /// How many times a visit may be tried on a day and technician while others are moved about, in all.
  std::size_t effort = 20'000'000;
};

enum class PlanTime { onTime, inGrace, late };
std::string_view text(PlanTime time);  // "on_time", "in_grace", "late"

/// What keeps a visit from a day it should have been made on.
enum class PlanGap {
  noWorkingDay,    ///< the days it may be made on are closed, or outside the plan
  tooLong,         ///< no technician has a day or a week long enough
  noTechnician,    ///< none is there
  noStandard,      ///< for `what` none is valid and here
  standardsApart,  ///< there is one for each need, but never all on one working day with a technician there
  noHours,         ///< more is due between `span`'s days than there are hours
  standardTaken,   ///< more is due with standard `what` than there are days for it
  arrangement  ///< hours and standards would do in sum, but no arrangement leaves the more pressing in place
};

struct PlanReason {
  PlanGap gap = PlanGap::arrangement;
  DaySpan span;        ///< the days it was wanted on; noHours, standardTaken: those that are overfull
  std::string what;    ///< noStandard: the quantity; standardTaken: the standard's name
  int wanted = 0;      ///< noHours, standardTaken: minutes due within `span`, this visit included
  int offered = 0;     ///< and minutes there are; tooLong: the longest day there is
  bool proven = true;  ///< false: arrangement, and the effort ended before all had been tried
};

struct PlannedVisit {
  std::size_t visit = 0;
  Date day;
  std::size_t technician = 0;
  std::vector<std::size_t> standards;  ///< that serve its needs, each once
  int choice = 0;                      ///< the worst among theirs
  PlanTime time = PlanTime::onTime;
  std::optional<PlanReason> reason;  ///< why not by its due day
};
struct UnplannedVisit {
  std::size_t visit = 0;
  PlanReason reason;
};

struct WorkPlan {
  std::vector<PlannedVisit> planned;  ///< by day, technician, place, then as given
  std::vector<UnplannedVisit> unplanned;
};

/// Puts visits on days and technicians. No day and no week of a technician holds more than its minutes (a
/// week those of its working days that the technician is there and that lie in the plan, of `weekdays`); a
/// visit lies on a working day on or after its earliest, on which every need has a standard that no other
/// technician has that day. A visit longer than every technician's day is not cut in two: it stays unplanned
/// and says so.
///
/// More pressing is: what is agreed before others, then the unproven, then by due day, then by place, then as
/// given. In that order
///  1. every visit is taken on that can be made by its last day together with those taken on before it: so
///     nothing is late that could have been on time, unless a more pressing one would be late instead;
///  2. each of those is brought to its due day, or as soon after it as can be, with everything taken on still
///     by its last day and the more pressing where they are;
///  3. those that cannot be made by their last day get the first day that leaves all of the above.
/// Whether visits can be made together is decided by placing them, by adding up hours between two days, or by
/// trying every arrangement (the problem is one of packing bins, so there is no quick way in general);
/// `effort` bounds the last, and a reason that rests on a bounded search says that it is not proven. Within
/// this a visit goes where its place is visited already, else on the last day with room on or before its due
/// day: an interval is not cut short without need. One that is due at once goes on the first.
WorkPlan planVisits(const PlanRequest& request);

}  // namespace spanwright
