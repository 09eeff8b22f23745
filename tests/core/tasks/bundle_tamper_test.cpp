// SPDX-License-Identifier: GPL-3.0-or-later
//
// Everything that can be done to a bundle's files is found, or is known not to be; the counts are printed.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <set>
#include <sstream>

#include "bundle_fixture.h"
#include "core/store/unit_digest.h"
#include "core/tasks/bundle_units.h"

namespace spanwright {
namespace {

using test::checked;
using test::Files;
using test::said;
using test::withSums;
using testing::HasSubstr;

/// Files that are for reading: only the list of digests stands for them.
bool forReading(const std::string& name) {
  return name == "README.txt" || name == "summary.html" || name.ends_with(".pdf");
}

/// Counts what was tried and what of it was found.
struct Tally {
  int tried = 0, found = 0;
  bool add(bool isFound) {
    ++tried;
    found += isFound ? 1 : 0;
    return isFound;
  }
};

class BundleTamper : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    const test::Folder folder;
    const test::FixedClock clock("2026-11-20T10:00:00", "2026-11-20T09:00:00");
    test::makeAttachedRecord(folder / "site.record", clock);
    Store store = Store::open(folder / "site.record", Store::Mode::readOnly, clock);
    made_ = makeEvidence(store, {"AI-001", 0, {}, {}}, folder / "bundle", test::writeAsText);
    whole_ = new Files(test::filesOf(folder / "bundle"));
  }
  static void TearDownTestSuite() { delete whole_; }

  static std::vector<std::string> records() {
    std::vector<std::string> names;
    for (const auto& [name, content] : *whole_) {
      if (name.starts_with("record/")) {
        names.push_back(name);
      }
    }
    return names;
  }
  static std::vector<std::string> journal() {
    std::vector<std::string> lines;
    std::istringstream text(whole_->at("journal.jsonl"));
    for (std::string line; std::getline(text, line);) {
      lines.push_back(line);
    }
    return lines;
  }
  static Files withJournal(const std::vector<std::string>& lines) {
    Files files = *whole_;
    files["journal.jsonl"] = fmt::format("{}\n", fmt::join(lines, "\n"));
    return withSums(files);
  }

  static inline Files* whole_ = nullptr;
  static inline EvidenceMade made_;
};

TEST_F(BundleTamper, NothingIsFoundWhereNothingWasDone) {
  EXPECT_TRUE(checked(*whole_).problems.empty()) << said(checked(*whole_));
  EXPECT_EQ(withSums(*whole_), *whole_);
}

TEST_F(BundleTamper, EveryFileChangedByAByteRemovedOrAdded) {
  Tally changed, removed, added;
  for (const auto& [name, content] : *whole_) {
    for (const std::size_t at : {std::size_t{0}, content.size() / 2, content.size() - 1}) {
      Files files = *whole_;
      files[name][at] = static_cast<char>(files[name][at] ^ 1);
      const BundleCheck check = checked(files);
      // A digest changed in the list names the file whose it is.
      EXPECT_TRUE(changed.add(name == kSumsFile ? !check.problems.empty() : test::names(check, name)))
          << name << " byte " << at << "\n"
          << said(check);
    }
    Files files = *whole_;
    files.erase(name);
    EXPECT_TRUE(removed.add(test::names(checked(files), name))) << name;
  }
  for (const char* name : {"x.txt", "record/x.json", "certificates/x.pdf", "standards/x", "attachments/x"}) {
    Files files = *whole_;
    files[name] = "added";
    EXPECT_TRUE(added.add(test::names(checked(files), name))) << name;
  }
  std::cout << fmt::format(
      "{} files; found of changes of a byte: {} of {}, of removed: {} of {}, of added: {} of {}\n",
      whole_->size(), changed.found, changed.tried, removed.found, removed.tried, added.found, added.tried);
}

TEST_F(BundleTamper, FilesRemovedOrAddedWithTheListMadeRight) {
  Tally tally;
  for (const auto& [name, content] : *whole_) {
    if (name == kSumsFile) {
      continue;
    }
    Files files = *whole_;
    files.erase(name);
    EXPECT_TRUE(tally.add(test::names(checked(withSums(files)), name))) << name;
  }
  for (const char* name : {"x.txt", "record/x.json", "record/calibration-77.json", "certificates/x.pdf",
                           "certificates/x.json", "standards/x", "attachments/x"}) {
    Files files = *whole_;
    files[name] = whole_->at("record/calibration-1.json");
    EXPECT_TRUE(tally.add(test::names(checked(withSums(files)), name))) << name;
  }
  std::cout << fmt::format("removed or added with the list made right: {} of {} found by name\n", tally.found,
                           tally.tried);
}

