// SPDX-License-Identifier: GPL-3.0-or-later
//
// Attachments and bundles of evidence, as scripts meet them.
#include <cstdlib>

#include "tests/cli/record_call.h"

namespace spanwright::cli_test {
namespace {

class EvidenceCommands : public Commands {
 protected:
  void SetUp() override {
    Commands::SetUp();
    fill();
    calibration_ =
        std::to_string(document({"record", record_, sample("visit.toml")}).at("calibration").get<int>());
    const auto standards = document({"trace", record_, "--calibration", calibration_}).at("standards");
    serial_ = standards.at(0).at("standard").get<std::string>();
    certificate_ = standards.at(0).at("certificate").at("number").get<std::string>();
  }
  std::string in(const std::string& name) const { return (folder_ / name).string(); }
  static int shell(const std::string& command) { return std::system((command + " >/dev/null 2>&1").c_str()); }
  static std::string read(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  std::string calibration_, serial_, certificate_;
};

TEST_F(EvidenceCommands, FilesAreAttachedListedAndWrittenOut) {
  const std::string paper = write("paper.pdf", "%PDF invented");
  const Json added = document({"attach", record_, paper, "--standard", serial_, "--certificate", certificate_,
                               "--note", "as received", "--person", "adale"});
  expectKeys(added, {"attachment", "standard", "certificate", "calibration", "channel", "name", "media_type",
                     "bytes", "sha256", "note", "person", "added"});
  EXPECT_EQ(added.at("media_type"), "application/pdf");
  document({"attach", record_, write("photo.jpg", "picture"), "--calibration", calibration_});
  document({"attach", record_, write("loop.txt", "drawing"), "--channel", "FT-8"});
  const Json listed = document({"attachments", record_, "--out", in("papers")});
  ASSERT_EQ(listed.size(), 3U);
  EXPECT_EQ(read(listed.at(0).at("file").get<std::string>()), "%PDF invented");
  EXPECT_NE(call({"attachments", record_}).out.find("as received"), std::string::npos);
  EXPECT_EQ(call({"attachments", record_, "--out", in("papers")}).status, kStorage) << "never over a file";
  EXPECT_EQ(call({"verify", record_}).status, kDone);
}

TEST_F(EvidenceCommands, AttachingSaysWhatIsWrong) {
  const std::string file = write("a.txt", "a");
  EXPECT_EQ(call({"attach", record_, file}).status, kUsage);
  EXPECT_EQ(call({"attach", record_, file, "--standard", serial_}).status, kUsage);
  EXPECT_EQ(call({"attach", record_, file, "--channel", "FT-8", "--calibration", "1"}).status, kUsage);
  const Answer empty = call({"attach", record_, write("empty.txt", ""), "--channel", "FT-8"});
  EXPECT_EQ(empty.status, kRefused);
  EXPECT_NE(empty.err.find("empty.txt: the file is empty; "), std::string::npos) << empty.err;
  EXPECT_EQ(call({"attach", record_, in("missing.txt"), "--channel", "FT-8"}).status, kRefused);
  EXPECT_EQ(call({"attach", record_, file, "--channel", "XX-1"}).status, kRefused);
  EXPECT_EQ(call({"attach", record_, file, "--channel", "FT-8", "--person", "nobody"}).status, kRefused);
  EXPECT_EQ(call({"attach", record_, file, "--standard", serial_, "--certificate", "none"}).status, kRefused);
  EXPECT_TRUE(document({"attachments", record_}).empty());
}

TEST_F(EvidenceCommands, ABundleIsMadeAndHoldsByItself) {
  document({"sign", record_, calibration_, "--person", "adale", "--meaning", "performed", "--passphrase-file",
            write("adale.txt", "brew house at dawn\n")});
#ifdef SPANWRIGHT_WITH_GUI
  document({"certificate", record_, calibration_, "--out", in("certificates")});
#endif
  document({"attach", record_, write("paper.pdf", "%PDF invented"), "--standard", serial_, "--certificate",
            certificate_});
  const std::string head = document({"journal", record_, "--head"}).at("head");
  for (const char* name : {"bundle", "bundle.zip"}) {
    const Json made = document({"evidence", record_, "--out", in(name), "--channel", "FT-8"});
    expectKeys(made, {"bundle", "calibrations", "certificates", "not_issued", "attachments", "units",
                      "entries", "entries_shown", "files", "bytes", "head", "sums_sha256"});
    EXPECT_EQ(made.at("head"), head);
    EXPECT_EQ(made.at("attachments"), 1);
    const Json held = document({"verify-bundle", in(name), "--head", head});
    expectKeys(held, {"files", "units", "rows", "entries", "signatures", "certificates", "head", "problems"});
    EXPECT_EQ(held.at("signatures"), 1);
    EXPECT_EQ(held.at("files"), made.at("files"));
    EXPECT_EQ(held.at("sums_sha256"), made.at("sums_sha256"));
    EXPECT_EQ(held.at("certificates"), made.at("certificates"));
  }
  EXPECT_EQ(shell("cd '" + in("bundle") + "' && sha256sum --strict -c SHA256SUMS"), 0);
#ifdef SPANWRIGHT_WITH_GUI
  const fs::path drawn = *fs::directory_iterator(folder_ / "certificates");
  EXPECT_EQ(call({"verify", record_, "--certificate",
                  (folder_ / "bundle" / "certificates" / drawn.filename()).string()})
                .status,
            kDone)
      << "what is in the bundle is what was issued";
#endif
  EXPECT_EQ(document({"journal", record_, "--head"}).at("head"), head) << "nothing was written";
}

TEST_F(EvidenceCommands, AChangeIsNamedAndExitsWithOne) {
  document({"evidence", record_, "--out", in("bundle"), "--channel", "FT-8"});
  const fs::path file = folder_ / "bundle" / "record" / ("calibration-" + calibration_ + ".json");
  std::string text = read(file);
  const auto at = text.find("\"indicated_text\": \"") + 19;
  text[at] = text[at] == '9' ? '8' : '9';
  std::ofstream(file, std::ios::binary) << text;
  EXPECT_NE(shell("cd '" + in("bundle") + "' && sha256sum -c SHA256SUMS"), 0);
  const Answer found = call({"verify-bundle", in("bundle"), "--json"});
  EXPECT_EQ(found.status, kFound);
  const Json problems = Json::parse(found.out).at("problems");
  ASSERT_EQ(problems.size(), 2U) << problems.dump(1);
  for (const Json& problem : problems) {
    expectKeys(problem, {"file", "what"});
    EXPECT_EQ(problem.at("file"), "record/calibration-" + calibration_ + ".json");
  }
  EXPECT_NE(call({"verify-bundle", in("bundle")}).out.find("the row \"reading as found 1\" was changed"),
            std::string::npos);
}

TEST_F(EvidenceCommands, RefusalsAreSentences) {
  const auto evidence = [&](std::vector<std::string> more) {
    std::vector<std::string> words{"evidence", record_, "--out", in("bundle")};
    words.insert(words.end(), more.begin(), more.end());
    return call(words);
  };
  EXPECT_EQ(evidence({}).status, kUsage);
  EXPECT_EQ(evidence({"--round", "1", "--channel", "FT-8"}).status, kUsage);
  EXPECT_EQ(evidence({"--from", "yesterday"}).status, kUsage);
  EXPECT_EQ(evidence({"--round", "1"}).status, kRefused);
  EXPECT_EQ(evidence({"--channel", "XX-1"}).status, kRefused);
  EXPECT_EQ(evidence({"--until", "1999-01-01"}).status, kRefused);
  EXPECT_EQ(evidence({"--from", "2026-02-01", "--until", "2026-01-01"}).status, kRefused);
  EXPECT_FALSE(fs::exists(in("bundle")));
  EXPECT_EQ(evidence({"--channel", "FT-8"}).status, kDone);
  const Answer again = evidence({"--channel", "FT-8"});
  EXPECT_EQ(again.status, kStorage);
  EXPECT_NE(again.err.find("is already there"), std::string::npos) << again.err;
  const Answer none = call({"verify-bundle", in("nothing")});
  EXPECT_EQ(none.status, kStorage);
  EXPECT_NE(none.err.find("is not there; "), std::string::npos) << none.err;
  EXPECT_EQ(call({"verify-bundle", write("no.zip", "not a zip")}).status, kStorage);
  EXPECT_EQ(call({"verify-bundle", in("bundle"), "--head", "x"}).status, kRefused);
}

}  // namespace
}  // namespace spanwright::cli_test
