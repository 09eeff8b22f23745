// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/results.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/certificate/figures.h"

namespace spanwright {
namespace {

enum class Family { value, level, state };
constexpr std::array kFamilies{Family::value, Family::level, Family::state};

Family family(PointRole role) {
  switch (role) {
    case PointRole::value:
      return Family::value;
    case PointRole::switchOn:
    case PointRole::switchOff:
    case PointRole::alarmTrip:
    case PointRole::alarmReset:
      return Family::level;
    case PointRole::stateOn:
    case PointRole::stateOff:
    case PointRole::lossOfSignal:
      break;
  }
  return Family::state;
}

/// Readings that can stand in one table, since their headings say the same.
struct Group {
  Family family;
  Unit applied;
  Unit reading;
  std::vector<const Reading*> readings;
};

std::vector<Group> grouped(const std::vector<Reading>& readings) {
  std::vector<Group> groups;
  for (const Family wanted : kFamilies) {
    for (const Reading& reading : readings) {
      const TestPoint& point = reading.point;
      if (family(point.role) != wanted) {
        continue;
      }
      // Only value points have an applied number, so only theirs needs a unit.
      const Unit applied = wanted == Family::value ? point.appliedUnit : Unit::none;
      const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
        return group.family == wanted && group.applied == applied && group.reading == point.readingUnit;
      });
      Group& group =
          same != groups.end() ? *same : groups.emplace_back(Group{wanted, applied, point.readingUnit, {}});
      group.readings.push_back(&reading);
    }
  }
  return groups;
}

std::string phaseTitle(Phase phase) {
  return phase == Phase::asFound ? "As found" : "As left";
}

std::string groupTitle(const Group& group, Phase phase, bool alone) {
  const std::string title = phaseTitle(phase);
  const PointRole role = group.readings.front()->point.role;
  if (group.family == Family::level) {
    const bool alarm = role == PointRole::alarmTrip || role == PointRole::alarmReset;
    return title + (alarm ? ", alarm levels" : ", switching levels");
  }
  if (group.family == Family::state) {
    const bool onlyLoss =
        std::all_of(group.readings.begin(), group.readings.end(),
                    [](const Reading* reading) { return reading->point.role == PointRole::lossOfSignal; });
    return title + (onlyLoss ? ", loss of communication" : ", output states");
  }
  return alone ? title : title + ", values";
}

/// Most decimals of the applied values of both phases, so that their tables look alike.
int appliedDecimals(const Calibration& calibration, Unit unit) {
  int most = 0;
  for (const auto* readings : {&calibration.asFound, &calibration.asLeft}) {
    for (const Reading& reading : *readings) {
      if (reading.skipped() || reading.point.role != PointRole::value || reading.point.appliedUnit != unit) {
        continue;
      }
      const auto typed = typedDecimals(reading.appliedText, reading.applied, unit);
      if (typed) {
        most = std::max(most, *typed);
      } else if (reading.appliedText.empty()) {
        // A nominal value nobody typed is shown in full, to six decimals at most.
        most = std::max(most, fullDecimals(reading.applied, 0, 6));
      }
    }
  }
  return most;
}

RowStyle styleFor(const Group& group, const Calibration& calibration, const PointModel* model) {
  RowStyle style;
  style.appliedDecimals = appliedDecimals(calibration, group.applied);
  if (model != nullptr && model->readingSpan().unit == group.reading) {
    style.step = model->step();
    style.spanWidth = group.family == Family::state ? 0.0 : model->readingSpan().width();
  }
  return style;
}

std::string shownUnit(Unit unit) {
  return unit == Unit::none ? "1" : std::string(displaySymbol(unit));
}

Verdict overallOf(const std::vector<const Reading*>& readings) {
  std::vector<Reading> list;
  list.reserve(readings.size());
  for (const Reading* reading : readings) {
    list.push_back(*reading);
  }
  return overall(list);
}

ChartMark markOf(const Reading& reading, double place, bool asLeft) {
  return {place, reading.error(), reading.limits.low, reading.limits.high, asLeft, reading.point.direction};
}

std::string quantityName(Unit unit) {
  return unit == Unit::none ? "" : std::string(displaySymbol(unit));
}

/// All marks of one unit over % of span.
void addValueMarks(std::vector<CertificateChart>& charts, const std::vector<Reading>& readings, bool asLeft) {
  for (const Reading& reading : readings) {
    if (reading.skipped() || family(reading.point.role) != Family::value) {
      continue;
    }
    const std::string unit = quantityName(reading.point.readingUnit);
    auto chart = std::find_if(charts.begin(), charts.end(), [&unit](const CertificateChart& known) {
      return known.unit == unit && known.categories.empty();
    });
    if (chart == charts.end()) {
      charts.push_back({"Errors over the span", unit, {}, {}});
      chart = std::prev(charts.end());
    }
    chart->marks.push_back(markOf(reading, reading.point.percent, asLeft));
  }
}

