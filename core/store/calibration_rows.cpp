// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/calibration_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/record/problem.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

constexpr double kOpen = std::numeric_limits<double>::infinity();

std::optional<double> unlessNan(double value) {
  return std::isnan(value) ? std::nullopt : std::optional(value);
}

/// A record says in order what was done; the same point twice in one phase, or a reading that is no number,
/// cannot be kept.
void refuseUnkeepable(const std::vector<Reading>& readings, Phase phase) {
  std::vector<int> sequences;
  for (const Reading& reading : readings) {
    sequences.push_back(reading.point.sequence);
    if (!reading.skipped() && !(std::isfinite(reading.applied) && std::isfinite(reading.indicated))) {
      throw InputError(
          fmt::format("the {} reading of point {} is not a number", stored(phase), reading.point.sequence),
          "give a number, or a reason why the point was skipped");
    }
  }
  std::sort(sequences.begin(), sequences.end());
  const auto twice = std::adjacent_find(sequences.begin(), sequences.end());
  if (twice != sequences.end()) {
    throw InputError(fmt::format("point {} has two {} readings", *twice, stored(phase)), "keep one of them");
  }
}

void writeReadings(Connection& connection, std::string_view site, CalibrationId calibration, Phase phase,
                   const std::vector<Reading>& readings) {
  static const std::string kReading = insertInto(
      "reading",
      "site, calibration, phase, sequence, role, percent, direction, run, alarm, label, nominal_applied, "
      "applied, applied_unit, applied_text, indicated, indicated_unit, indicated_text, skip_reason, "
      "expected, "
      "limit_low, limit_high, uncertainty, coverage, verdict, within_one_step, floored");
  Query insert = connection.query(kReading);
  for (const Reading& r : readings) {
    const TestPoint& p = r.point;
    // What was not measured is no 0 to whoever sums up the column.
    const auto measured = [&r](double value) { return r.skipped() ? std::nullopt : std::optional(value); };
    insert.run(site, calibration, stored(phase), p.sequence, stored(p.role), p.percent, stored(p.direction),
               p.run, p.alarm ? std::optional(stored(*p.alarm)) : std::nullopt, p.label, p.nominalApplied,
               measured(r.applied), stored(p.appliedUnit), r.appliedText, measured(r.indicated),
               stored(p.readingUnit), r.indicatedText, r.skipReason, unlessNan(r.expected),
               r.limits.low == -kOpen ? std::nullopt : std::optional(r.limits.low),
               r.limits.high == kOpen ? std::nullopt : std::optional(r.limits.high), r.expandedUncertainty,
               r.coverageFactor, stored(r.verdict), r.withinOneStep, r.flooredByStep);
  }
}

void readStandards(Connection& connection, std::string_view site, Calibration& calibration) {
  Query row = connection.query(
      "SELECT s.serial, u.certificate FROM calibration_standard u "
      "JOIN standard s ON s.site = u.site AND s.id = u.standard "
      "WHERE u.site = $1 AND u.calibration = $2 ORDER BY u.id");
  row.bind(site, calibration.id);
  while (row.step()) {
    calibration.standards.push_back({row.text(0), row.text(1)});
  }
}

Reading readingOf(const Query& row) {
  Reading r;
  TestPoint& p = r.point;
  p.sequence = row.smallInteger(1);
  p.role = pointRoleAt(row, 2);
  p.percent = row.real(3);
  p.direction = directionAt(row, 4);
  p.run = row.smallInteger(5);
  p.alarm = alarmLevelAt(row, 6);
  p.label = row.text(7);
  p.nominalApplied = row.real(8);
  r.applied = row.real(9);
  p.appliedUnit = unitAt(row, 10);
  r.appliedText = row.text(11);
  r.indicated = row.real(12);
  p.readingUnit = unitAt(row, 13);
  r.indicatedText = row.text(14);
  r.skipReason = row.text(15);
  r.expected = row.optionalReal(16).value_or(std::numeric_limits<double>::quiet_NaN());
  r.limits = {row.optionalReal(17).value_or(-kOpen), row.optionalReal(18).value_or(kOpen)};
  r.expandedUncertainty = row.optionalReal(19);
  r.coverageFactor = row.real(20);
  r.verdict = verdictAt(row, 21);
  r.withinOneStep = row.flag(22);
  r.flooredByStep = row.flag(23);
  return r;
}

void readReadings(Connection& connection, std::string_view site, Calibration& calibration,
                  std::int64_t expected) {
  Query row = connection.query(
      "SELECT phase, sequence, role, percent, direction, run, alarm, label, nominal_applied, applied, "
      "applied_unit, "
      "applied_text, indicated, indicated_unit, indicated_text, skip_reason, expected, limit_low, "
      "limit_high, "
      "uncertainty, coverage, verdict, within_one_step, floored FROM reading "
      "WHERE site = $1 AND calibration = $2 ORDER BY phase, sequence");
  row.bind(site, calibration.id);
  std::int64_t count = 0;
  while (row.step()) {
    (phaseAt(row, 0) == Phase::asFound ? calibration.asFound : calibration.asLeft).push_back(readingOf(row));
    ++count;
  }
  if (count != expected) {
    row.damaged(
        fmt::format("calibration {} has {} readings where {} were written", calibration.id, count, expected));
  }
}