/// Changed contents with the list made right are found, but in files that are for reading; those the digest
/// of the list stands for.
TEST_F(BundleTamper, FilesChangedWithTheListMadeRight) {
  int found = 0, bySums = 0;
  for (const auto& [name, content] : *whole_) {
    if (name == kSumsFile) {
      continue;
    }
    Files files = *whole_;
    files[name][content.size() / 2] = static_cast<char>(content[content.size() / 2] ^ 1);
    const BundleCheck check = checked(withSums(files));
    EXPECT_NE(check.sums, made_.sums) << name;
    // The words of a certificate stand in its data; what ties it to the record is checked below.
    if (forReading(name) || name.starts_with("certificates/")) {
      ++bySums;
    } else {
      EXPECT_FALSE(check.problems.empty()) << name;
      ++found;
    }
  }
  std::cout << fmt::format(
      "changed by a byte with the list made right: {} found, {} by the list's digest only\n", found, bySums);
}

/// Another value of the same kind.
BundleJson otherValue(const BundleJson& value) {
  if (value.is_null()) {
    return "x";
  }
  if (value.is_number_integer()) {
    return value.get<std::int64_t>() + 1;
  }
  if (value.is_number_float()) {
    return std::nextafter(value.get<double>(), std::numeric_limits<double>::infinity());
  }
  if (value.is_string()) {
    return value.get<std::string>() + " ";
  }
  BundleJson other = value;
  BundleJson& inner = other.begin().value();
  inner = inner.is_string() ? BundleJson(inner.get<std::string>() + "01") : BundleJson(inner.get<int>() + 1);
  return other;
}

TEST_F(BundleTamper, EveryValueOfEveryRowWithTheListMadeRight) {
  Tally values, rows;
  const auto tried = [](const std::string& name, const UnitFile& unit, const BundleJson& changed,
                        Tally& tally, const std::string& what) {
    Files files = *whole_;
    files[name] = unitFileText(unit.key, changed);
    EXPECT_TRUE(tally.add(test::names(checked(withSums(files)), name))) << name << ": " << what;
  };
  for (const std::string& name : records()) {
    const UnitFile unit = parseUnitFile(whole_->at(name));
    for (const auto& [table, list] : unit.rows.items()) {
      for (std::size_t i = 0; i < list.size(); ++i) {
        for (const auto& [column, value] : list[i].items()) {
          BundleJson changed = unit.rows;
          changed[table][i][column] = otherValue(value);
          tried(name, unit, changed, values, fmt::format("{} {} {}", table, i, column));
        }
        BundleJson without = unit.rows, twice = unit.rows, wider = unit.rows, narrower = unit.rows;
        without[table].erase(i);
        tried(name, unit, without, rows, "a row removed");
        twice[table].push_back(list[i]);
        tried(name, unit, twice, rows, "a row twice");
        wider[table][i]["more"] = 1;
        tried(name, unit, wider, rows, "a column more");
        narrower[table][i].erase(list[i].begin().key());
        tried(name, unit, narrower, rows, "a column less");
      }
    }
  }
  std::cout << fmt::format(
      "found of changed values: {} of {}, of rows removed, doubled or of another width: {} of {}\n",
      values.found, values.tried, rows.found, rows.tried);
}

TEST_F(BundleTamper, TheChangedRowIsNamed) {
  UnitFile unit = parseUnitFile(whole_->at("record/calibration-3.json"));
  unit.rows["reading"][2]["indicated"] = 37.45;
  Files files = *whole_;
  files["record/calibration-3.json"] = unitFileText(unit.key, unit.rows);
  EXPECT_THAT(said(checked(withSums(files))),
              HasSubstr("record/calibration-3.json: the row \"reading as found 3\" was changed since entry"));
}

TEST_F(BundleTamper, TheSameThingTwiceIsNoJsonThatIsBelieved) {
  Files files = *whole_;
  std::string& text = files["record/calibration-1.json"];
  text.replace(text.find("\"channel\":"), 0, "\"channel\": 99, ");
  EXPECT_THAT(said(checked(withSums(files))), HasSubstr("names the same thing twice"));
}

