// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the store keeps of the life of calibrations, of keys, attachments and rounds.
#include "core/record/life.h"

#include <fmt/format.h>

#include <algorithm>

#include "full_record.h"

namespace spanwright {
namespace {

class LifeInTheStore : public testing::Test {
 protected:
  const test::Folder folder;
  test::FixedClock clock{"2026-11-20T10:00:00", "2026-11-20T09:00:00"};
  const std::filesystem::path file = folder / "site.record";
};

TEST_F(LifeInTheStore, EventsAreReadBackAsTheyWereWritten) {
  const test::FullRecord full = test::makeFullRecord(file, clock);
  const Store store = Store::open(file);
  const auto events = store.life(full.calibrations[0]);
  ASSERT_EQ(events.size(), 3U);
  EXPECT_EQ(events[1].act, LifeAct::reviewed);
  EXPECT_EQ(events[1].person, "olaf");
  EXPECT_EQ(events[1].reason, "compared with last year");
  EXPECT_EQ(events[1].atUtc, clock.utc);
  EXPECT_EQ(events[1].digest, store.calibrationDigest(full.calibrations[0]).view());
  EXPECT_EQ(store.state(full.calibrations[0]), LifeState::approved);
  EXPECT_EQ(store.state(full.calibrations[1]), LifeState::superseded);
  EXPECT_EQ(store.state(full.calibrations[4]), LifeState::recorded);
  const auto approved = store.inState(LifeState::approved);
  ASSERT_EQ(approved.size(), 2U);
  EXPECT_EQ(approved[0].id, full.calibrations[0]);
  EXPECT_TRUE(store.inState(LifeState::performed).empty());
  for (const CalibrationSummary& each : store.inState(LifeState::recorded)) {
    EXPECT_EQ(store.calibration(each.id)->source, "entered");
    EXPECT_TRUE(store.life(each.id).empty()) << each.id;
  }
}

TEST_F(LifeInTheStore, SupersededAndWithdrawnOnesNoLongerCount) {
  const test::FullRecord full = test::makeFullRecord(file, clock);
  const Store store = Store::open(file);
  const auto history = store.history("AI-001");
  EXPECT_EQ(history.size(), full.calibrations.size() - 1);
  EXPECT_TRUE(std::none_of(history.begin(), history.end(),
                           [&](const Calibration& c) { return c.id == full.calibrations[1]; }));
  EXPECT_EQ(store.calibrations("AI-001").size(), full.calibrations.size()) << "lists still show it";
  const auto correction = store.calibration(full.calibrations[3]);
  EXPECT_EQ(correction->corrects, full.calibrations[1]);
  EXPECT_EQ(correction->correctionReason, "two points were swapped");
  EXPECT_EQ(store.standingCalibration("AI-001", Subject::channel, test::at("2025-01-01T08:00:00")),
            full.calibrations[3]);
}

TEST_F(LifeInTheStore, SignedRowsAreRefusedByTheStoreItself) {
  test::makeFullRecord(file, clock);
  Connection raw(file, Connection::Access::readWrite);
  int refused = 0;
  for (const char* table : {"journal", "life_event", "person_key", "key_lock", "correction", "standard_event",
                            "attachment", "calibration", "reading", "calibration_standard", "round_stop"}) {
    for (const std::string& sql :
         {fmt::format("DELETE FROM {}", table), fmt::format("UPDATE {} SET site = site", table)}) {
      const std::string said = test::refusal([&] { raw.execute(sql); });
      EXPECT_NE(said.find("refused the change"), std::string::npos) << sql << ": " << said;
      ++refused;
    }
  }
  EXPECT_EQ(refused, 22);
}

TEST_F(LifeInTheStore, KeysAndTriesAreKept) {
  test::makeFullRecord(file, clock);
  Store store = Store::open(file, Store::Mode::readWrite, clock);
  const auto key = store.personKey("olaf");
  ASSERT_TRUE(key);
  EXPECT_TRUE(unlock(key->lock, "other passphrase"));
  EXPECT_FALSE(unlock(store.personKey("zora")->lock, "first passphrase")) << "it was changed";
  EXPECT_TRUE(unlock(store.personKey("zora")->lock, "second passphrase"));
  EXPECT_EQ(store.publicKey("olaf", key->id), key->publicKey);
  EXPECT_FALSE(store.personKey("adam"));
  EXPECT_EQ(store.passphraseTries("olaf").wrong, 0);
  store.noteWrongPassphrase("olaf");
  clock.utc = test::at("2026-11-20T09:00:05");
  store.noteWrongPassphrase("olaf");
  store.noteWrongPassphrase("zora");
  EXPECT_EQ(store.passphraseTries("olaf").wrong, 2);
  EXPECT_EQ(store.passphraseTries("olaf").lastUtc, clock.utc);
  const auto secret = unlock(key->lock, "other passphrase");
  test::signAct(store, 5, LifeAct::performed, "olaf", key->id, *secret);
  EXPECT_EQ(store.passphraseTries("olaf").wrong, 0) << "a right one ends the count";
  EXPECT_EQ(store.passphraseTries("zora").wrong, 1);
}

TEST_F(LifeInTheStore, AttachmentsAreKeptWithTheirDigest) {
  test::makeFullRecord(file, clock);
  Store store = Store::open(file, Store::Mode::readWrite, clock);
  const auto all = store.attachments();
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].sha256, sha256("terminal 2, loose screw"));
  EXPECT_EQ(all[0].size, 23);
  EXPECT_EQ(store.attachmentContent(all[0].id), "terminal 2, loose screw");
  Attachment pdf;
  pdf.standard = "LC-2201";
  pdf.certificate = store.site().standard("LC-2201")->certificates.front().number;
  pdf.name = "certificate.pdf";
  const std::string bytes("%PDF-\0\xff", 7);
  EXPECT_EQ(store.attachmentContent(store.addAttachment(pdf, bytes)), bytes);
  Attachment both = pdf, none, missing = pdf, unknown;
  both.channel = "AI-001";
  missing.certificate = "no such number";
  unknown.calibration = 999;
  for (const Attachment* bad : {&both, &none, &missing, &unknown}) {
    test::inputRefusal([&] { store.addAttachment(*bad, "x"); });
  }
  EXPECT_EQ(store.attachments().size(), 2U);
}

