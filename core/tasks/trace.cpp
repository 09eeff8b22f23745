// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/trace.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/tasks/stored_sheet.h"
#include "core/tasks/trace_readings.h"
#include "core/tasks/visit_before.h"
#include "core/units/number.h"

namespace spanwright {
namespace {

bool validOn(const StandardCertificate& certificate, Date day) {
  return certificate.validFrom <= day && day <= certificate.validUntil;
}

class Tracing {
 public:
  Tracing(const Register& site, CalibrationTrace& trace)
      : site_(site), trace_(trace), calibration_(trace.calibration), day_(calibration_.performed.date()) {}

  void run() {
    channel();
    sensor();
    plan();
    person();
    standards();
    readings();
  }

 private:
  void gap(std::string what) { trace_.gaps.push_back(std::move(what)); }

  void channel() {
    const Channel* channel = site_.channel(calibration_.channel);
    if (channel == nullptr) {
      gap(fmt::format("channel {} is not in the register", calibration_.channel));
      return;
    }
    trace_.title = channel->title;
    trace_.place = channel->place;
    for (const SetupVersion& setup : channel->setups) {
      if (setup.version == calibration_.setupVersion) {
        trace_.setup = setup;
      } else if (trace_.setup && !trace_.setupUntil) {
        trace_.setupUntil = setup.inForceFrom;
      }
    }
    const SetupVersion* then = setupInForce(*channel, calibration_.performed);
    if (!trace_.setup) {
      gap(fmt::format("setup {} is not in the register", calibration_.setupVersion));
    } else if (then == nullptr || then->version != calibration_.setupVersion) {
      gap(fmt::format("setup {} was not in force when it was performed", calibration_.setupVersion));
    }
    if (const Fitting* fitting = fittingAt(*channel, calibration_.performed)) {
      trace_.fitting = *fitting;
    }
  }

  void sensor() {
    const bool ofSensor = calibration_.subject != Subject::channel;
    const std::string serial =
        !calibration_.sensor.empty() || !trace_.fitting ? calibration_.sensor : trace_.fitting->sensor;
    if (const Sensor* sensor = site_.sensor(serial)) {
      trace_.sensor = *sensor;
    } else if (!serial.empty() || ofSensor) {
      gap(serial.empty() ? std::string("no sensor is named")
                         : fmt::format("sensor {} is not in the register", serial));
    }
    if (ofSensor && (!trace_.fitting || trace_.fitting->sensor != serial)) {
      gap(fmt::format("sensor {} was not fitted on {} when it was performed", serial, calibration_.channel));
      trace_.fitting.reset();
    }
  }

  void plan() {
    const Plan* plan = site_.plan(calibration_.plan);
    if (plan != nullptr && plan->revision == calibration_.planRevision) {
      trace_.plan = *plan;
    } else {
      gap(fmt::format("plan {} in revision {} is not in the register", calibration_.plan,
                      calibration_.planRevision));
    }
  }

  void person() {
    const Person* person = site_.person(calibration_.person);
    if (person == nullptr) {
      gap(fmt::format("person {} is not in the register", calibration_.person));
      return;
    }
    trace_.personName = person->name;
    if (person->leftOn && *person->leftOn < day_) {
      gap(fmt::format("{} had left on {}", person->name, formatDate(*person->leftOn)));
    }
  }

  void standards() {
    if (calibration_.standards.empty()) {
      gap("no standard is named, so nothing says what the readings trace to");
    }
    for (const UsedStandard& used : calibration_.standards) {
      trace_.standards.push_back({used, "", std::nullopt, false});
      TracedStandard& traced = trace_.standards.back();
      const Standard* standard = site_.standard(used.serial);
      if (standard == nullptr) {
        gap(fmt::format("standard {} is not in the register", used.serial));
        continue;
      }
      traced.description = standard->maker + (standard->maker.empty() ? "" : ", ") + standard->model;
      certificate(traced, *standard);
    }
  }

  void certificate(TracedStandard& traced, const Standard& standard) {
    const UsedStandard& used = traced.used;
    const StandardCertificate* certificate = certificateNumbered(standard, used.certificate);
    if (certificate == nullptr) {
      gap(fmt::format("certificate {} of standard {} is not in the register", used.certificate, used.serial));
      return;
    }
    traced.certificate = *certificate;
    traced.validOnDay = validOn(*certificate, day_);
    if (!traced.validOnDay) {
      const StandardUse use = standardUse(standard, day_);
      gap(fmt::format(
          "certificate {} of standard {} was valid from {} to {}, not on the day{}", certificate->number,
          used.serial, formatDate(certificate->validFrom), formatDate(certificate->validUntil),
          use.allowed ? fmt::format("; {} allowed its use: {}", use.event->person, use.event->reason)
                      : std::string()));
    } else if (const StandardCertificate* newest = certificateOn(standard, day_);
               newest->number != certificate->number) {
      gap(fmt::format("certificate {} of standard {} had been followed by {} on the day", certificate->number,
                      used.serial, newest->number));
    }
    if (certificate->traceability.empty()) {
      gap(fmt::format("certificate {} of standard {} does not say what it traces to", certificate->number,
                      used.serial));
    }
  }