TEST_F(BundleTamper, EveryLineOfTheJournalWithTheListMadeRight) {
  const auto lines = journal();
  Tally tally;
  const auto expect = [&](const std::vector<std::string>& changed, const std::string& what) {
    EXPECT_TRUE(tally.add(test::names(checked(withJournal(changed)), "journal.jsonl"))) << what;
  };
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const BundleJson line = BundleJson::parse(lines[i]);
    for (const auto& [name, value] : line.items()) {
      auto changed = lines;
      BundleJson other = line;
      other[name] = otherValue(value);
      if (value.is_string() && parseDigest(value.get<std::string>())) {
        std::string digest = value.get<std::string>();
        digest[5] = digest[5] == '0' ? '1' : '0';
        other[name] = digest;
      }
      changed[i] = other.dump();
      expect(changed, fmt::format("line {} {}", i + 1, name));
    }
    auto without = lines, twice = lines, swapped = lines;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
    expect(without, fmt::format("line {} removed", i + 1));
    twice.insert(twice.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
    expect(twice, fmt::format("line {} twice", i + 1));
    if (i > 0) {
      std::swap(swapped[i - 1], swapped[i]);
      expect(swapped, fmt::format("lines {} and {} swapped", i, i + 1));
    }
  }
  std::cout << fmt::format("found of changes of {} lines of the journal: {} of {}\n", lines.size(),
                           tally.found, tally.tried);
}

/// Somebody changes a row, enters its digest, hashes all entries after it again and makes everything else
/// fit that is not signed: without a certificate issued later or a head from outside that is a perfect
/// history.
class Rewriting : public BundleTamper {
 protected:
  static Files rewritten(const std::string& name) {
    UnitFile unit = parseUnitFile(whole_->at(name));
    BundleJson& row = unit.rows.begin().value()[0];
    std::string last;  // text column: of what is signed, the reason
    for (const auto& [column, value] : row.items()) {
      last = value.is_string() && column != "site" && column != "code" ? column : last;
    }
    row[last] = otherValue(row[last]);
    Files files = *whole_;
    files[name] = unitFileText(unit.key, unit.rows);
    const auto attached = [&](const BundleJson& reference) {
      return whole_->at(reference.at("file").get<std::string>());
    };
    const UnitDigest digest = unitDigest(*coveredUnit(unit.key.unit), unit.rows, attached);
    return rehashed(files, unit.key, digest);
  }

  /// The last entry about the unit gets the digest; the chain, the manifest and the list follow.
  static Files rehashed(Files files, const UnitKey& key, const UnitDigest& digest) {
    std::vector<JournalLine> lines;
    std::size_t last = 0;
    for (const std::string& text : journal()) {
      lines.push_back(parseJournalLine(siteCode(), text));
      const JournalEntry& entry = lines.back().entry;
      if (lines.back().inFull && entry.digest && entry.unit == key.unit && entry.unitKey == keyText(key)) {
        last = lines.size();
      }
    }
    JournalEntry& entry = lines[last - 1].entry;
    entry.digest = digest.digest;
    entry.rowDigests = digest.rows;
    lines[last - 1].content = contentDigest(siteCode(), entry);
    return chained(std::move(files), lines);
  }

  static Files chained(Files files, std::vector<JournalLine>& lines) {
    Digest before;
    std::string text;
    for (JournalLine& line : lines) {
      line.entry.hash = sha256(before, line.content);
      before = line.entry.hash;
      text += (line.inFull ? journalLine(siteCode(), line.entry, true)
                           : BundleJson{{"entry", line.entry.entry},
                                        {"content", hex(line.content)},
                                        {"hash", hex(line.entry.hash)}}
                                 .dump()) +
              "\n";
    }
    files["journal.jsonl"] = text;
    BundleJson manifest = BundleJson::parse(files["bundle.json"]);
    manifest["journal_head"] = headText({std::ssize(lines), before});
    files["bundle.json"] = manifest.dump();
    return withSums(files);
  }

  static bool isSigned(const std::string& name) {
    return name.starts_with("record/standard-event-") ||
           (name.starts_with("record/life-") && whole_->at(name).find("\"superseded\"") == std::string::npos);
  }

  static std::string siteCode() {
    return parseUnitFile(whole_->at("record/site.json")).rows["site"][0]["code"].get<std::string>();
  }
};

