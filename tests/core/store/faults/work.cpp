// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/store/faults/work.h"

#include <fmt/format.h>
#include <unistd.h>

#include "core/store/sqlite_connection.h"
#include "core/store/verify.h"
#include "core/tasks/history_import.h"
#include "core/tasks/signing.h"
#include "core/tasks/visit.h"
#include "tests/core/tasks/visit_site.h"

namespace spanwright::test {

namespace {

constexpr const char* kVisited = "TT-110";  // three points, 4-20 mA to 0..150 degC
constexpr const char* kChanged = "TT-102";
constexpr int kPoints = 3;
constexpr int kImported = 3;

Moment startOf(int round) {
  return moment("2026-01-05T08:00") + boost::posix_time::hours(round);
}
Moment importedAt(int round, int index) {
  return moment("2025-03-03T08:00") + boost::posix_time::hours(round) +
         boost::posix_time::minutes(10 * index);
}
Moment looseAt(int number) {
  return moment("2025-11-03T08:00") + boost::posix_time::minutes(number);
}
std::string readingOf(int round, int point) {
  return fmt::format("{:.1f}", 75.0 * point + 0.1 * (round % 3));
}

Draft draftOf(int round) {
  Draft draft;
  draft.channel = kVisited;
  draft.person = "mtolland";
  draft.started = startOf(round);
  draft.setupVersion = 1;
  draft.standards = {"LC-2201"};
  draft.cautionsConfirmed = true;
  return draft;
}

Draft openDraft(const Store& store, int round) {
  for (Draft& draft : store.drafts()) {
    if (draft.started == startOf(round)) {
      return draft;
    }
  }
  throw std::logic_error("the round has no draft");
}

CalibrationId visitOf(const Store& store, int round) {
  return store.findCalibration(kVisited, Subject::channel, startOf(round)).value();
}

void changeDraft(Store& store, int round) {
  Draft draft = openDraft(store, round);
  draft.conditions = {21.5, 40.0, "draughty"};
  draft.remarks = fmt::format("round {}", round);
  store.saveDraft(draft);
}

void importHistory(Store& store, int round) {
  HistoryImport import(store, workClock().localNow(), DecimalSign::point);
  import.beginFile(fmt::format("round-{}.csv", round));
  int line = 1;
  for (int visit = 0; visit < kImported; ++visit) {
    for (int point = 0; point < kPoints; ++point) {
      HistoryRow row;
      row.channel = kVisited;
      row.performed = importedAt(round, visit);
      row.key = std::to_string(50 * point);
      row.direction = Direction::up;
      row.typed.indicatedText = readingOf(round, point);
      row.person = "mtolland";
      row.standards = {"LC-2201"};
      row.line = ++line;
      import.add(row);
    }
  }
  if (import.finish(false, false).calibrations != kImported) {
    throw std::logic_error("the import was refused");
  }
}

void addSetup(Store& store, int round) {
  SetupVersion setup = store.site().channel(kChanged)->setups.front();
  setup.inForceFrom = startOf(round);
  std::get<AnalogInputSetup>(setup.setup.kind).units = Span{0, 100.0 + round, Unit::celsius};
  setup.remark = fmt::format("round {}", round);
  store.addSetup(kChanged, setup);
}

void addStandardCertificate(Store& store, int round) {
  StandardCertificate made;
  made.number = fmt::format("R-{}", round);
  made.issued = made.validFrom = day(2025, 1, 1);
  made.validUntil = day(2026, 12, 31);
  made.ranges = {{Unit::volt, 0.001, {{0, 0, 0.001}, {10, 0.001, 0.002}}}};
  store.addStandardCertificate("NEW-1", made);
}

Signer technician() {
  return {
      "mtolland", "an invented passphrase", {1, 8192}};  // the least Argon2id takes: these keys guard nothing
}

void attachFile(Store& store, int round) {
  Attachment file;
  file.calibration = visitOf(store, round);
  file.name = fmt::format("round-{}.txt", round);
  file.mediaType = "text/plain";
  file.person = "mtolland";
  store.addAttachment(file, std::string(9000, static_cast<char>('a' + round % 26)));
}

/// Of the calibration with this id: its signatures, certificate and attachments.
std::string followersOf(const Store& store, CalibrationId id) {
  std::string followers;
  for (const LifeEvent& event : store.life(id)) {
    followers += fmt::format("{} by {} on {}\n", text(event.act), event.person, formatMoment(event.atUtc));
  }
  followers += store.issuedCertificate(id) ? "certified\n" : "";
  for (const Attachment& file : store.attachments()) {
    if (file.calibration == id) {
      const std::string content = store.attachmentContent(file.id);
      followers += fmt::format("attached {} of {} bytes {}\n", file.name, file.size, hex(sha256(content)));
    }
  }
  return followers;
}

std::string withoutNumbers(const Store& store, Calibration calibration) {
  const std::string followers = followersOf(store, calibration.id);
  calibration.id = 0;
  return everything(calibration) + followers;
}

std::string registerPartsOf(const Store& store, int round) {
  std::string parts;
  const Channel& changed = *store.site().channel(kChanged);
  for (const SetupVersion& setup : changed.setups) {
    if (setup.inForceFrom == startOf(round)) {
      const Span units = *std::get<AnalogInputSetup>(setup.setup.kind).units;
      parts += fmt::format("setup {} 0..{}\n", setup.remark, units.high);
    }
  }
  for (const Fitting& fitting : changed.fittings) {
    if (fitting.from == startOf(round)) {
      parts += fmt::format("fitted {}\n", fitting.sensor);
    }
  }
  for (const StandardCertificate& made : store.site().standard("NEW-1")->certificates) {
    if (made.number == fmt::format("R-{}", round)) {
      parts += fmt::format("standard's certificate of {} points\n", made.ranges.at(0).points.size());
    }
  }
  return parts;
}

}  // namespace

const char* text(Save save) {
  constexpr std::array<const char*, kSavesOfRound> kWords{"begin a draft",
                                                          "first value",
                                                          "second value",
                                                          "third value",
                                                          "change the draft",
                                                          "enter a visit",
                                                          "sign",
                                                          "import",
                                                          "add a setup",
                                                          "fit a sensor",
                                                          "add a standard's certificate",
                                                          "issue a certificate",
                                                          "attach a file"};
  return kWords.at(static_cast<std::size_t>(save));
}

const FixedClock& workClock() {
  static const FixedClock kClock("2026-11-25T12:00:00", "2026-11-25T11:00:00");
  return kClock;
}

Store makeBareRecord(const std::filesystem::path& file) {
  return Store::create(file, visitSite(), workClock());
}
Store makeRecord(const std::filesystem::path& file) {
  Store store = makeBareRecord(file);
  changePassphrase(store, technician(), technician().passphrase);
  return store;
}
Store openRecord(const std::filesystem::path& file, Store::Mode mode) {
  return Store::open(file, mode, workClock());
}

void doSave(Store& store, NumberedSave numberedSave) {
  const auto [round, save] = numberedSave;
  const auto value = [&, round = round](int point) {
    store.saveDraftValue(openDraft(store, round).id,
                         {Phase::asFound, point + 1, "", readingOf(round, point), ""});
  };
  switch (save) {
    case Save::beginDraft:
      store.saveDraft(draftOf(round));
      return;
    case Save::firstValue:
      return value(0);
    case Save::secondValue:
      return value(1);
    case Save::thirdValue:
      return value(2);
    case Save::changeDraft:
      return changeDraft(store, round);
    case Save::enterVisit: {
      const Draft draft = openDraft(store, round);
      enterVisit(store, visitFromDraft(draft), workClock().localNow(), draft.id);
      return;
    }
    case Save::sign:
      signCalibration(store, visitOf(store, round), LifeAct::performed, technician(), "");
      return;
    case Save::importHistory:
      return importHistory(store, round);
    case Save::addSetup:
      return addSetup(store, round);
    case Save::fitSensor:
      return store.addFitting(kChanged, {"TX-5510", startOf(round), std::nullopt});
    case Save::addStandardCertificate:
      return addStandardCertificate(store, round);
    case Save::issueCertificate:
      store.issueCertificate(visitOf(store, round));
      return;
    case Save::attachFile:
      return attachFile(store, round);
  }
}

CalibrationId enterLooseVisit(Store& store, int number) {
  ProposedVisit visit;
  visit.channel = kVisited;
  visit.performed = looseAt(number);
  visit.person = "mtolland";
  visit.standards = {"LC-2201"};
  for (int point = 0; point < kPoints; ++point) {
    ProposedReading& reading = visit.asFound.emplace_back();
    reading.sequence = point + 1;
    reading.typed.indicatedText = readingOf(number, point);
  }
  return enterVisit(store, visit, workClock().localNow()).id;
}

std::optional<CalibrationId> looseVisit(const Store& store, int number) {
  return store.findCalibration(kVisited, Subject::channel, looseAt(number));
}

std::string everything(const Store& store) {
  std::string all = everything(store.site());
  store.forEachCalibration([&](const Calibration& calibration) {
    all += everything(calibration);
    all += followersOf(store, calibration.id);
    if (const auto issued = store.issuedCertificate(calibration.id)) {
      all += fmt::format("certificate {} {} {}\n", issued->number, formatMoment(issued->issuedUtc),
                         issued->revision);
    }
    return true;
  });
  for (const Draft& draft : store.drafts()) {
    all += everything(draft);
  }
  return all;
}

std::string journalEnd(const Store& store) {
  const JournalHead head = store.journalHead();
  return fmt::format("{} {}", head.entry, hex(head.hash));
}

std::string contentOfRound(const Store& store, int round) {
  std::string content;
  for (Draft& draft : store.drafts()) {
    if (draft.started == startOf(round)) {
      draft.id = 0;
      content += everything(draft);
    }
  }
  std::vector<Moment> moments{startOf(round)};
  for (int i = 0; i < kImported; ++i) {
    moments.push_back(importedAt(round, i));
  }
  for (const Moment& performed : moments) {
    if (const auto id = store.findCalibration(kVisited, Subject::channel, performed)) {
      content += withoutNumbers(store, store.calibration(*id).value());
    }
  }
  return content + registerPartsOf(store, round);
}

std::filesystem::path quickFolder() {
  const std::filesystem::path memory = "/dev/shm";
  return ::access(memory.c_str(), W_OK | X_OK) == 0 ? memory : std::filesystem::temp_directory_path();
}

Examined examine(const std::filesystem::path& file) {
  try {
    const Store store = openRecord(file);
    Connection connection(file, Connection::Access::readOnly);
    // Thorough, unlike the check at opening: every index against its table as well.
    const std::string finding = connection.text("PRAGMA integrity_check(1)");
    if (finding != "ok") {
      return {finding, {}, {}};
    }
    if (const RecordCheck check = verifyRecord(file); !check.problems.empty()) {
      return {"verify: " + check.problems.front().what, {}, {}};
    }
    return {{}, everything(store), journalEnd(store)};
  } catch (const std::exception& error) {
    return {error.what(), {}, {}};
  }
}

}  // namespace spanwright::test
