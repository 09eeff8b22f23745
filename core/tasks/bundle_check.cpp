// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/bundle_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <sstream>
#include <stdexcept>

#include "core/certificate/certificate_data.h"
#include "core/record/problem.h"
#include "core/store/unit_digest.h"
#include "core/tasks/bundle_contents.h"
#include "core/tasks/bundle_signatures.h"
#include "core/tasks/bundle_words.h"

namespace spanwright {
namespace {

class Checking {
 public:
  Checking(BundleReader& reader, const Progress& progress) : reader_(reader), progress_(progress) {
    const auto names = reader.names();
    names_ = {names.begin(), names.end()};
    for (const std::string& name : names_) {
      if (std::count(names.begin(), names.end(), name) > 1) {
        problem(name, "is there twice");
      }
    }
  }

  BundleCheck check(const std::vector<JournalHead>& known) {
    sums();
    advance(0.2);
    manifest();
    units();
    advance(0.7);
    journal(known);
    compare();
    for (auto& [file, what] : bundleSignatureProblems(contents_, report_.signatures)) {
      problem(file, std::move(what));
    }
    certificates();
    strays();
    return std::move(report_);
  }

 private:
  /// What was met twice is told once.
  void problem(const std::string& file, std::string what) {
    if (told_.emplace(file, what).second) {
      report_.problems.push_back({file, std::move(what)});
    }
  }

  void advance(double share) const {
    if (progress_ && !progress_(share)) {
      throw InputError("cancelled", "start again to check the whole bundle");
    }
  }

  /// Nothing, after naming the problem, when the file is missing or cannot be read.
  std::optional<std::string> content(const std::string& name) {
    if (!names_.contains(name)) {
      problem(name, "is missing");
      return std::nullopt;
    }
    try {
      return reader_.read(name);
    } catch (const std::runtime_error& error) {
      problem(name, error.what());
      return std::nullopt;
    }
  }

  void sums() {
    const std::string listName(kSumsFile);
    report_.files = names_.size();
    const auto list = content(listName);
    if (!list) {
      return;
    }
    report_.sums = sha256(*list);
    std::set<std::string> listed{listName};
    std::istringstream lines(*list);
    for (std::string line; std::getline(lines, line);) {
      constexpr std::size_t kDigits = 64;
      const auto digest = line.size() > kDigits + 2 && line.compare(kDigits, 2, "  ") == 0
                              ? parseDigest(std::string_view(line).substr(0, kDigits))
                              : std::nullopt;
      if (!digest || !listed.insert(line.substr(kDigits + 2)).second) {
        problem(listName,
                fmt::format("the line \"{}\" is no digest of a file, or one of a file named before", line));
        continue;
      }
      const std::string name = line.substr(kDigits + 2);
      if (const auto file = content(name); file && sha256(*file) != *digest) {
        problem(name, "was changed: its digest is not the one in SHA256SUMS");
      }
    }
    for (const std::string& name : names_) {
      if (!listed.contains(name)) {
        problem(name, "was added: SHA256SUMS does not know it");
      }
    }
  }

  void manifest() {
    const std::string name(kManifestFile);
    const auto text = content(name);
    if (!text) {
      return;
    }
    try {
      const BundleJson json = parseStrictly(*text);
      if (json.value("form", "") != kBundleForm) {
        throw std::runtime_error("it is no bundle that this program knows");
      }
      report_.site = json.at("site").get<std::string>();
      report_.scope = json.at("scope").get<std::string>();
      drawn_ = json.at("certificates_drawn").get<bool>();
      listedHead_ = parseHead(json.at("journal_head").get_ref<const std::string&>());
      if (!listedHead_) {
        throw std::runtime_error("it does not say where the journal ended");
      }
      for (const char* list : {"calibrations", "also"}) {
        for (const BundleJson& id : json.at(list)) {
          listed_.push_back(id.get<CalibrationId>());
        }
      }
    } catch (const BundleJson::exception&) {
      problem(name, "lacks what it should tell about the bundle");
    } catch (const std::runtime_error& error) {
      problem(name, error.what());
    }
  }

  void units() {
    for (const std::string& name : names_) {
      if (name.starts_with("record/")) {
        unit(name);
      }
    }
    for (const CalibrationId id : listed_) {
      if (contents_.find({"calibration", {id}}) == nullptr) {
        problem(unitFileName({"calibration", {id}}),
                fmt::format("calibration {} should be in the bundle", id));
      }
    }
    for (const auto& [name, unit] : contents_.units) {
      for (const UnitKey& referred : unit.references) {
        if (contents_.find(referred) == nullptr && !names_.contains(unitFileName(referred))) {
          problem(unitFileName(referred), fmt::format("{} refers to it, and it is not there", name));
        }
      }
    }
  }

