// SPDX-License-Identifier: GPL-3.0-or-later
#include "full_record.h"

namespace spanwright::test {

std::int64_t signAct(Store& store, CalibrationId calibration, LifeAct act, const std::string& person,
                     std::int64_t key, const SecretKey& secret, const std::string& reason) {
  LifeEvent event;
  event.calibration = calibration;
  event.act = act;
  event.person = person;
  event.atUtc = store.clock().utcNow();
  event.reason = reason;
  event.digest = store.calibrationDigest(calibration).view();
  event.key = key;
  event.signature = secret.sign(signedText(store.site().site.code, event, secret.publicKey()));
  return store.addLifeEvent(event);
}

namespace {

void decide(Store& store, StandardEvent event, const SecretKey& secret) {
  event.atUtc = store.clock().utcNow();
  event.signature = secret.sign(signedText(store.site().site.code, event, secret.publicKey()));
  store.addStandardEvent(event);
}

Register fullRegister() {
  Register site = sampleRegister();
  site.people.push_back({"olaf", "Olaf Example", {Role::reviewer}, {}});
  site.index();
  return site;
}

}  // namespace

FullRecord makeFullRecord(const std::filesystem::path& file, const Clock& clock) {
  Store store = Store::create(file, fullRegister(), clock);
  FullRecord made;
  for (const char* when : {"2024-01-01T08:00:00", "2025-01-01T08:00:00", "2026-01-01T08:00:00"}) {
    made.calibrations.push_back(store.add(plainCalibration("AI-001", when)));
  }
  Calibration correction = plainCalibration("AI-001", "2025-01-01T08:00:00");
  correction.corrects = made.calibrations[1];
  correction.correctionReason = "two points were swapped";
  correction.standards = {{"LC-2201", "C-1"}, {"AA-0001", "C-2"}};
  correction.asLeft = correction.asFound;
  made.calibrations.push_back(store.add(correction));

  const SecretKey zora = SecretKey::make(), olaf = SecretKey::make();
  const auto zoraKey =
      store.addKey("zora", zora.publicKey(), zora.lock("first passphrase", kCheapKey), "zora");
  const auto olafKey =
      store.addKey("olaf", olaf.publicKey(), olaf.lock("other passphrase", kCheapKey), "olaf");
  store.changeKeyLock("zora", zoraKey, zora.lock("second passphrase", kCheapKey));
  for (const std::size_t which : {0U, 2U}) {
    const CalibrationId id = made.calibrations[which];
    signAct(store, id, LifeAct::performed, "zora", zoraKey, zora);
    signAct(store, id, LifeAct::reviewed, "olaf", olafKey, olaf, "compared with last year");
    signAct(store, id, LifeAct::approved, "olaf", olafKey, olaf);
  }
  LifeEvent superseded;
  superseded.calibration = made.calibrations[1];
  superseded.act = LifeAct::superseded;
  superseded.person = "zora";
  superseded.atUtc = clock.utcNow();
  superseded.reason = correction.correctionReason;
  superseded.correction = made.calibrations[3];
  superseded.digest = store.calibrationDigest(made.calibrations[1]).view();
  store.addLifeEvent(superseded);

  StandardEvent out;
  out.standard = "LC-2201";
  out.firstDay = on("2026-02-01");
  out.person = "olaf";
  out.reason = "dropped";
  out.key = olafKey;
  decide(store, out, olaf);
  StandardEvent allowed = out;
  allowed.act = StandardAct::useAllowed;
  allowed.lastDay = on("2026-03-01");
  allowed.reason = "laboratory late";
  decide(store, allowed, olaf);

  Attachment photo;
  photo.calibration = made.calibrations[0];
  photo.name = "terminal.txt";
  photo.mediaType = "text/plain";
  photo.person = "zora";
  store.addAttachment(photo, "terminal 2, loose screw");
  store.addRound({0,
                  "after the drop",
                  "standard LC-2201",
                  "olaf",
                  {},
                  {},
                  {{"AI-001", Subject::channel}, {"TT-101", Subject::loop}}});
  made.certificate = store.issueCertificate(made.calibrations[2]);
  for (const char* when : {"2026-02-01T08:00:00", "2026-03-01T08:00:00"}) {
    made.calibrations.push_back(store.add(plainCalibration("AI-001", when)));
  }
  store.actAs("zora");
  SetupVersion next = store.site().channel("AI-001")->setups.back();
  next.inForceFrom = at("2026-04-01T08:00:00");
  store.addSetup("AI-001", next);
  store.addFitting("TT-101", {"TX-5510", at("2026-04-01T08:00:00"), {}});
  AcceptedInterval longer;
  longer.months = 18;
  longer.fromDay = on("2026-04-02");
  longer.policy = "yearly";
  longer.proposedDays = 365;
  longer.evidence = "three visits in tolerance";
  longer.person = "adam";
  longer.atUtc = clock.utcNow();
  longer.reason = "agreed with production";
  store.acceptInterval("AI-001", longer);
  store.setPersonLeft("zora", on("2026-05-01"));
  return made;
}

}  // namespace spanwright::test
