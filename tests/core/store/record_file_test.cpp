// SPDX-License-Identifier: GPL-3.0-or-later
#include <sys/stat.h>
#include <unistd.h>

#include <fstream>

#include "core/store/migrations/migrations.h"
#include "core/store/sqlite_connection.h"
#include "core/store/verify.h"
#include "samples.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;

void write(const fs::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary) << bytes;
}

std::string bytesOf(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

class RecordFile : public testing::Test {
 protected:
  /// What both ways of opening say; they must agree.
  std::string said() {
    const std::string reading = test::refusal([this] { Store::open(file, Store::Mode::readOnly); });
    const std::string writing = test::refusal([this] { Store::open(file); });
    EXPECT_EQ(reading, writing);
    test::expectSentence(writing, file);
    return writing;
  }
  void expectSaid(const char* part) {
    const std::string text = said();
    EXPECT_NE(text.find(part), std::string::npos) << text;
  }
  void makeRecord(int calibrations = 1) {
    Store store = Store::create(file, test::sampleRegister());
    for (int i = 0; i < calibrations; ++i) {
      store.add(test::plainCalibration("AI-001", "2026-01-01"));
    }
  }
  void raw(const std::string& sql) { Connection(file, Connection::Access::create).execute(sql); }

  const test::Folder folder;
  const fs::path file = folder / "site.record";
};

TEST_F(RecordFile, MissingFileIsRefusedAndNotMade) {
  expectSaid("is not there");
  EXPECT_TRUE(folder.names().empty());
}

TEST_F(RecordFile, AFolderIsRefused) {
  fs::create_directory(file);
  expectSaid("is a folder");
}

TEST_F(RecordFile, EmptyFileIsRefusedAndStaysEmpty) {
  write(file, "");
  expectSaid("is empty");
  EXPECT_EQ(fs::file_size(file), 0U);
}

TEST_F(RecordFile, OtherBytesAreRefusedAndStay) {
  std::mt19937 random(11);
  std::string noise(10'000, ' ');
  for (char& c : noise) {
    c = static_cast<char>(random());
  }
  for (const std::string& bytes :
       {noise, std::string("x"), std::string("SQLite format 3"), noise.substr(0, 100)}) {
    write(file, bytes);
    expectSaid("is not a record of this program");
    EXPECT_EQ(bytesOf(file), bytes);
  }
}

TEST_F(RecordFile, AnotherProgramsDatabaseIsRefusedAndStays) {
  raw("CREATE TABLE t (a); PRAGMA application_id = 42; PRAGMA user_version = 1");
  const std::string before = bytesOf(file);
  expectSaid("is a database of another program");
  EXPECT_EQ(bytesOf(file), before);
  EXPECT_EQ(folder.names(), std::vector<std::string>{"site.record"});
}

TEST_F(RecordFile, ARecordWithoutItsVersionIsRefused) {
  makeRecord();
  raw("PRAGMA user_version = 0");
  expectSaid("is damaged (it has no version)");
}

TEST_F(RecordFile, BrokenReferencesAreRefused) {
  makeRecord();
  raw("PRAGMA foreign_keys = OFF; DROP TRIGGER calibration_not_deleted; DELETE FROM calibration");
  expectSaid("is damaged (a row of");
}

TEST_F(RecordFile, OpenedByItsHeadDamageIsFoundByTheCheckThatFollowsAndEndsWriting) {
  makeRecord(3);
  raw("PRAGMA foreign_keys = OFF; DROP TRIGGER calibration_not_deleted; DELETE FROM calibration");
  EXPECT_NE(test::refusal([this] { Store::open(file); }), "");
  Store store = Store::open(file, Store::Mode::readWrite, systemClock(), Store::Check::head);
  const std::string found = test::refusal([this] { checkWholeFile(file, [] { return true; }); });
  test::expectSentence(found, file);
  EXPECT_NE(found.find("is damaged"), std::string::npos) << found;
  store.stopWriting(found);
  const auto add = [&] { store.add(test::plainCalibration("AI-001", "2026-02-01")); };
  EXPECT_EQ(test::refusal(add), found);
  EXPECT_EQ(test::refusal([&] { Store::Transaction transaction(store); }), found);
}

TEST_F(RecordFile, TheCheckOfAWholeFileFindsNothingInAGoodOne) {
  makeRecord(3);
  EXPECT_NO_THROW(checkWholeFile(file, [] { return true; }));
  Store writer = Store::open(file, Store::Mode::readWrite, systemClock(), Store::Check::head);
  EXPECT_NO_THROW(writer.add(test::plainCalibration("AI-001", "2026-02-01"))) << "nobody stopped it";
}

TEST_F(RecordFile, BytesChangedInTheMiddleAreNeverReadAsIfTheyWereRight) {
  makeRecord(40);
  const std::string good = bytesOf(file);
  const auto read = [&](const fs::path& from) {
    const Store store = Store::open(from, Store::Mode::readOnly);
    std::string all = test::everything(store.site());
    store.forEachCalibration([&](const Calibration& c) {
      all += test::everything(c);
      return true;
    });
    return all.size();
  };
  const std::size_t whole = read(file);
  int refused = 0;
  // A page overwritten with zeros: its tree or its rows are gone.
  for (std::size_t page = 1; page < good.size() / 4096; ++page) {
    std::string bad = good;
    std::fill_n(bad.begin() + static_cast<std::ptrdiff_t>(page * 4096), 4096, '\0');
    write(file, bad);
    try {
      EXPECT_EQ(read(file), whole) << "page " << page;  // an unused page may be lost
    } catch (const StorageError& error) {
      test::expectSentence(error.what(), file);
      ++refused;
    }
  }
  EXPECT_GT(refused, 10);
}

TEST_F(RecordFile, CutAnywhereItIsRefused) {
  makeRecord(20);
  const std::string good = bytesOf(file);
  ASSERT_GT(good.size(), 100'000U);
  for (std::size_t size = 0; size < good.size(); size += 307) {
    write(file, good.substr(0, size));
    SCOPED_TRACE("cut at " + std::to_string(size));
    said();
  }
  write(file, good);
  EXPECT_EQ(Store::open(file).calibrationCount(), 20);
}

TEST_F(RecordFile, CreatingNeverOverwrites) {
  write(file, "precious");
  const std::string text = test::refusal([this] { Store::create(file, test::sampleRegister()); });
  EXPECT_NE(text.find("is already there"), std::string::npos) << text;
  EXPECT_EQ(bytesOf(file), "precious");
  fs::remove(file);
  fs::create_symlink(folder / "elsewhere", file);  // a link to nothing is something too
  test::refusal([this] { Store::create(file, test::sampleRegister()); });
  EXPECT_EQ(folder.names(), std::vector<std::string>{"site.record"});
}

TEST_F(RecordFile, CreatingWhereNoFolderIsIsRefused) {
  const auto nowhere = folder / "no" / "where.record";
  const std::string text = test::refusal([&] { Store::create(nowhere, test::sampleRegister()); });
  EXPECT_NE(text.find("folder is not there"), std::string::npos) << text;
  test::expectSentence(text, nowhere);
}

TEST_F(RecordFile, AFaultyRegisterLeavesNothingBehind) {
  Register bad = test::sampleRegister();
  bad.channels[0].place = "no such place";
  test::inputRefusal([&] { Store::create(file, bad); });
  bad = test::sampleRegister();
  bad.site.address = {"not UTF-8: \xFF"};
  const std::string text = test::inputRefusal([&] { Store::create(file, bad); });
  EXPECT_NE(text.find("UTF-8"), std::string::npos) << text;
  EXPECT_TRUE(folder.names().empty());
}

TEST_F(RecordFile, OneFileRemainsWhenClosed) {
  makeRecord();
  EXPECT_EQ(folder.names(), std::vector<std::string>{"site.record"});
  Connection connection(file, Connection::Access::readOnly);
  EXPECT_EQ(connection.text("PRAGMA journal_mode"), "wal");
  EXPECT_EQ(connection.integer("PRAGMA application_id"), 0x53505752);
  EXPECT_EQ(connection.integer("PRAGMA user_version"), migrations().back().version);
}

TEST_F(RecordFile, ReadOnlyWritesNothing) {
  makeRecord();
  const std::string before = bytesOf(file);
  {
    Store store = Store::open(file, Store::Mode::readOnly);
    const auto refused = [&](auto work) {
      const std::string text = test::refusal(work);
      EXPECT_NE(text.find("opened for reading only"), std::string::npos) << text;
      test::expectSentence(text, file);
    };
    Draft draft;
    draft.channel = "AI-001";
    refused([&] { store.add(test::plainCalibration("AI-001", "2026-02-01")); });
    refused([&] { store.saveDraft(draft); });
    refused([&] { store.issueCertificate(1); });
    refused([&] { const Store::Transaction transaction(store); });
    refused([&] { store.addFitting("AI-001", {"RT-0003", test::at("2026-01-01"), {}}); });
    store.stage({"a", 1, "b"});  // an import can be tried on a record that is only read
    EXPECT_EQ(store.stagedCount(), 1);
    EXPECT_EQ(store.calibrationCount(), 1);
  }
  EXPECT_EQ(bytesOf(file), before);
}

TEST_F(RecordFile, AReaderSeesWhatAnOpenWriterSaved) {
  makeRecord();
  Store writer = Store::open(file);
  const Store reader = Store::open(file, Store::Mode::readOnly);
  writer.add(test::plainCalibration("AI-001", "2026-02-01"));
  EXPECT_EQ(reader.calibrationCount(), 2);
}

/// Root may do anything, so the tests of permissions run as nobody.
class AsNobody {
 public:
  AsNobody() : was_(geteuid()) { done_ = was_ != 0 || seteuid(65534) == 0; }
  ~AsNobody() {
    if (was_ == 0 && seteuid(0) != 0) {
      std::abort();
    }
  }
  bool done() const { return done_; }

 private:
  uid_t was_;
  bool done_;
};

TEST_F(RecordFile, PermissionsAreSaid) {
  makeRecord();
  ASSERT_EQ(chmod(folder.path().c_str(), 0555), 0);
  ASSERT_EQ(chmod(file.c_str(), 0444), 0);
  const AsNobody nobody;
  if (!nobody.done()) {
    GTEST_SKIP() << "cannot become another user here";
  }
  // A folder and a file that cannot be written: reading works, writing is refused in one sentence.
  EXPECT_EQ(Store::open(file, Store::Mode::readOnly).calibrationCount(), 1);
  const std::string text = test::refusal([this] { Store::open(file); });
  EXPECT_NE(text.find("read-only"), std::string::npos) << text;
  test::expectSentence(text, file);
  const auto other = folder / "new.record";
  test::expectSentence(test::refusal([&] { Store::create(other, test::sampleRegister()); }), other);
}

TEST_F(RecordFile, AnUnreadableFileIsRefused) {
  makeRecord();
  ASSERT_EQ(chmod(folder.path().c_str(), 0755), 0);
  ASSERT_EQ(chmod(file.c_str(), 0), 0);
  const AsNobody nobody;
  if (!nobody.done()) {
    GTEST_SKIP() << "cannot become another user here";
  }
  expectSaid("may not be opened by you");
}

}  // namespace
}  // namespace spanwright