TEST_F(Rewriting, AConsistentRewriteIsFoundByCertificatesOrSignaturesOrAHeadFromOutside) {
  int tried = 0, alone = 0, withHead = 0;
  for (const std::string& name : records()) {
    const Files files = rewritten(name);
    const BundleCheck check = checked(files), known = checked(files, {made_.head});
    ++tried;
    alone += check.problems.empty() ? 0 : 1;
    EXPECT_FALSE(known.problems.empty()) << name;
    withHead += known.problems.empty() ? 0 : 1;
  }
  std::cout << fmt::format("consistent rewrites: {}; found by the bundle alone: {}, with a known head: {}\n",
                           tried, alone, withHead);
  // The last certificate was issued after everything else: its anchor gives every rewrite away.
  EXPECT_EQ(alone, tried);
  EXPECT_EQ(withHead, tried);
}

TEST_F(Rewriting, WithTheAnchorsRewrittenTooSignaturesAndTheHeadRemain) {
  int tried = 0, alone = 0, withHead = 0, signedActs = 0;
  for (const std::string& name : records()) {
    Files files = rewritten(name);
    const auto entries = [&] {
      std::vector<std::string> hashes;
      std::istringstream text(files["journal.jsonl"]);
      for (std::string line; std::getline(text, line);) {
        hashes.push_back(BundleJson::parse(line)["hash"].get<std::string>());
      }
      return hashes;
    }();
    for (auto& [file, content] : files) {
      if (file.starts_with("certificates/") && file.ends_with(".json")) {
        BundleJson data = BundleJson::parse(content);
        data["journal"]["hash"] = entries.at(data["journal"]["entry"].get<std::size_t>() - 1);
        content = data.dump();
      }
    }
    files = withSums(files);
    const BundleCheck check = checked(files);
    ++tried;
    alone += check.problems.empty() ? 0 : 1;
    if (isSigned(name)) {
      ++signedActs;
      EXPECT_THAT(said(check), HasSubstr(name + ": the signature of")) << name;
    }
    withHead += checked(files, {made_.head}).problems.empty() ? 0 : 1;
  }
  EXPECT_EQ(withHead, tried);
  std::cout << fmt::format(
      "consistent rewrites, certificates' anchors too: {}; found by the bundle alone: {}, with a known head: "
      "{}\n",
      tried, alone, withHead);
  EXPECT_EQ(signedActs, 8);
  EXPECT_LT(alone, tried) << "then the known head is not needed, and README.txt says too little";
}

TEST_F(Rewriting, AJournalCutOffIsFound) {
  auto lines = journal();
  lines.resize(lines.size() - 1);
  Files cut = *whole_;
  cut["journal.jsonl"] = fmt::format("{}\n", fmt::join(lines, "\n"));
  EXPECT_THAT(said(checked(withSums(cut))), HasSubstr("and the bundle was made when it ended at"));
  BundleJson manifest = BundleJson::parse(cut["bundle.json"]);
  manifest["journal_head"] =
      fmt::format("{}:{}", lines.size(), BundleJson::parse(lines.back())["hash"].get<std::string>());
  cut["bundle.json"] = manifest.dump();
  EXPECT_THAT(said(checked(withSums(cut), {made_.head})), HasSubstr("its end was cut off"));
}

/// A part left out with its entries turned into bare digests: what others refer to, and what the manifest
/// lists, is missed. The rest is not seen by the bundle alone, which README.txt says.
TEST_F(Rewriting, PartsLeftOutWithTheirEntriesHidden) {
  int tried = 0, found = 0;
  std::set<std::string> unseen;
  for (const std::string& name : records()) {
    const UnitKey key = parseUnitFile(whole_->at(name)).key;
    if (key.unit == "certificate" || key.unit == "attachment") {
      continue;  // their files would be left out too
    }
    Files files = *whole_;
    files.erase(name);
    std::string text;
    for (const std::string& line : journal()) {
      const JournalLine parsed = parseJournalLine(siteCode(), line);
      const bool hide =
          parsed.inFull && parsed.entry.unit == key.unit && parsed.entry.unitKey == keyText(key);
      text += (hide ? journalLine(siteCode(), parsed.entry, false) : line) + "\n";
    }
    files["journal.jsonl"] = text;
    const BundleCheck check = checked(withSums(files));
    ++tried;
    check.problems.empty() ? void(unseen.insert(key.unit)) : void(++found);
  }
  std::cout << fmt::format("parts left out with their entries hidden: {}, found: {}; unseen kinds: {}\n",
                           tried, found, fmt::join(unseen, ", "));
  // Nothing refers to these: decisions, events, and what was in force at other times.
  EXPECT_THAT(unseen, testing::ElementsAre("accepted interval", "life", "setup", "standard certificate",
                                           "standard event"));
}

}  // namespace
}  // namespace spanwright
