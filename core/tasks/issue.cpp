// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/issue.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/record/problem.h"
#include "core/schedule/calendar.h"
#include "core/schedule/due.h"
#include "core/tasks/signing.h"
#include "core/tasks/site_calendar.h"

namespace spanwright {
namespace {

Calibration wanted(const Store& store, CalibrationId id) {
  auto calibration = store.calibration(id);
  if (!calibration) {
    throw InputError(fmt::format("there is no calibration {} in the record", id),
                     "give the number of one that \"show\" lists for its channel");
  }
  return *std::move(calibration);
}

/// The interval accepted before the entry `upTo` of the journal that was in force when the calibration was
/// performed: what was accepted after a certificate was issued never changes it.
const AcceptedInterval* acceptedThen(const Store& store, const Channel& channel,
                                     const Calibration& calibration, std::int64_t upTo) {
  const AcceptedInterval* inForce = nullptr;
  for (const AcceptedInterval& accepted : channel.acceptedIntervals) {
    if (accepted.subject == calibration.subject && accepted.fromDay <= calibration.performed.date()) {
      const auto entries = store.entriesAbout({"accepted interval", {accepted.id}});
      if (upTo == 0 || (!entries.empty() && entries.front().entry < upTo)) {
        inForce = &accepted;
      }
    }
  }
  return inForce;
}

/// When the subject is due after this calibration; nothing when it did not pass or has no routine.
std::optional<Date> dueAfter(const Store& store, const Channel& channel, const Calibration& calibration,
                             std::int64_t upTo) {
  const Register& site = store.site();
  const Routine* routine = routineFor(channel, calibration.subject);
  const IntervalPolicy* policy = routine != nullptr ? site.interval(routine->interval) : nullptr;
  if (policy == nullptr || calibration.leftVerdict != Verdict::pass) {
    return std::nullopt;
  }
  const AcceptedInterval* const accepted = acceptedThen(store, channel, calibration, upTo);
  const Date end = intervalEnd(calibration.performed.date(),
                               accepted != nullptr ? fixedInterval(*accepted) : fixedInterval(*policy));
  return workCalendar(site.calendar).onOrBefore(end);
}

const SetupVersion* setupOf(const Channel& channel, int version) {
  const auto found = std::find_if(channel.setups.begin(), channel.setups.end(),
                                  [version](const SetupVersion& setup) { return setup.version == version; });
  return found == channel.setups.end() ? nullptr : &*found;
}

/// Looks up everything the certificate refers to; what is not there stays nullptr for certificateFaults to
/// name.
CertificateSource sourceFor(const Register& site, const Calibration& calibration) {
  CertificateSource source;
  source.site = &site;
  source.calibration = &calibration;
  source.channel = site.channel(calibration.channel);
  source.plan = site.plan(calibration.plan);
  source.sensor = calibration.sensor.empty() ? nullptr : site.sensor(calibration.sensor);
  if (source.channel != nullptr) {
    source.setup = setupOf(*source.channel, calibration.setupVersion);
  }
  return source;
}

/// What was signed up to this entry of the journal; all of it for a preview.
void addSignatures(CertificateSource& source, const Store& store, std::int64_t upTo) {
  for (const Signature& signature : signatures(store, source.calibration->id)) {
    const auto entries = store.entriesAbout({"life", {signature.event.id}});
    if (upTo == 0 || (!entries.empty() && entries.front().entry < upTo)) {
      const LifeEvent& event = signature.event;
      source.signatures.push_back(
          {event.act, signature.name, event.person, event.atUtc, event.reason, signature.keyMark});
    }
  }
}

/// Everything that says where the record holds it.
void addRecord(CertificateSource& source, const Store& store,
               const std::optional<IssuedCertificate>& issued) {
  const std::int64_t upTo = issued ? issued->journal.entry : 0;
  addSignatures(source, store, upTo);
  source.dueOn = dueAfter(store, *source.channel, *source.calibration, upTo);
  if (source.calibration->corrects != 0) {
    if (const auto corrected = store.issuedCertificate(source.calibration->corrects)) {
      source.correctedCertificate = corrected->number;
    }
  }
  if (issued) {
    source.number = issued->number;
    source.revision = issued->revision;
    source.issued = issued->revisedUtc.date();
    source.anchor = {source.calibration->id, issued->journal.entry, hex(issued->journal.hash),
                     hex(store.calibrationDigest(source.calibration->id))};
  }
}

[[noreturn]] void refuse(CalibrationId id, const std::vector<std::string>& faults) {
  std::vector<Problem> problems;
  problems.reserve(faults.size());
  for (const std::string& fault : faults) {
    problems.push_back({{},
                        fmt::format("calibration {} must not be certified: {}", id, fault),
                        "complete the site or the plan it names; what the calibration itself lacks needs a "
                        "correction of it"});
  }
  throw InputError(std::move(problems));
}

}  // namespace

Certificate issueCertificate(Store& store, CalibrationId id) {
  const Calibration calibration = wanted(store, id);
  CertificateSource source = sourceFor(store.site(), calibration);
  // Judged before a number is allotted: a number that was given out is never taken back.
  if (const auto faults = certificateFaults(source); !faults.empty()) {
    refuse(id, faults);
  }
  addRecord(source, store, store.issueCertificate(id));
  return describeCertificate(source);
}

Certificate previewCertificate(const Store& store, CalibrationId id) {
  const Calibration calibration = wanted(store, id);
  CertificateSource source = sourceFor(store.site(), calibration);
  if (source.channel == nullptr) {
    refuse(id, certificateFaults(source));
  }
  const auto issued = store.issuedCertificate(id);
  const bool next = issued && signedSince(store, *issued);
  addRecord(source, store, next ? std::nullopt : issued);
  if (next) {
    source.number = issued->number;
    source.revision = issued->revision + 1;
  }
  Certificate certificate = describeCertificate(source);
  if (next) {
    certificate.mark = "Preview";
  }
  return certificate;
}

bool signedSince(const Store& store, const IssuedCertificate& issued) {
  const auto events = store.life(issued.calibration);
  return std::any_of(events.begin(), events.end(), [&](const LifeEvent& event) {
    const auto entries = store.entriesAbout({"life", {event.id}});
    return !entries.empty() && entries.front().entry > issued.journal.entry;
  });
}

Certificate certificateAsIssued(const Store& store, const IssuedCertificate& issued) {
  const Calibration calibration = wanted(store, issued.calibration);
  CertificateSource source = sourceFor(store.site(), calibration);
  if (source.channel == nullptr) {
    refuse(issued.calibration, certificateFaults(source));
  }
  addRecord(source, store, issued);
  return describeCertificate(source);
}

std::optional<Date> dueAfterCalibration(const Store& store, CalibrationId id) {
  const Calibration calibration = wanted(store, id);
  const Channel* channel = store.site().channel(calibration.channel);
  return channel != nullptr ? dueAfter(store, *channel, calibration, 0) : std::nullopt;
}

std::vector<std::string> issueFaults(const Store& store, CalibrationId id) {
  const Calibration calibration = wanted(store, id);
  return certificateFaults(sourceFor(store.site(), calibration));
}

}  // namespace spanwright
