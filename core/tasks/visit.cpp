// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/visit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <utility>

#include "core/record/life.h"
#include "core/record/reference_junction.h"
#include "core/tasks/point_uncertainty.h"
#include "core/tasks/signing.h"

namespace spanwright {
namespace {

Problem problem(std::string what, std::string todo) {
  return {{}, std::move(what), std::move(todo)};
}

/// The setup for the subject, or what is missing.
std::variant<const SetupVersion*, Problem> setupFor(const Channel& channel, Moment when) {
  if (const SetupVersion* setup = setupInForce(channel, when)) {
    return setup;
  }
  if (channel.setups.empty()) {
    return problem(fmt::format("{} has no setup", channel.tag),
                   "enter the setup that is in force on it first");
  }
  return problem(fmt::format("{} had no setup in force on {}; its first is of {}", channel.tag,
                             formatMoment(when), formatMoment(channel.setups.front().inForceFrom)),
                 "correct the date; nothing is known of how the channel was set up then");
}

std::variant<const Sensor*, Problem> sensorFor(const Register& site, const Channel& channel, Subject subject,
                                               Moment when) {
  const Fitting* fitting = fittingAt(channel, when);
  const Sensor* sensor = fitting != nullptr ? site.sensor(fitting->sensor) : nullptr;
  if (sensor != nullptr || subject == Subject::channel) {
    return sensor;
  }
  if (fitting != nullptr) {
    return problem(
        fmt::format("sensor {}, fitted on {}, is not in the register", fitting->sensor, channel.tag),
        "describe the sensor in the register first");
  }
  return problem(fmt::format("no sensor was fitted on {} on {}, so there is no {} to calibrate", channel.tag,
                             formatMoment(when), text(subject)),
                 "correct the date, or enter the sensor's fitting");
}

/// The model of what is calibrated, or why its description cannot be used.
std::variant<PointModelPtr, Problem> modelFor(const VisitSheet& sheet) {
  if (sheet.subject != Subject::sensor) {
    if (const auto faults = setupFaults(sheet.setup->setup); !faults.empty()) {
      return problem(fmt::format("setup {} of {} cannot be used: {}", sheet.setup->version,
                                 sheet.channel->tag, faults.front()),
                     "enter a corrected setup");
    }
  }
  if (sheet.subject != Subject::channel) {
    if (const auto faults = sensorFaults(sheet.sensor->range); !faults.empty()) {
      return problem(fmt::format("sensor {} cannot be used: {}", sheet.sensor->serial, faults.front()),
                     "correct the sensor's range in the register");
    }
  }
  switch (sheet.subject) {
    case Subject::channel:
      return channelModel(sheet.setup->setup);
    case Subject::sensor:
      return sensorModel(sheet.sensor->range);
    case Subject::loop:
      break;
  }
  PointModelPtr loop = loopModel(sheet.setup->setup, sheet.sensor->range);
  const Expected middle = loop->expected(loop->appliedSpan().low + loop->appliedSpan().width() / 2.0);
  if (const auto* why = std::get_if<RangeResult>(&middle); why != nullptr && *why == RangeResult::wrongUnit) {
    const auto faults = loopFaults(sheet.setup->setup, sheet.sensor->range);
    return problem(fmt::format("{} and sensor {} make no loop: {}", sheet.channel->tag, sheet.sensor->serial,
                               faults.empty() ? "they do not fit together" : faults.front()),
                   "correct the setup or the fitting");
  }
  return loop;
}

}  // namespace

std::optional<ThermocoupleType> VisitSheet::couple() const {
  return coupleInMillivolts(subject, setup != nullptr ? &setup->setup : nullptr,
                            sensor != nullptr ? &sensor->range : nullptr);
}

std::variant<VisitSheet, Problem> openSheet(const Register& site, std::string_view channel, Subject subject,
                                            Moment when) {
  VisitSheet sheet;
  sheet.site = &site;
  sheet.subject = subject;
  sheet.when = when;
  sheet.channel = site.channel(channel);
  if (sheet.channel == nullptr) {
    return problem(fmt::format("there is no channel \"{}\" in the register", channel),
                   "correct the tag, or describe the channel first");
  }
  if (when.is_special()) {
    return problem("the visit has no date", "give the date and time it was made");
  }
  const Routine* routine = routineFor(*sheet.channel, subject);
  if (routine == nullptr) {
    return problem(fmt::format("{} has no routine for the {}", sheet.channel->tag, text(subject)),
                   "choose a subject the channel has a routine for, or add one");
  }
  sheet.plan = site.plan(routine->plan);
  if (sheet.plan == nullptr) {
    return problem(fmt::format("plan {} of {} is not in the register", routine->plan, sheet.channel->tag),
                   "describe the plan in the register first");
  }
  const auto setup = setupFor(*sheet.channel, when);
  if (const auto* missing = std::get_if<Problem>(&setup)) {
    return *missing;
  }
  sheet.setup = std::get<const SetupVersion*>(setup);
  const auto sensor = sensorFor(site, *sheet.channel, subject, when);
  if (const auto* missing = std::get_if<Problem>(&sensor)) {
    return *missing;
  }
  sheet.sensor = std::get<const Sensor*>(sensor);
  auto model = modelFor(sheet);
  if (auto* unusable = std::get_if<Problem>(&model)) {
    return std::move(*unusable);
  }
  sheet.model = std::get<PointModelPtr>(std::move(model));
  sheet.points = layOutPoints(sheet.plan->scheme, *sheet.model, &sheet.setup->setup, subject);
  if (sheet.points.empty()) {
    return problem(fmt::format("plan {} gives no test points for {}", sheet.plan->code, sheet.channel->tag),
                   "give the plan test points in percent of span");
  }
  return sheet;
}

namespace {

std::vector<const Standard*> standardsWhere(const Register& site, Date day,
                                            const std::function<bool(const StandardCertificate&)>& covers) {
  std::vector<const Standard*> found;
  for (const Standard& standard : site.standards) {
    const StandardCertificate* certificate = standardUse(standard, day).certificate;
    if (certificate != nullptr && covers(*certificate)) {
      found.push_back(&standard);
    }
  }
  std::sort(found.begin(), found.end(),
            [](const Standard* a, const Standard* b) { return a->serial < b->serial; });
  return found;
}

}  // namespace

std::vector<const Standard*> standardsFor(const Register& site, Date day, Unit unit) {
  return standardsWhere(site, day, [&](const StandardCertificate& certificate) {
    return std::any_of(certificate.ranges.begin(), certificate.ranges.end(),
                       [&](const CertificateRange& range) {
                         return !range.points.empty() && sameDimension(range.unit, unit);
                       });
  });
}

std::vector<const Standard*> standardsFor(const VisitSheet& sheet) {
  std::vector<MeasuredValue> wanted;
  for (const TestPoint& point : sheet.points) {
    Reading reading;
    reading.point = point;
    for (const MeasuredValue& value : measuredValues(sheet, reading)) {
      const bool known = std::any_of(wanted.begin(), wanted.end(), [&](const MeasuredValue& other) {
        return other.unit == value.unit && other.applied == value.applied;
      });
      if (!known) {
        wanted.push_back(value);
      }
    }
  }
  return standardsWhere(*sheet.site, sheet.when.date(), [&](const StandardCertificate& certificate) {
    return std::any_of(wanted.begin(), wanted.end(),
                       [&](const MeasuredValue& value) { return coversUnit(sheet, certificate, value); });
  });
}

namespace {

void checkCorrection(const Store& store, const ProposedVisit& visit, CheckedVisit& checked) {
  const auto corrected = store.calibration(visit.corrects);
  if (!corrected) {
    checked.problems.push_back({visit.where,
                                fmt::format("there is no calibration {} to correct", visit.corrects),
                                "give the number of one that \"show\" lists for its channel"});
    return;
  }
  if (!checked.calibration) {
    return;  // refused for other reasons
  }
  if (auto fault = correctionFault(*corrected, store.life(corrected->id), *checked.calibration)) {
    fault->where = visit.where;
    checked.problems.push_back(std::move(*fault));
  }
}

}  // namespace

Calibration enterVisit(Store& store, const ProposedVisit& visit, Moment now,
                       std::optional<std::int64_t> draft) {
  // Everything inside one transaction, so that two programs entering the same visit cannot both find it
  // absent.
  Store::Transaction transaction(store);
  CheckedVisit checked = checkVisit(store.site(), visit, now, false);
  if (!visit.performed.is_special()) {
    const auto known = store.standingCalibration(visit.channel, visit.subject, visit.performed);
    if (known && visit.corrects == 0) {
      checked.problems.push_back(
          {visit.where,
           fmt::format("a visit to the {} of {} at {} is already there, as calibration {}",
                       text(visit.subject), visit.channel, formatMoment(visit.performed), *known),
           "nothing needs entering when it is the same visit; otherwise correct the date and time"});
    }
  }
  if (visit.corrects != 0) {
    checkCorrection(store, visit, checked);
  }
  if (!checked.problems.empty()) {
    throw InputError(std::move(checked.problems));
  }
  assert(checked.calibration.has_value());
  const CalibrationId id = store.add(*checked.calibration);
  if (visit.corrects != 0) {
    checked.calibration->id = id;
    supersedeCorrected(store, *checked.calibration);
  }
  if (draft) {
    store.removeDraft(*draft);
  }
  transaction.commit();
  auto stored = store.calibration(id);
  if (!stored) {
    throw StorageError(
        fmt::format("calibration {} was stored in {} but cannot be read back; check the file with "
                    "the verify command",
                    id, store.file().string()));
  }
  return std::move(*stored);
}

ProposedVisit visitFromDraft(const Draft& draft) {
  ProposedVisit visit;
  visit.channel = draft.channel;
  visit.subject = draft.subject;
  visit.performed = draft.started;
  visit.person = draft.person;
  visit.standards = draft.standards;
  visit.conditions = draft.conditions;
  visit.cautionsConfirmed = draft.cautionsConfirmed;
  visit.adjustment = draft.adjustment;
  visit.remarks = draft.remarks;
  std::vector<DraftValue> values = draft.values;
  std::stable_sort(values.begin(), values.end(),
                   [](const DraftValue& a, const DraftValue& b) { return a.sequence < b.sequence; });
  for (const DraftValue& value : values) {
    // A line that was typed and cleared again is a line without a reading.
    if (value.appliedText.empty() && value.indicatedText.empty() && value.skipReason.empty()) {
      continue;
    }
    ProposedReading reading;
    reading.sequence = value.sequence;
    reading.typed = {value.appliedText, value.indicatedText, value.skipReason};
    (value.phase == Phase::asFound ? visit.asFound : visit.asLeft).push_back(std::move(reading));
  }
  return visit;
}

}  // namespace spanwright