  void unit(const std::string& name) {
    try {
      UnitFile file = parseUnitFile(reader_.read(name));
      if (unitFileName(file.key) != name) {
        throw std::runtime_error(
            fmt::format("it holds {} {}, which belongs elsewhere", file.key.unit, keyText(file.key)));
      }
      BundleUnit unit;
      unit.digest = unitDigest(*coveredUnit(file.key.unit), file.rows,
                               [&](const BundleJson& reference) { return attached(reference); });
      unit.references = referencesOf(file.key, file.rows);
      report_.rows += unit.digest.places.size();
      ++report_.units;
      if (file.key.unit != "calibration") {
        unit.rows = std::move(file.rows);
      }
      unit.key = std::move(file.key);
      contents_.units.emplace(name, std::move(unit));
    } catch (const BundleJson::exception&) {
      problem(name, "its rows are not written as a record's");
    } catch (const std::runtime_error& error) {
      problem(name, error.what());
    }
  }

  /// The bytes of the file an attachment's row names.
  std::string attached(const BundleJson& reference) {
    const std::string file = reference.at("file").get<std::string>();
    if (!(file.starts_with("standards/") || file.starts_with("attachments/")) ||
        !named_.insert(file).second) {
      throw std::runtime_error(fmt::format("it names the file {}, which is not its own", file));
    }
    if (!names_.contains(file)) {
      problem(file, "is missing");
      throw std::runtime_error(fmt::format("it names the file {}, which is missing", file));
    }
    std::string bytes = reader_.read(file);
    if (reference.size() != 3 || reference.at("size") != bytes.size() ||
        reference.at("sha256") != hex(sha256(bytes))) {
      throw std::runtime_error(fmt::format("the file {} is not what was attached", file));
    }
    return bytes;
  }

  void journal(const std::vector<JournalHead>& known) {
    const std::string name(kJournalFile);
    const auto text = content(name);
    if (!text) {
      return;
    }
    const UnitKey site{"site", {}};
    const BundleUnit* unit = contents_.find(site);
    if (unit == nullptr) {
      problem(unitFileName(site), "is missing: without it the journal cannot be checked");
      return;
    }
    contents_.site = textIn(rootRow(*unit), "code");
    if (!report_.site.empty() && contents_.site != report_.site) {
      problem(std::string(kManifestFile),
              fmt::format("names the site {}, and the record is of {}", report_.site, contents_.site));
    }
    std::istringstream lines(*text);
    for (std::string line; std::getline(lines, line);) {
      entry(name, line);
    }
    report_.entries = std::ssize(chain_);
    report_.head = {report_.entries, chain_.empty() ? Digest{} : chain_.back()};
    if (listedHead_ && *listedHead_ != report_.head) {
      problem(name, fmt::format("the journal ends at {}, and the bundle was made when it ended at {}",
                                headText(report_.head), headText(*listedHead_)));
    }
    heads(known);
  }

  void entry(const std::string& name, const std::string& text) {
    const std::int64_t number = std::ssize(chain_) + 1;
    const Digest before = chain_.empty() ? Digest{} : chain_.back();
    try {
      JournalLine line = parseJournalLine(contents_.site, text);
      if (line.entry.entry != number) {
        problem(name, fmt::format("entry {} stands where entry {} should", line.entry.entry, number));
      }
      if (sha256(before, line.content) != line.entry.hash) {
        problem(name, fmt::format("entry {} was changed, or the one before it", number));
      }
      chain_.push_back(line.entry.hash);
      if (line.inFull) {
        ++report_.entriesShown;
        shown(name, std::move(line.entry));
      }
    } catch (const std::runtime_error& error) {
      problem(name, fmt::format("line {}: {}", number, error.what()));
      chain_.push_back({});
    }
  }

  void shown(const std::string& name, JournalEntry entry) {
    if (entry.unit.empty() || !entry.digest) {
      return;
    }
    const auto numbers = parseKeyText(entry.unitKey);
    const std::string file = unitFileName({entry.unit, numbers.value_or(std::vector<std::int64_t>{})});
    if (!contents_.units.contains(file) && !names_.contains(file)) {
      problem(file, fmt::format("is missing: entry {} in {} tells of it", entry.entry, name));
    }
    if (entry.unit == "certificate") {
      issuedBy_.emplace(entry.entry, file);
    }
    last_[file] = std::move(entry);
  }

  void heads(const std::vector<JournalHead>& known) {
    for (const JournalHead& head : known) {
      if (head.entry > report_.entries) {
        problem(std::string(kJournalFile),
                fmt::format("the journal ends at entry {}, but entry {} is known from outside: the bundle is "
                            "older, or its end was cut off",
                            report_.entries, head.entry));
      } else if (chain_[static_cast<std::size_t>(head.entry - 1)] != head.hash) {
        problem(std::string(kJournalFile),
                fmt::format("entry {} is not the one known from outside: the history up to it was rewritten",
                            head.entry));
      }
    }
  }