CalibrationSummary summaryOf(const Query& row) {
  CalibrationSummary s;
  s.id = row.integer(0);
  s.channel = row.text(1);
  s.subject = subjectAt(row, 2);
  s.setupVersion = row.smallInteger(3);
  s.sensor = row.text(4);
  s.performed = momentAt(row, 5);
  s.person = row.text(6);
  s.adjusted = row.flag(7);
  s.repaired = row.flag(8);
  s.foundVerdict = verdictAt(row, 9);
  s.leftVerdict = verdictAt(row, 10);
  if (!row.isNull(11)) {
    const auto act = parseLifeAct(row.textView(11));
    if (!act) {
      row.damaged(fmt::format("\"{}\" becomes of no calibration", row.text(11)));
    }
    s.state = stateAfter(*act);
  }
  s.recordedUtc = utcAt(row, 12);
  return s;
}

constexpr std::string_view kJoins =
    "JOIN channel h ON h.site = c.site AND h.id = c.channel JOIN person p ON p.site = c.site AND p.id = "
    "c.person "
    "LEFT JOIN sensor s ON s.site = c.site AND s.id = c.sensor ";
constexpr std::string_view kSummary =
    "SELECT c.id, h.tag, c.subject, c.setup_version, s.serial, c.performed, p.login, c.adjusted, c.repaired, "
    "c.found_verdict, c.left_verdict, (SELECT l.act FROM life_event l WHERE l.site = c.site AND "
    "l.calibration = "
    "c.id ORDER BY l.id DESC LIMIT 1), c.recorded_utc ";

}  // namespace

CalibrationId writeCalibration(Connection& connection, std::string_view site, const Keys& keys,
                               const Calibration& calibration, Moment recordedUtc) {
  static const std::string kUsed =
      insertInto("calibration_standard", "site, calibration, id, standard, certificate");
  static const std::string kCalibration = insertInto(
      "calibration",
      "site, id, channel, subject, setup_version, sensor, plan, plan_revision, performed, person, "
      "temperature, humidity, conditions_note, cautions_confirmed, adjusted, repaired, adjustment, "
      "found_verdict, left_verdict, remarks, source, recorded_utc, readings, reference_junction");
  const Calibration& c = calibration;
  refuseUnkeepable(c.asFound, Phase::asFound);
  refuseUnkeepable(c.asLeft, Phase::asLeft);
  const std::int64_t channel = keyOf(keys.channels, "channel", c.channel);
  const std::int64_t person = keyOf(keys.people, "person", c.person);
  const auto sensor = optionalKeyOf(keys.sensors, "sensor", c.sensor);

  // Calibrations are never deleted, so the next number was never in use.
  Query next = connection.query("SELECT coalesce(max(id), 0) + 1 FROM calibration WHERE site = $1");
  next.bind(site).step();
  const CalibrationId id = next.integer(0);

  std::int64_t position = 0;
  for (const UsedStandard& used : c.standards) {
    connection.query(kUsed).run(site, id, ++position, keyOf(keys.standards, "standard", used.serial),
                                used.certificate);
  }
  if (c.corrects != 0) {
    static const std::string kCorrection = insertInto("correction", "site, calibration, corrects, reason");
    connection.query(kCorrection).run(site, id, c.corrects, c.correctionReason);
  }
  writeReadings(connection, site, id, Phase::asFound, c.asFound);
  writeReadings(connection, site, id, Phase::asLeft, c.asLeft);
  connection.query(kCalibration)
      .run(site, id, channel, stored(c.subject),
           c.setupVersion == 0 ? std::nullopt : std::optional(c.setupVersion), sensor, c.plan, c.planRevision,
           stored(c.performed), person, c.conditions.temperature, c.conditions.humidity, c.conditions.note,
           c.cautionsConfirmed, c.adjustment.adjusted, c.adjustment.repaired, c.adjustment.text,
           stored(c.foundVerdict), stored(c.leftVerdict), c.remarks, c.source, storedUtc(recordedUtc),
           std::ssize(c.asFound) + std::ssize(c.asLeft), c.conditions.referenceJunction);
  return id;
}

