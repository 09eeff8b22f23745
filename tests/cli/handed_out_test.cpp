// SPDX-License-Identifier: GPL-3.0-or-later
//
// A certificate somebody holds, compared with the record.
#include "core/tasks/handed_out.h"

#include <functional>
#include <iostream>

#include "cli/drawing.h"
#include "core/certificate/certificate_data.h"
#include "core/store/sqlite_connection.h"
#include "core/store/store.h"
#include "tests/cli/record_call.h"

namespace spanwright::cli_test {
namespace {

class HandedOut : public Commands {
 protected:
  void SetUp() override {
    Commands::SetUp();
    make();
    calibration_ =
        std::to_string(document({"record", record_, sample("visit.toml")}).at("calibration").get<int>());
    adale_ = write("adale.txt", "brew house at dawn\n");
    issue("first");
  }
  void issue(const std::string& into) {
    const Answer issued = call(
        {"certificate", record_, calibration_, "--form", "pdf,json", "--out", (folder_ / into).string()});
    ASSERT_EQ(issued.status, kDone) << issued.err;
  }
  std::string held(const std::string& folder, const std::string& form) const {
    return (folder_ / folder / ("TINY-2026-0001." + form)).string();
  }
  static std::string content(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  Answer verify(const std::string& certificate) {
    return call({"verify", record_, "--certificate", certificate});
  }
  void sign() {
    ASSERT_EQ(call({"sign", record_, calibration_, "--person", "adale", "--meaning", "performed",
                    "--passphrase-file", adale_})
                  .status,
              kDone);
  }
  std::string calibration_, adale_;
};

TEST_F(HandedOut, AgreesWithTheRecordInEitherForm) {
  for (const char* form : {"pdf", "json"}) {
    const Answer answer = verify(held("first", form));
    EXPECT_EQ(answer.status, kDone) << answer.out << answer.err;
  }
}

TEST_F(HandedOut, AnOlderRevisionStillAgreesAndSaysThatThereIsANewerOne) {
  sign();
  issue("second");
  const Answer old = verify(held("first", "pdf"));
  EXPECT_EQ(old.status, kDone) << old.out;
  EXPECT_NE(old.out.find("revision 2 of certificate TINY-2026-0001 has been issued since"), std::string::npos)
      << old.out;
  const Answer now = verify(held("second", "pdf"));
  EXPECT_EQ(now.status, kDone) << now.out;
  EXPECT_NE(content(held("second", "json")).find("Signed as performed"), std::string::npos);
  EXPECT_EQ(content(held("first", "json")).find("Signed as performed"), std::string::npos);
}

TEST_F(HandedOut, EveryTextChangedInItIsFound) {
  const std::string whole = content(held("first", "json"));
  const std::string other = (folder_ / "other.json").string();
  const auto rewritten = [&](const std::function<void(nlohmann::ordered_json&)>& change) {
    auto json = nlohmann::ordered_json::parse(whole);
    change(json);
    std::ofstream(other) << json.dump();
    return verify(other);
  };
  int changed = 0;
  const std::function<void(nlohmann::ordered_json&)> everyText = [&](nlohmann::ordered_json& at) {
    for (auto& below : at) {
      below.is_structured() ? everyText(below) : void(++changed);
    }
  };
  auto counting = nlohmann::ordered_json::parse(whole);
  everyText(counting);
  int found = 0;
  for (int target = 0; target < changed; ++target) {
    int at = 0;
    bool counted = true;
    const Answer answer = rewritten([&](nlohmann::ordered_json& json) {
      const std::function<void(nlohmann::ordered_json&)> walk = [&](nlohmann::ordered_json& node) {
        for (auto& [name, below] : node.items()) {
          if (below.is_structured()) {
            walk(below);
          } else if (at++ == target) {
            counted = name != "program";
            below = below.is_string() ? nlohmann::ordered_json(below.get<std::string>() + "1")
                                      : nlohmann::ordered_json(77);
          }
        }
      };
      walk(json);
    });
    if (counted) {
      EXPECT_NE(answer.status, kDone) << "text " << target << "\n" << answer.out;
      found += answer.status != kDone ? 1 : 0;
    }
  }
  EXPECT_GT(found, 150);
  std::cout << "texts of a certificate changed: " << changed << ", found: " << found
            << " (the program's version is not compared)\n";
}

TEST_F(HandedOut, ReadingsChangedInTheRecordAreFound) {
  {
    Connection raw(record_, Connection::Access::readWrite);
    raw.execute("DROP TRIGGER reading_not_changed");
    raw.execute("UPDATE reading SET indicated = 4.001, indicated_text = '4.001' WHERE sequence = 2");
  }
  const Answer answer = verify(held("first", "pdf"));
  EXPECT_EQ(answer.status, kFound);
  EXPECT_NE(answer.out.find("are not those the certificate was issued on"), std::string::npos) << answer.out;
  EXPECT_NE(answer.out.find("the certificate does not say what the record says: tables / 1 / rows / 2"),
            std::string::npos)
      << answer.out;
  EXPECT_NE(answer.out.find("what is printed is not what the record says"), std::string::npos) << answer.out;
}

TEST_F(HandedOut, ARecordMadeAnewDoesNotHoldIt) {
  const std::string certificate = held("first", "pdf");
  fs::remove(record_);
  make();
  const Answer answer = verify(certificate);
  EXPECT_EQ(answer.status, kFound);
  EXPECT_NE(answer.out.find("the record issued no certificate TINY-2026-0001"), std::string::npos)
      << answer.out;
}

// Somebody edits what is printed and leaves the data inside alone.
TEST_F(HandedOut, WordsOnThePrintThatTheRecordHasNot) {
  const Store store = Store::open(record_, Store::Mode::readOnly);
  HandedOutCertificate print = readCertificateFile(held("first", "pdf"), kCertificateDataName);
  const HandedOutCheck check = checkHandedOut(store, print.data);
  ASSERT_TRUE(check.certificate);
  EXPECT_TRUE(printDifferences(print, *check.certificate).empty());
  ASSERT_GT(print.words["4.000"], 0);
  --print.words["4.000"];
  ++print.words["4.001"];
  const auto found = printDifferences(print, *check.certificate);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_NE(found[1].find("\"4.001\" 1 times instead of 0"), std::string::npos) << found[1];
}

TEST_F(HandedOut, WhatIsNoCertificateIsRefusedInASentence) {
  const auto refused = [&](const std::string& file, const std::string& words) {
    const Answer answer = verify(file);
    EXPECT_EQ(answer.status, kRefused) << answer.out;
    EXPECT_NE(answer.err.find(words), std::string::npos) << answer.err;
  };
  refused((folder_ / "missing.pdf").string(), "cannot be read");
  refused(write("text.pdf", "just text"), "neither a PDF nor the data");
  refused(write("cut.pdf", content(held("first", "pdf")).substr(0, 900)), "damaged or no PDF");
  refused(write("other.json", "{\"form\": \"something else\"}"), "not the data of a certificate");
  refused(write("broken.json", "{\"form\": "), "not the data of a certificate");
  auto preview = nlohmann::ordered_json::parse(content(held("first", "json")));
  preview["journal"]["entry"] = 0;
  refused(write("preview.json", preview.dump()), "it is a preview");
  preview.erase("journal");
  refused(write("cut.json", preview.dump()), "does not say which calibration");
}

}  // namespace
}  // namespace spanwright::cli_test
