// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who visits what when: what is due, fitted into the technicians' weeks. Loads from the store and computes;
// writes nothing.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/schedule/plan.h"
#include "core/store/store.h"
#include "core/tasks/calendar_file.h"
#include "core/tasks/status.h"

namespace spanwright {

/// The plan that is asked for, and what is supposed for it instead of what the register says.
struct PlanQuestion {
  Date from;
  int weeks = 1;
  std::map<std::string, double> hours;                        ///< in a week, by login; 0: not sent to visits
  double hoursFactor = 1.0;                                   ///< of everybody's hours, those above too
  std::map<std::string, std::vector<DaySpan>> standardsAway;  ///< by serial
  std::map<std::string, std::vector<DaySpan>> peopleAway;     ///< by login, beside the register's
  std::map<std::string, std::vector<DaySpan>> onlyOn;         ///< by tag: may be visited on these days only
  std::map<std::string, std::vector<DaySpan>> notOn;          ///< by tag: may not be visited on these
  std::optional<std::vector<int>> workingWeekdays;            ///< 0 Sunday .. 6 Saturday
};

/// What is visited.
struct PlannedSubject {
  std::string channel, place;  ///< path
  Subject subject = Subject::channel;
  std::string plan;  ///< code
  int minutes = 0;
  DueState state = DueState::ok;  ///< on the plan's first day; ok for a visit that follows a planned one
  std::optional<Date> due;
  std::string needs;   ///< of standards, in words: "4 to 20 mA, 0 to 10 bar"
  std::string reason;  ///< why not by its due day, or not at all; a clause; empty: it is on time
  PlanTime time = PlanTime::onTime;
  bool otherStandards = false;  ///< not the models used last: a person should see whether they will do
  bool reasonProven = true;     ///< false: the search for a place for it was cut short
};
/// A technician at a cabinet on one day.
struct PlannedStop {
  Date day;
  std::string week;                    ///< ISO 8601: "2026-W48"
  std::string person;                  ///< login
  std::string cabinet;                 ///< path
  std::vector<PlannedSubject> visits;  ///< in walking order
  std::vector<std::string> standards;  ///< serials
  int minutes() const;
};
/// A technician's week.
struct PlannedWeek {
  std::string week;
  std::string person;
  int planned = 0;  ///< minutes
  int hours = 0;  ///< minutes there are, days off and a plan that begins or ends within the week allowed for
};
struct SitePlan {
  Date from, until;                        ///< both included
  std::vector<PlannedStop> stops;          ///< by day, person, walking order
  std::vector<PlannedSubject> notPlanned;  ///< most pressing first
  std::vector<PlannedWeek> weeks;          ///< by week and person
  std::size_t visits() const;              ///< planned ones
};

/// Longest day of a technician, in hours (common practice, no source).
inline constexpr int kLongestDay = 8;

/// Every visit that is due by the plan's last day (see dueList, as of the plan's first), on the terms of
/// planVisits. What is unproven or overdue is due at once, its grace counting from the plan's first day.
/// Others may be made so many days early as the calendar says, but not before two thirds of their interval
/// are over. A planned visit starts the interval anew: when the next falls into the plan too, it is planned
/// after all first ones, which then stay where they are.
/// Technicians are those with hours for calibrations who have not left. Standards: what the points need by
/// what is expected at them, those of the last calibration preferred. A cabinet is the second part of a
/// place's path.
/// InputError for weeks below 1 or above 520, and for people, standards and channels that are not there.
SitePlan sitePlan(const Store& store, const PlanQuestion& question);

/// One event for each stop, named by site, day, person and cabinet: a plan made again replaces it.
std::vector<CalendarEvent> planEvents(const SitePlan& plan, const Register& site);
/// One event for each subject on its due day, named by site, channel and subject: it moves with the due day.
std::vector<CalendarEvent> dueEvents(const std::vector<DueItem>& due, const Register& site);

/// "2026-W48", by ISO 8601.
std::string isoWeek(Date day);
/// "1.5 h".
std::string hoursText(int minutes);
/// Second part of the path at most: "Tank farm / Cabinet T1".
std::string cabinetOf(const std::string& place);

}  // namespace spanwright