void readCalibrations(Connection& connection, std::string_view site, std::string_view filter,
                      std::int64_t value, const std::function<bool(Calibration&&)>& visit) {
  Query row = connection.query(fmt::format(
      "SELECT c.id, h.tag, c.subject, c.setup_version, s.serial, c.plan, c.plan_revision, c.performed, "
      "p.login, "
      "c.temperature, c.humidity, c.conditions_note, c.cautions_confirmed, c.adjusted, c.repaired, "
      "c.adjustment, "
      "c.found_verdict, c.left_verdict, c.remarks, c.source, c.recorded_utc, c.readings, k.corrects, "
      "k.reason, c.reference_junction "
      "FROM calibration c {} LEFT JOIN correction k ON k.site = c.site AND k.calibration = c.id "
      "WHERE c.site = $1 AND {}",
      kJoins, filter));
  row.bind(site, value);
  while (row.step()) {
    Calibration c;
    c.id = row.integer(0);
    c.channel = row.text(1);
    c.subject = subjectAt(row, 2);
    c.setupVersion = row.smallInteger(3);
    c.sensor = row.text(4);
    c.plan = row.text(5);
    c.planRevision = row.text(6);
    c.performed = momentAt(row, 7);
    c.person = row.text(8);
    c.conditions = {row.optionalReal(9), row.optionalReal(10), row.text(11), row.optionalReal(24)};
    c.cautionsConfirmed = row.flag(12);
    c.adjustment = {row.flag(13), row.flag(14), row.text(15)};
    c.foundVerdict = verdictAt(row, 16);
    c.leftVerdict = verdictAt(row, 17);
    c.remarks = row.text(18);
    c.source = row.text(19);
    c.recordedUtc = utcAt(row, 20);
    c.corrects = row.integer(22);
    c.correctionReason = row.text(23);
    readStandards(connection, site, c);
    readReadings(connection, site, c, row.integer(21));
    if (!visit(std::move(c))) {
      return;
    }
  }
}

std::vector<CalibrationSummary> readSummaries(Connection& connection, std::string_view site,
                                              std::int64_t channel) {
  Query row = connection.query(
      fmt::format("{} FROM calibration c {} WHERE c.site = $1 AND c.channel = $2 ORDER BY c.performed, c.id",
                  kSummary, kJoins));
  row.bind(site, channel);
  std::vector<CalibrationSummary> summaries;
  while (row.step()) {
    summaries.push_back(summaryOf(row));
  }
  return summaries;
}

std::vector<CalibrationSummary> readLatestPassing(Connection& connection, std::string_view site) {
  Query row = connection.query(fmt::format(
      "{} FROM (SELECT c.*, row_number() OVER (PARTITION BY c.channel, c.subject, c.setup_version, c.sensor "
      "ORDER BY c.performed DESC, c.id DESC) AS place FROM calibration c "
      "WHERE c.site = $1 AND c.left_verdict = 'pass' AND coalesce((SELECT l.act FROM life_event l WHERE "
      "l.site = "
      "c.site AND l.calibration = c.id ORDER BY l.id DESC LIMIT 1), '') NOT IN ('sent back', 'withdrawn', "
      "'superseded')) c {} WHERE c.place = 1 ORDER BY c.channel, c.performed, c.id",
      kSummary, kJoins));
  row.bind(site);
  std::vector<CalibrationSummary> summaries;
  while (row.step()) {
    summaries.push_back(summaryOf(row));
  }
  return summaries;
}

namespace {

/// A visit nobody signed is looked for among so many of the latest calibrations: most of a long record were
/// imported and have no event either.
constexpr std::int64_t kUnsignedAmong = 2000;

std::vector<CalibrationSummary> readUnsigned(Connection& connection, std::string_view site) {
  Query row = connection.query(fmt::format(
      "{} FROM calibration c {} WHERE c.site = $1 AND c.source = 'entered' AND c.id > (SELECT max(n.id) FROM "
      "calibration n WHERE n.site = $1) - $2 AND NOT EXISTS (SELECT 1 FROM life_event l WHERE l.site = "
      "c.site "
      "AND l.calibration = c.id) ORDER BY c.performed, c.id",
      kSummary, kJoins));
  row.bind(site, kUnsignedAmong);
  std::vector<CalibrationSummary> summaries;
  while (row.step()) {
    summaries.push_back(summaryOf(row));
  }
  return summaries;
}

}  // namespace

std::vector<CalibrationSummary> readInState(Connection& connection, std::string_view site, LifeState state) {
  if (state == LifeState::recorded) {
    return readUnsigned(connection, site);
  }
  // From the events, which are few, not from the calibrations.
  Query row =
      connection.query(fmt::format("{} FROM life_event e JOIN calibration c ON c.site = e.site AND c.id = "
                                   "e.calibration {} WHERE e.site = $1 AND "
                                   "e.act = $2 AND NOT EXISTS (SELECT 1 FROM life_event n WHERE n.site = "
                                   "e.site AND n.calibration = e.calibration "
                                   "AND n.id > e.id) ORDER BY c.performed, c.id",
                                   kSummary, kJoins));
  row.bind(site, text(state));
  std::vector<CalibrationSummary> summaries;
  while (row.step()) {
    summaries.push_back(summaryOf(row));
  }
  return summaries;
}

}  // namespace spanwright