  void compare() {
    for (const auto& [file, unit] : contents_.units) {
      const auto last = last_.find(file);
      if (last == last_.end()) {
        problem(file, "the journal shows no entry about it");
        continue;
      }
      const JournalEntry& entry = last->second;
      if (unit.digest.digest == *entry.digest) {
        continue;
      }
      const auto changes = rowChanges(entry.rowDigests, unit.digest);
      for (const std::string& change : changes) {
        problem(file, fmt::format("{} since entry {}", change, entry.entry));
      }
      if (changes.empty()) {
        problem(file, fmt::format("it is not what entry {} says", entry.entry));
      }
    }
  }

  void certificates() {
    std::set<std::string> numbers;
    for (const auto& [file, unit] : contents_.units) {
      if (unit.key.unit != "certificate") {
        continue;
      }
      const std::string number = textIn(rootRow(unit), "number");
      numbers.insert(number);
      ++report_.certificates;
      certificate("certificates/" + number + ".json", file, rootRow(unit));
      if (drawn_ && !names_.contains("certificates/" + number + ".pdf")) {
        problem("certificates/" + number + ".pdf", "is missing");
      }
    }
    for (const std::string& name : names_) {
      const std::filesystem::path path(name);
      const bool known = path.parent_path() == "certificates" && numbers.contains(path.stem().string()) &&
                         (path.extension() == ".json" || (drawn_ && path.extension() == ".pdf"));
      if (name.starts_with("certificates/") && !known) {
        problem(name, "no certificate of this number is in the record's part");
      }
    }
  }

  /// `issued` is the row about it, in `unitFile`.
  void certificate(const std::string& name, const std::string& unitFile, const BundleJson& issued) {
    const auto data = content(name);
    if (!data) {
      return;
    }
    try {
      const CertificateClaim claim = certificateClaim(*data);
      const CertificateAnchor& anchor = claim.anchor;
      if (claim.number != textIn(issued, "number") || claim.revision != numberIn(issued, "revision") ||
          anchor.calibration != numberIn(issued, "calibration")) {
        problem(name, "its number, revision or calibration is not the record's");
      }
      const auto by = issuedBy_.find(anchor.journalEntry);
      if (by == issuedBy_.end() || by->second != unitFile) {
        problem(name, fmt::format("entry {} of the journal did not issue it", anchor.journalEntry));
      } else if (hex(chain_[static_cast<std::size_t>(anchor.journalEntry - 1)]) != anchor.journalHash) {
        problem(name,
                fmt::format("it was issued when entry {} of the journal was another: the history up to it "
                            "was rewritten, or the certificate was",
                            anchor.journalEntry));
      }
      const BundleUnit* calibration = contents_.find({"calibration", {anchor.calibration}});
      if (calibration == nullptr || hex(calibration->digest.digest) != anchor.recordDigest) {
        problem(name, "it was issued for other readings than the bundle holds");
      }
    } catch (const std::runtime_error& error) {
      problem(name, error.what());
    }
  }

  /// What stands in the folder of attachments without a row that names it, or where no file should be.
  void strays() {
    static const std::set<std::string_view> kOnce{kSumsFile, kReadmeFile, kSummaryFile, kManifestFile,
                                                  kJournalFile};
    for (const std::string& name : names_) {
      const bool attachment = name.starts_with("standards/") || name.starts_with("attachments/");
      if (attachment && !named_.contains(name)) {
        problem(name, "no row of the record names it");
      } else if (!attachment && !name.starts_with("record/") && !name.starts_with("certificates/") &&
                 !kOnce.contains(name)) {
        problem(name, "has no place in a bundle");
      }
    }
    for (const std::string_view name : kOnce) {
      if (!names_.contains(std::string(name))) {
        problem(std::string(name), "is missing");
      }
    }
  }

  BundleReader& reader_;
  const Progress& progress_;
  std::set<std::string> names_;
  BundleContents contents_;
  std::set<std::string> named_;                   ///< files that rows of attachments name
  std::vector<Digest> chain_;                     ///< hash of each entry
  std::map<std::string, JournalEntry> last_;      ///< by the unit's file
  std::map<std::int64_t, std::string> issuedBy_;  ///< entries that issued certificates, with the unit's file
  std::vector<CalibrationId> listed_;
  std::optional<JournalHead> listedHead_;
  bool drawn_ = false;
  std::set<std::pair<std::string, std::string>> told_;
  BundleCheck report_;
};

}  // namespace

BundleCheck checkBundle(BundleReader& bundle, const std::vector<JournalHead>& known,
                        const Progress& progress) {
  return Checking(bundle, progress).check(known);
}

BundleCheck checkBundle(const std::filesystem::path& place, const std::vector<JournalHead>& known,
                        const Progress& progress) {
  return checkBundle(*openBundle(place), known, progress);
}

}  // namespace spanwright