TEST_F(LifeInTheStore, RoundsKeepTheirOrderAndCloseOnce) {
  test::makeFullRecord(file, clock);
  Store store = Store::open(file, Store::Mode::readWrite, clock);
  const auto rounds = store.rounds();
  ASSERT_EQ(rounds.size(), 1U);
  ASSERT_EQ(rounds[0].stops.size(), 2U);
  EXPECT_EQ(rounds[0].stops[1].channel, "TT-101");
  EXPECT_EQ(rounds[0].stops[1].subject, Subject::loop);
  store.closeRound(rounds[0].id);
  EXPECT_EQ(store.rounds()[0].closedUtc, clock.utc);
  test::inputRefusal([&] { store.closeRound(rounds[0].id); });
  test::inputRefusal([&] { store.closeRound(99); });
  test::inputRefusal([&] { store.addRound({0, "empty", "", "", {}, {}, {}}); });
}

TEST_F(LifeInTheStore, ACertificateGetsANewRevisionWhenSomethingWasSigned) {
  Store store = Store::create(file, test::sampleRegister(), clock);
  store.add(test::plainCalibration("AI-001", "2026-01-01T08:00:00"));
  const IssuedCertificate first = store.issueCertificate(1);
  EXPECT_EQ(first.revision, 1);
  clock.utc = test::at("2026-11-21T09:00:00");
  const IssuedCertificate again = store.issueCertificate(1);
  EXPECT_EQ(again.revision, 1);
  EXPECT_EQ(again.journal, first.journal);
  EXPECT_EQ(again.revisedUtc, first.issuedUtc);
  const SecretKey secret = SecretKey::make();
  const auto key =
      store.addKey("zora", secret.publicKey(), secret.lock("some passphrase", test::kCheapKey), "zora");
  test::signAct(store, 1, LifeAct::performed, "zora", key, secret);
  const IssuedCertificate second = store.issueCertificate(1);
  EXPECT_EQ(second.revision, 2);
  EXPECT_EQ(second.number, first.number);
  EXPECT_EQ(second.issuedUtc, first.issuedUtc);
  EXPECT_EQ(second.revisedUtc, clock.utc);
  EXPECT_EQ(store.issueCertificate(1).revision, 2);
}

}  // namespace
}  // namespace spanwright
