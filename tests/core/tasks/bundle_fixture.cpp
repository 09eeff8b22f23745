// SPDX-License-Identifier: GPL-3.0-or-later
#include "bundle_fixture.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>

namespace spanwright::test {

std::vector<std::string> FilesReader::names() const {
  std::vector<std::string> all;
  for (const auto& [name, content] : files) {
    all.push_back(name);
  }
  return all;
}

Files filesOf(const std::filesystem::path& bundle) {
  const auto reader = openBundle(bundle);
  Files files;
  for (const std::string& name : reader->names()) {
    files[name] = reader->read(name);
  }
  return files;
}

Files withSums(Files files) {
  const std::string list(kSumsFile);
  files.erase(list);
  std::string sums;
  for (const auto& [name, content] : files) {
    sums += fmt::format("{}  {}\n", hex(sha256(content)), name);
  }
  files[list] = sums;
  return files;
}

BundleCheck checked(const Files& files, const std::vector<JournalHead>& known) {
  FilesReader reader(files);
  return checkBundle(reader, known);
}

bool names(const BundleCheck& check, const std::string& file) {
  return std::any_of(check.problems.begin(), check.problems.end(),
                     [&](const BundleProblem& problem) { return problem.file == file; });
}

std::string said(const BundleCheck& check) {
  std::string all;
  for (const BundleProblem& problem : check.problems) {
    all += problem.file + ": " + problem.what + '\n';
  }
  return all;
}

void writeAsText(const Certificate& certificate, const std::filesystem::path& file) {
  std::ofstream(file, std::ios::binary) << "drawn: " << certificate.number << '\n';
}

FullRecord makeAttachedRecord(const std::filesystem::path& file, const Clock& clock) {
  FullRecord made = makeFullRecord(file, clock);
  Store store = Store::open(file, Store::Mode::readWrite, clock);
  Attachment paper;
  paper.standard = "LC-2201";
  paper.certificate = "C-11873";
  paper.name = "C-11873.pdf";
  paper.mediaType = "application/pdf";
  store.addAttachment(paper, std::string("%PDF invented \0 and raw \xff", 24));
  Attachment drawing;
  drawing.channel = "AI-001";
  drawing.name = "../loop <drawing> \xc3\xa4.txt";
  drawing.mediaType = "text/plain";
  store.addAttachment(drawing, "terminals 1 and 2");
  Attachment other;  // of a channel that nobody asks for
  other.channel = "TT-101";
  other.name = "other.txt";
  other.mediaType = "text/plain";
  store.addAttachment(other, "not asked for");
  store.issueCertificate(made.calibrations[0]);
  return made;
}

}  // namespace spanwright::test