void addLevelMarks(std::vector<CertificateChart>& charts, const std::vector<Reading>& readings, bool asLeft) {
  for (const Reading& reading : readings) {
    if (reading.skipped() || family(reading.point.role) != Family::level) {
      continue;
    }
    const std::string unit = quantityName(reading.point.readingUnit);
    const bool alarm = reading.point.alarm.has_value();
    const std::string title = alarm ? "Errors of the alarm levels" : "Errors of the switching levels";
    auto chart = std::find_if(charts.begin(), charts.end(), [&](const CertificateChart& known) {
      return known.unit == unit && known.title == title;
    });
    if (chart == charts.end()) {
      charts.push_back({title, unit, {}, {}});
      chart = std::prev(charts.end());
    }
    const std::string name = pointKey(reading.point);
    auto place = std::find(chart->categories.begin(), chart->categories.end(), name);
    if (place == chart->categories.end()) {
      place = chart->categories.insert(chart->categories.end(), name);
    }
    chart->marks.push_back(
        markOf(reading, static_cast<double>(std::distance(chart->categories.begin(), place)), asLeft));
  }
}

}  // namespace

PointModelPtr certificateModel(const CertificateSource& source) {
  const Subject subject = source.calibration->subject;
  const bool setupUsable = source.setup != nullptr && setupFaults(source.setup->setup).empty();
  const bool sensorUsable = source.sensor != nullptr && sensorFaults(source.sensor->range).empty();
  switch (subject) {
    case Subject::channel:
      return setupUsable ? channelModel(source.setup->setup) : nullptr;
    case Subject::sensor:
      return sensorUsable ? sensorModel(source.sensor->range) : nullptr;
    case Subject::loop:
      break;
  }
  return setupUsable && sensorUsable ? loopModel(source.setup->setup, source.sensor->range) : nullptr;
}

std::string conclusion(const std::string& title, const std::vector<const Reading*>& readings, Verdict verdict,
                       const DecisionRule* rule) {
  int done = 0;
  int inside = 0;
  int unjudged = 0;
  for (const Reading* reading : readings) {
    done += reading->skipped() ? 0 : 1;
    inside += !reading->skipped() && reading->verdict == Verdict::pass ? 1 : 0;
    unjudged += !reading->skipped() && reading->verdict == Verdict::notJudged ? 1 : 0;
  }
  const int skipped = static_cast<int>(readings.size()) - done;
  std::string sentence = fmt::format("{}: {}; {} of {} {} {}inside {} limits", title, text(verdict), inside,
                                     done, done == 1 ? "point is" : "points are",
                                     rule != nullptr && rule->basis != GuardBasis::none ? "accepted " : "",
                                     done == 1 ? "its" : "their");
  if (skipped > 0) {
    sentence += fmt::format(", {} {} skipped", skipped, skipped == 1 ? "was" : "were");
  }
  if (unjudged > 0) {
    sentence += fmt::format(", {} {} not judged", unjudged, unjudged == 1 ? "was" : "were");
  }
  return sentence;
}

std::vector<CertificateTable> resultTables(const Calibration& calibration, Phase phase,
                                           const PointModel* model, const DecisionRule* rule) {
  std::vector<CertificateTable> tables;
  const std::vector<Group> groups =
      grouped(phase == Phase::asFound ? calibration.asFound : calibration.asLeft);
  for (const Group& group : groups) {
    CertificateTable table;
    table.phase = phase;
    table.title = groupTitle(group, phase, groups.size() == 1);
    table.appliedUnit = group.family == Family::value ? shownUnit(group.applied) : "";
    table.readingUnit = shownUnit(group.reading);
    RowStyle style = styleFor(group, calibration, model);
    style.rule = rule;
    for (const Reading* reading : group.readings) {
      table.rows.push_back(certificateRow(*reading, style));
    }
    table.conclusion = conclusion(table.title, group.readings, overallOf(group.readings), rule);
    tables.push_back(std::move(table));
  }
  return tables;
}

std::vector<CertificateColumn> certificateColumns(const CertificateTable& table) {
  using Row = CertificateRow;
  const std::string& applied = table.appliedUnit;
  const std::string& unit = table.readingUnit;
  const std::vector<CertificateColumn> all{
      {"Point", "", &Row::point, false},
      {"Applied", applied, &Row::applied, !applied.empty()},
      {"Applied as", "", &Row::appliedAs, false},
      {"Expected", unit, &Row::expected, true},
      {"Reading", unit, &Row::reading, true},
      {"Read as", "", &Row::readAs, false},
      {"Error", unit, &Row::error, true},
      {"Limits of error", unit, &Row::limits, true},
      {"Error of span", "%", &Row::percentOfSpan, true},
      {"Fraction of tolerance", "1", &Row::fraction, true},
      {"Expanded uncertainty", unit, &Row::uncertainty, true},
      {"k", "1", &Row::coverage, true},
      {"Verdict", "", &Row::verdict, false},
  };
  std::vector<CertificateColumn> used;
  std::copy_if(all.begin(), all.end(), std::back_inserter(used), [&table](const CertificateColumn& column) {
    return std::any_of(table.rows.begin(), table.rows.end(),
                       [&column](const Row& row) { return !(row.*column.cell).empty(); });
  });
  return used;
}

std::vector<CertificateChart> errorCharts(const Calibration& calibration) {
  std::vector<CertificateChart> charts;
  addValueMarks(charts, calibration.asFound, false);
  addValueMarks(charts, calibration.asLeft, true);
  addLevelMarks(charts, calibration.asFound, false);
  addLevelMarks(charts, calibration.asLeft, true);
  return charts;
}

}  // namespace spanwright
