// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/evidence.h"

#include <gmock/gmock.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "bundle_fixture.h"
#include "core/certificate/certificate_data.h"
#include "core/store/sqlite_connection.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

class Evidence : public testing::Test {
 protected:
  Evidence() : made_(test::makeAttachedRecord(record(), clock_)) {}

  fs::path record() const { return folder_ / "site.record"; }
  EvidenceMade make(const EvidenceScope& scope, const fs::path& place,
                    const DrawCertificate& draw = test::writeAsText) {
    Store store = Store::open(record(), Store::Mode::readOnly, clock_);
    return makeEvidence(store, scope, place, draw);
  }
  static EvidenceScope channel(const std::string& tag) { return {tag, 0, {}, {}}; }

  test::Folder folder_;
  test::FixedClock clock_{"2026-11-20T10:00:00", "2026-11-20T09:00:00"};
  test::FullRecord made_;
};

TEST_F(Evidence, AFolderAndAZipHoldTheSameAndHold) {
  const EvidenceMade made = make(channel("AI-001"), folder_ / "bundle");
  make(channel("AI-001"), folder_ / "bundle.zip");
  const test::Files files = test::filesOf(folder_ / "bundle");
  EXPECT_EQ(files, test::filesOf(folder_ / "bundle.zip"));
  EXPECT_EQ(files.size(), made.files);
  for (const char* place : {"bundle", "bundle.zip"}) {
    const BundleCheck check = checkBundle(folder_ / place, {made.head});
    EXPECT_THAT(check.problems, IsEmpty()) << test::said(check);
    EXPECT_EQ(check.units, made.units);
    EXPECT_EQ(check.entries, made.entries);
    EXPECT_EQ(check.entriesShown, made.entriesShown);
    EXPECT_EQ(check.signatures, 8U);
    EXPECT_EQ(check.certificates, 2U);
    EXPECT_EQ(check.head, made.head);
    EXPECT_EQ(check.sums, made.sums);
  }
  EXPECT_EQ(made.head, Store::open(record(), Store::Mode::readOnly, clock_).journalHead());
  EXPECT_LT(made.entriesShown, made.entries);
  EXPECT_THAT(folder_.names(), Not(Contains(HasSubstr(".new"))));
}

TEST_F(Evidence, HasWhatBelongsToItAndNothingElse) {
  const EvidenceMade made = make(channel("AI-001"), folder_ / "bundle");
  const test::Files files = test::filesOf(folder_ / "bundle");
  for (const char* name :
       {"README.txt", "summary.html", "bundle.json", "journal.jsonl", "SHA256SUMS", "record/site.json",
        "record/calibration-1.json", "record/calibration-4.json", "record/standard-certificate-1-1.json",
        "record/accepted-interval-1.json", "attachments/1-terminal.txt", "standards/2-C-11873.pdf",
        "attachments/3-.._loop_drawing_.txt"}) {
    EXPECT_TRUE(files.contains(name)) << name;
  }
  EXPECT_EQ(files.at("standards/2-C-11873.pdf"), std::string("%PDF invented \0 and raw \xff", 24));
  EXPECT_EQ(files.at("certificates/" + made_.certificate.number + ".pdf"),
            "drawn: " + made_.certificate.number + "\n");
  for (const auto& [name, content] : files) {
    EXPECT_THAT(name, Not(HasSubstr("key-lock")));
    EXPECT_THAT(content, Not(HasSubstr("TT-101"))) << name << " tells of a channel that was not asked for";
    EXPECT_THAT(content, Not(HasSubstr("other.txt"))) << name;
  }
  EXPECT_EQ(made.certificates, 2U);
  EXPECT_EQ(made.notIssued.size(), 4U);
  EXPECT_EQ(made.attachments, 3U);
  EXPECT_EQ(made.calibrations.size(), 6U);
}

TEST_F(Evidence, CertificatesAreAsTheyWereIssued) {
  make(channel("AI-001"), folder_ / "bundle");
  const auto data =
      test::filesOf(folder_ / "bundle").at("certificates/" + made_.certificate.number + ".json");
  const CertificateClaim claim = certificateClaim(data);
  EXPECT_EQ(claim.anchor.journalEntry, made_.certificate.journal.entry);
  EXPECT_EQ(claim.anchor.journalHash, hex(made_.certificate.journal.hash));
  EXPECT_EQ(Store::open(record(), Store::Mode::readOnly, clock_).journalHead().entry,
            make(channel("AI-001"), folder_ / "again").entries)
      << "a bundle writes nothing into the record";
}

TEST_F(Evidence, APeriodNarrowsAndBringsWhatItsCalibrationsCorrect) {
  EvidenceScope scope = channel("AI-001");
  scope.from = test::on("2025-01-01");
  scope.to = test::on("2025-12-31");
  const EvidenceMade made = make(scope, folder_ / "bundle.zip");
  EXPECT_THAT(made.calibrations, ElementsAre(2, 4));
  EXPECT_THAT(made.also, IsEmpty());
  scope.channel.clear();
  EXPECT_THAT(make(scope, folder_ / "all.zip").calibrations, ElementsAre(2, 4));
  scope.from = scope.to = test::on("2026-03-01");
  EXPECT_THAT(make(scope, folder_ / "day.zip").calibrations, ElementsAre(6));
}