  void readings() {
    const auto sheet = storedSheet(site_, calibration_);
    if (const auto* missing = std::get_if<Problem>(&sheet)) {
      untraced(calibration_.asFound, Phase::asFound);
      untraced(calibration_.asLeft, Phase::asLeft);
      trace_.differs.push_back("nothing can be recomputed: " + missing->what);
      return;
    }
    const auto standards = standardsOf(site_, calibration_);
    Verdict found = Verdict::notJudged;
    Verdict left = Verdict::notJudged;
    const auto& opened = std::get<VisitSheet>(sheet);
    trace_.readings = tracedReadings(opened, calibration_.asFound, Phase::asFound, standards, found);
    auto after = tracedReadings(opened, calibration_.asLeft, Phase::asLeft, standards, left);
    std::move(after.begin(), after.end(), std::back_inserter(trace_.readings));
    verdict("as found", calibration_.foundVerdict, found);
    verdict("as left", calibration_.leftVerdict, calibration_.asLeft.empty() ? found : left);
    uncovered();
  }

  void untraced(const std::vector<Reading>& readings, Phase phase) {
    for (const Reading& reading : readings) {
      trace_.readings.push_back({phase, reading, {}, std::nullopt, {}, {}});
    }
  }

  void verdict(const char* phase, Verdict stored, Verdict again) {
    if (stored != again) {
      trace_.differs.push_back(
          fmt::format("{} is stored as {}, recomputed it is {}", phase, text(stored), text(again)));
    }
  }

  /// Values no certificate reaches, said once for each standard quantity.
  void uncovered() {
    if (calibration_.standards.empty()) {
      return;
    }
    for (const TracedReading& traced : trace_.readings) {
      for (const TracedValue& value : traced.values) {
        if (value.certificate.empty()) {
          gap(fmt::format("{}, {}: no named standard's certificate reaches the {} {} {}", text(traced.phase),
                          traced.reading.point.label, value.applied ? "applied" : "observed",
                          formatSignificant(value.value, 6), symbol(value.unit)));
        }
      }
    }
  }

  const Register& site_;
  CalibrationTrace& trace_;
  const Calibration& calibration_;
  const Date day_;
};

void compareWithBefore(const Store& store, CalibrationTrace& trace) {
  const Calibration& calibration = trace.calibration;
  const auto before = visitBefore(
      store, {calibration.channel, calibration.subject, calibration.setupVersion, calibration.sensor},
      calibration.performed);
  if (!before) {
    return;
  }
  trace.before = before->id;
  for (TracedReading& traced : trace.readings) {
    const Reading* left = leftAt(*before, traced.reading.point);
    if (left != nullptr && left->point.readingUnit == traced.reading.point.readingUnit) {
      traced.leftBefore = left->error();
    }
  }
}

}  // namespace

bool CalibrationTrace::agrees() const {
  return differs.empty() && std::all_of(readings.begin(), readings.end(),
                                        [](const TracedReading& each) { return each.differs.empty(); });
}

CalibrationTrace traceCalibration(const Store& store, CalibrationId id) {
  auto calibration = store.calibration(id);
  if (!calibration) {
    throw InputError(fmt::format("there is no calibration {}", id),
                     "check the number; \"spanwright show RECORD CHANNEL\" lists those of a channel");
  }
  CalibrationTrace trace;
  trace.calibration = std::move(*calibration);
  trace.issued = store.issuedCertificate(id);
  Tracing(store.site(), trace).run();
  compareWithBefore(store, trace);
  return trace;
}

StandardTrace traceStandard(const Store& store, std::string_view serial) {
  const Standard* standard = store.site().standard(serial);
  if (standard == nullptr) {
    throw InputError(fmt::format("the register has no standard \"{}\"", serial),
                     "check the serial number; \"spanwright standards\" lists them all");
  }
  StandardTrace trace;
  trace.standard = *standard;
  for (const StandardCertificate& certificate : standard->certificates) {
    if (certificate.traceability.empty()) {
      trace.gaps.push_back(fmt::format("certificate {} does not say what it traces to", certificate.number));
    }
  }
  for (const CalibrationId id : store.calibrationsUsing(serial)) {
    const auto calibration = store.calibration(id);
    if (!calibration) {
      continue;
    }
    UseOfStandard use{id,
                      calibration->channel,
                      calibration->subject,
                      calibration->performed,
                      calibration->foundVerdict,
                      calibration->leftVerdict,
                      "",
                      false};
    for (const UsedStandard& used : calibration->standards) {
      use.certificate = used.serial == serial ? used.certificate : use.certificate;
    }
    const StandardCertificate* certificate = certificateNumbered(*standard, use.certificate);
    use.validOnDay = certificate != nullptr && validOn(*certificate, use.performed.date());
    if (!use.validOnDay) {
      trace.gaps.push_back(
          fmt::format("calibration {} of {} on {} names certificate {}, which {}", id, use.channel,
                      formatDate(use.performed.date()), use.certificate,
                      certificate == nullptr ? "is not in the register" : "was not valid on the day"));
    }
    trace.uses.push_back(std::move(use));
  }
  std::stable_sort(trace.uses.begin(), trace.uses.end(),
                   [](const UseOfStandard& a, const UseOfStandard& b) { return a.performed < b.performed; });
  return trace;
}

}  // namespace spanwright