TEST_F(Evidence, ARoundBringsWhatWasDoneOfIt) {
  {
    Store store = Store::open(record(), Store::Mode::readWrite, clock_);
    store.add(test::plainCalibration("AI-001", "2026-05-01T08:00:00"));
    store.add(test::plainCalibration("AI-001", formatMoment(clock_.localNow())));
  }
  EvidenceScope scope;
  scope.round = 1;
  const EvidenceMade made = make(scope, folder_ / "bundle");
  ASSERT_EQ(made.calibrations.size(), 1U);
  const test::Files files = test::filesOf(folder_ / "bundle");
  EXPECT_TRUE(files.contains("record/round-1.json"));
  EXPECT_TRUE(checkBundle(folder_ / "bundle").problems.empty());
  scope.round = 7;
  EXPECT_THAT(test::inputRefusal([&] { make(scope, folder_ / "none"); }), HasSubstr("there is no round 7"));
}

TEST_F(Evidence, WithoutDrawingItHasTheDataAndSaysSo) {
  make(channel("AI-001"), folder_ / "bundle", {});
  const test::Files files = test::filesOf(folder_ / "bundle");
  EXPECT_FALSE(files.contains("certificates/" + made_.certificate.number + ".pdf"));
  EXPECT_TRUE(files.contains("certificates/" + made_.certificate.number + ".json"));
  EXPECT_THAT(files.at("README.txt"), HasSubstr("without PDFs"));
  EXPECT_THAT(files.at("summary.html"), HasSubstr("as data only"));
  EXPECT_TRUE(checkBundle(folder_ / "bundle").problems.empty());
}

TEST_F(Evidence, WhatIsThereIsNeverReplacedAndNothingIsLeftOfAFailure) {
  fs::create_directory(folder_ / "bundle");
  std::ofstream(folder_ / "bundle.zip") << "mine";
  for (const char* place : {"bundle", "bundle/", "bundle.zip"}) {
    EXPECT_THAT(test::refusal([&] { make(channel("AI-001"), folder_ / place); }),
                HasSubstr("is already there"));
  }
  EXPECT_TRUE(fs::is_empty(folder_ / "bundle"));
  const auto before = folder_.names();
  EXPECT_THAT(test::refusal([&] { make(channel("AI-001"), folder_ / "no" / "where"); }),
              HasSubstr("cannot be made"));
  const DrawCertificate fails = [](const Certificate&, const fs::path&) { throw StorageError("no room."); };
  EXPECT_THAT(test::refusal([&] { make(channel("AI-001"), folder_ / "other", fails); }),
              HasSubstr("no room"));
  EXPECT_THAT(test::inputRefusal([&] { make(channel("XX-9"), folder_ / "other"); }),
              HasSubstr("no channel \"XX-9\""));
  EvidenceScope early = channel("AI-001");
  early.to = test::on("2001-01-01");
  EXPECT_THAT(test::inputRefusal([&] { make(early, folder_ / "other"); }),
              HasSubstr("no calibration of channel AI-001, until 2001-01-01"));
  EXPECT_EQ(folder_.names(), before);
}

TEST_F(Evidence, ARecordThatWasChangedGivesNone) {
  {
    Connection raw(record(), Connection::Access::readWrite);
    raw.execute("DROP TRIGGER reading_not_changed");
    raw.execute("UPDATE reading SET indicated = 37.45 WHERE calibration = 1 AND sequence = 2");
  }
  const std::string said = test::refusal([&] { make(channel("AI-001"), folder_ / "bundle"); });
  EXPECT_THAT(said, HasSubstr("record/calibration-1.json"));
  EXPECT_THAT(said, HasSubstr("spanwright verify"));
  EXPECT_FALSE(fs::exists(folder_ / "bundle"));
}

TEST_F(Evidence, TheSummaryEscapesWhatTheRecordSays) {
  {
    Store store = Store::open(record(), Store::Mode::readWrite, clock_);
    Calibration odd = test::plainCalibration("AI-001", "2026-06-01T08:00:00");
    odd.corrects = made_.calibrations[5];
    odd.correctionReason = "<script>alert('&')</script>\"";
    store.add(odd);
  }
  make(channel("AI-001"), folder_ / "bundle");
  const std::string page = test::filesOf(folder_ / "bundle").at("summary.html");
  EXPECT_THAT(page, Not(HasSubstr("<script")));
  EXPECT_THAT(page, HasSubstr("&lt;script&gt;alert(&#39;&amp;&#39;)&lt;/script&gt;&quot;"));
  for (const char* word : {"superseded", "approved", "not issued", "Olaf Example", "C-11873", "Missing: "}) {
    EXPECT_THAT(page, HasSubstr(word));
  }
}

TEST_F(Evidence, AnAttachmentIsNotDoubledInItsRow) {
  make(channel("AI-001"), folder_ / "bundle");
  const auto unit = nlohmann::json::parse(test::filesOf(folder_ / "bundle").at("record/attachment-2.json"));
  const auto& content = unit.at("rows").at("attachment").at(0).at("content");
  EXPECT_EQ(content.at("file"), "standards/2-C-11873.pdf");
  EXPECT_EQ(content.at("size"), 24);
  EXPECT_EQ(content.size(), 3U);
}

}  // namespace
}  // namespace spanwright
