// SPDX-License-Identifier: GPL-3.0-or-later
//
// The commands as scripts meet them: exit status, JSON keys, sentences, and nothing on standard output beside
// the document.
#include <algorithm>
#include <atomic>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

#include "core/store/store.h"
#include "tests/cli/record_call.h"

namespace spanwright {
namespace {

using namespace cli_test;

TEST_F(Commands, NewCountsWhatTheSiteHas) {
  const Json made = document({"new", record_, "--site", sample("tiny.toml")});
  EXPECT_EQ(made.at("channels"), 8);
  EXPECT_GE(made.at("setups").get<int>(), 8);
  expectKeys(made, {"sensors", "standards", "people"});
}

TEST_F(Commands, NewRefusesToWriteOverARecord) {
  make();
  const Answer again = call({"new", record_, "--site", sample("tiny.toml")});
  EXPECT_EQ(again.status, kStorage);
  EXPECT_NE(again.err.find(record_), std::string::npos);
}

TEST_F(Commands, NewReportsEveryMistakeAndWritesNothing) {
  std::ifstream file(sample("tiny.toml"));
  std::stringstream text;
  text << file.rdbuf();
  std::string damaged = text.str();
  damaged.replace(damaged.find("months = 12"), 11, "moths = 12");
  damaged.replace(damaged.find("order = \"up-down\""), 17, "order = \"upward\"");
  const Answer answer = call({"new", record_, "--site", write("bad.toml", damaged)});
  EXPECT_EQ(answer.status, kRefused);
  EXPECT_NE(answer.err.find("moths"), std::string::npos) << answer.err;
  EXPECT_NE(answer.err.find("upward"), std::string::npos) << answer.err;
  EXPECT_NE(answer.err.find("bad.toml:"), std::string::npos) << answer.err;
  EXPECT_FALSE(fs::exists(record_));
}

TEST_F(Commands, AWaitForAnotherProgramIsSaidOnStandardError) {
  make();
  const FixedClock clock;
  std::atomic<bool> writing = false;
  std::jthread other([&] {
    Store store = Store::open(record_, Store::Mode::readWrite, clock);
    const Store::Transaction transaction(store);
    writing = true;
    std::this_thread::sleep_for(std::chrono::milliseconds(1000));
  });
  while (!writing) {
    std::this_thread::yield();
  }
  const Answer answer = call({"record", record_, sample("visit.toml"), "--json"});
  other.join();
  EXPECT_NE(answer.status, kStorage) << answer.err;
  EXPECT_NE(answer.err.find("Another program is writing to the record; waiting.\n"), std::string::npos)
      << answer.err;
  EXPECT_EQ(Json::parse(answer.out).at("calibration"), 1);
  EXPECT_EQ(call({"record", record_, sample("visit.toml")}).err.find("waiting"), std::string::npos);
}

TEST_F(Commands, ImportTwiceAddsNothing) {
  make();
  const std::vector<std::string> words{"import", record_, sample("history.csv"), "--map",
                                       sample("history.map.toml")};
  const Json first = document(words);
  EXPECT_GT(first.at("calibrations").get<int>(), 8);
  EXPECT_GT(first.at("readings").get<int>(), first.at("calibrations").get<int>());
  EXPECT_EQ(first.at("already_known"), 0);
  EXPECT_TRUE(first.at("rejected").empty());
  const Json second = document(words);
  EXPECT_EQ(second.at("calibrations"), 0);
  EXPECT_EQ(second.at("readings"), 0);
  EXPECT_EQ(second.at("already_known"), first.at("calibrations"));
}

TEST_F(Commands, DryRunStoresNothing) {
  make();
  const Json dry =
      document({"import", record_, sample("history.csv"), "--map", sample("history.map.toml"), "--dry-run"});
  const Json real = document({"import", record_, sample("history.csv"), "--map", sample("history.map.toml")});
  EXPECT_EQ(dry.at("calibrations"), real.at("calibrations"));
  EXPECT_EQ(real.at("already_known"), 0);
}

TEST_F(Commands, RejectsCanBeMendedAndImportedAgain) {
  make();
  std::ifstream file(sample("history.csv"), std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  const std::string whole = text.str();
  // The reading of the third data row becomes no number; its visit goes to the rejects, the others are taken
  // in.
  std::size_t row = 0;
  for (int i = 0; i < 3; ++i) {
    row = whole.find('\n', row) + 1;
  }
  std::string damaged = whole;
  std::size_t cell = row;
  for (int i = 0; i < 7; ++i) {
    cell = whole.find(',', cell) + 1;
  }
  const std::size_t size = whole.find(',', cell) - cell;
  const std::string reading = whole.substr(cell, size);
  damaged.replace(cell, size, "=oops");
  const std::string source = write("history.csv", damaged), rejects = (folder_ / "rejects.csv").string();
  const Answer kept = call({"import", record_, source, "--map", sample("history.map.toml"), "--keep-good",
                            "--rejects", rejects, "--json"});
  EXPECT_EQ(kept.status, kFound) << kept.err;
  const Json first = Json::parse(kept.out);
  const Json& refused = first.at("rejected");
  ASSERT_EQ(refused.size(), 2U) << "the reading, and the rest of its visit: " << kept.out;
  EXPECT_EQ(refused.at(0).at("line"), 2);
  EXPECT_EQ(refused.at(1).at("line"), 4);
  EXPECT_EQ(refused.at(1).at("column"), 8);
  EXPECT_EQ(refused.at(1).at("heading"), "Reading");

  std::ifstream written(rejects, std::ios::binary);
  std::stringstream lines;
  lines << written.rdbuf();
  std::string mended = lines.str();
  EXPECT_TRUE(mended.starts_with("\xEF\xBB\xBFrefused,"));
  EXPECT_GE(std::count(mended.begin(), mended.end(), '\n'), 3) << "the whole visit goes to the rejects";
  const std::size_t oops = mended.rfind("=oops");
  ASSERT_NE(oops, std::string::npos);
  mended.replace(oops, 5, reading);
  const Json second =
      document({"import", record_, write("mended.csv", mended), "--map", sample("history.map.toml")});
  EXPECT_EQ(second.at("calibrations"), 1);
  const Json all = document({"import", record_, sample("history.csv"), "--map", sample("history.map.toml")});
  EXPECT_EQ(all.at("calibrations"), 0);
  EXPECT_EQ(all.at("already_known"), first.at("calibrations").get<int>() + 1);
}

TEST_F(Commands, ARefusedImportWritesNothing) {
  make();
  const std::string bad = write("bad.csv", "Tag,Performed\nX,2025-01-01\n");
  const Json before = document({"due", record_});
  EXPECT_EQ(call({"import", record_, bad, "--map", sample("history.map.toml")}).status, kRefused);
  EXPECT_EQ(document({"due", record_}), before);
}

TEST_F(Commands, AVisitIsRecordedShownAndCertified) {
  fill();
  const Json visit = document({"record", record_, sample("visit.toml")});
  expectKeys(visit, {"calibration", "outcome", "points"});
  ASSERT_FALSE(visit.at("points").empty());
  expectKeys(visit.at("points").at(0),
             {"phase", "point", "applied", "reading", "expected", "error", "verdict", "unit"});
  const std::string tag = visit.at("channel"), number = std::to_string(visit.at("calibration").get<int>());

  const Json shown = document({"show", record_, tag});
  expectKeys(shown, {"channel", "setups", "fittings", "calibrations", "states"});
  const auto& visits = shown.at("calibrations");
  EXPECT_TRUE(std::any_of(visits.begin(), visits.end(),
                          [&](const Json& one) { return one.at("calibration") == visit.at("calibration"); }));

  const Answer again = call({"record", record_, sample("visit.toml")});
  EXPECT_EQ(again.status, kRefused) << "the same visit twice";
  EXPECT_EQ(document({"show", record_, tag}), shown) << "a refused visit changed the record";

#ifdef SPANWRIGHT_WITH_GUI
  const Json written =
      document({"certificate", record_, number, "--out", (folder_ / "certificates").string()});
  const std::string file = written.at(0).at("files").at(0);
  std::ifstream pdf(file, std::ios::binary);
  std::string head(5, ' ');
  pdf.read(head.data(), 5);
  EXPECT_EQ(head, "%PDF-");
  const Json reissued =
      document({"certificate", record_, number, "--out", (folder_ / "certificates").string()});
  EXPECT_EQ(reissued.at(0).at("number"), written.at(0).at("number")) << "a number is allotted once";
#endif
}

/// The text of a sample file with every `from` replaced.
std::string mended(const std::string& file, const std::string& from, const std::string& to) {
  std::ifstream in(file, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), {}};
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
  return text;
}

// The limits are +-0.02 m3/h; 4.018 is inside, but not by three times U.
TEST_F(Commands, AGuardedPlanShowsTheAnswerBehindTheVerdict) {
  const std::string site =
      write("site.toml", mended(sample("tiny.toml"), "decision_rule = \"simple\"",
                                "decision_rule = { rule = \"guard-band\", factor = 3 }"));
  ASSERT_EQ(call({"new", record_, "--site", site}).status, kDone);
  const std::string visit = write("visit.toml", mended(sample("visit.toml"), "4.010 m3/h", "4.018 m3/h"));
  const Json made = document({"record", record_, visit});
  EXPECT_EQ(made.at("decision_rule"), "guard band of 3 U");
  EXPECT_EQ(made.at("as_found"), "fail");
  const Json& near = made.at("points").at(4);
  EXPECT_EQ(near.at("verdict"), "fail");
  EXPECT_EQ(near.at("answer"), "conditional_pass");
  const double expanded = near.at("expanded_uncertainty");
  EXPECT_NEAR(near.at("guard_band"), 3.0 * expanded, 1e-12);
  EXPECT_NEAR(near.at("ratio"), 0.02 / expanded, 1e-9);
  EXPECT_GT(0.018, 0.02 - 3.0 * expanded) << "else the point would pass";
  EXPECT_EQ(made.at("points").at(0).at("answer"), "pass");
  EXPECT_FALSE(near.contains("reason"));
  const Answer shown =
      call({"show", record_, "FT-8", "--calibration", std::to_string(made.at("calibration").get<int>())});
  EXPECT_NE(shown.out.find("fail (conditional pass)"), std::string::npos) << shown.out << shown.err;
}

TEST_F(Commands, RecordAdvisesAndShowPrintsOneCalibration) {
  fill();
  const Answer recorded = call({"record", record_, sample("visit.toml")});
  ASSERT_EQ(recorded.status, kDone) << recorded.err;
  EXPECT_NE(recorded.out.find("djusting"), std::string::npos) << recorded.out;
  const Json shown = document({"show", record_, "FT-8"});
  const std::string number = std::to_string(shown.at("calibrations").back().at("calibration").get<int>());
  const Json one = document({"show", record_, "FT-8", "--calibration", number});
  expectKeys(one.at("figures"), {"zero_error", "span_error", "max_error", "linearity_terminal",
                                 "linearity_best", "linearity_zero", "hysteresis", "repeatability"});
  // Of 8 m3/h: 50 % read 4.000 rising and 4.010 falling, the ends 0.001 and -0.002, 7.999 twice.
  EXPECT_NEAR(one.at("figures").at("hysteresis").get<double>(), 100.0 * 0.010 / 8.0, 1e-9);
  EXPECT_NEAR(one.at("figures").at("zero_error").get<double>(), 100.0 * -0.0005 / 8.0, 1e-9);
  EXPECT_NEAR(one.at("figures").at("span_error").get<double>(), 100.0 * -0.0005 / 8.0, 1e-9);
  EXPECT_NEAR(one.at("figures").at("max_error").get<double>(), 100.0 * 0.010 / 8.0, 1e-9);
  EXPECT_TRUE(one.at("figures").at("repeatability").is_null());
  EXPECT_TRUE(one.at("figures_as_left").is_null());
  EXPECT_EQ(one.at("points").size(), 6U);
  expectKeys(one.at("advice"), {"advice", "sentence", "zero", "unit", "span_percent", "worst_now",
                                "worst_predicted", "adjust_limit", "predicted", "diagnoses"});
  EXPECT_NE(recorded.out.find(one.at("advice").at("sentence").get<std::string>()), std::string::npos);
  const Answer printed = call({"show", record_, "FT-8", "--calibration", number});
  EXPECT_EQ(printed.status, kDone) << printed.err;
  EXPECT_NE(printed.out.find("0.1250"), std::string::npos) << printed.out;
  EXPECT_NE(printed.out.find("50 % down"), std::string::npos) << printed.out;
  const Answer other = call({"show", record_, "FT-8", "--calibration", "99999"});
  EXPECT_EQ(other.status, kRefused);
  EXPECT_NE(other.err.find("no calibration 99999"), std::string::npos) << other.err;
}

TEST_F(Commands, DueNamesStateDateAndReason) {
  fill();
  const Json due = document({"due", record_, "--on", "2026-11-25"});
  ASSERT_GE(due.size(), 8U);
  for (const Json& item : due) {
    expectKeys(item,
               {"channel", "place", "subject", "state", "due_on", "proven_on", "interval_days", "reason"});
    EXPECT_FALSE(item.at("reason").get<std::string>().empty());
    const std::string state = item.at("state");
    EXPECT_TRUE(state == "unproven" || state == "overdue" || state == "in_grace" || state == "due_soon" ||
                state == "ok");
  }
  EXPECT_LE(document({"due", record_, "--on", "2026-11-25", "--within", "30"}).size(), due.size());
}

TEST_F(Commands, DriftAnswersByTheContract) {
  fill();
  const Json drift = document({"drift", record_});
  ASSERT_FALSE(drift.empty());
  for (const Json& item : drift) {
    expectKeys(item, {"channel",
                      "subject",
                      "point_percent",
                      "unit",
                      "calibrations",
                      "segments",
                      "rate_per_year",
                      "rate_standard_error",
                      "residual_sd",
                      "degrees_of_freedom",
                      "pooled_rate_per_year",
                      "robust_rate_per_year",
                      "forecast_out_on",
                      "line_out_on",
                      "t",
                      "p_value",
                      "in_tolerance_probability",
                      "band_rests_on",
                      "group",
                      "influence",
                      "growing_scatter",
                      "findings",
                      "parts",
                      "other_plan_visits"});
    expectKeys(item.at("group"), {"name", "size", "too_small", "rate_mean", "rate_spread", "scatter"});
    if (!item.at("in_tolerance_probability").is_null()) {
      EXPECT_GE(item.at("in_tolerance_probability"), 0.0);
      EXPECT_LE(item.at("in_tolerance_probability"), 1.0);
    }
  }
  const Json backtest = document({"drift", record_, "--backtest"});
  expectKeys(backtest, {"readings", "with_band", "in_band", "mean_absolute_error_of_tolerance"});
  expectKeys(backtest.at("mean_absolute_error_of_tolerance"), {"forecast", "last_value", "straight_line"});
  EXPECT_GE(backtest.at("with_band"), backtest.at("in_band"));
  EXPECT_FALSE(backtest.at("readings").empty());
  EXPECT_EQ(call({"drift", record_, drift.at(0).at("channel"), "--backtest"}).status, kUsage);
  EXPECT_NE(call({"drift", record_, "--backtest"}).out.find("last value stays"), std::string::npos);
  EXPECT_NE(call({"drift", record_, drift.at(0).at("channel")}).out.find("The band rests on"),
            std::string::npos);
  const std::string tag = drift.at(0).at("channel");
  for (const Json& item : document({"drift", record_, tag})) {
    EXPECT_EQ(item.at("channel"), tag);
  }
}

TEST_F(Commands, WrongCallsAreStatusTwo) {
  const std::vector<std::vector<std::string>> calls{{},
                                                    {"nonsense"},
                                                    {"new", "x"},
                                                    {"due"},
                                                    {"import", "x"},
                                                    {"certificate", "x", "abc", "--out", "y"},
                                                    {"certificate", "x", "1", "--out", "y", "--form", "png"}};
  for (const auto& words : calls) {
    const Answer answer = call(words);
    EXPECT_EQ(answer.status, kUsage) << (words.empty() ? "(nothing)" : words.front());
    EXPECT_FALSE(answer.err.empty());
  }
  make();
  EXPECT_EQ(call({"due", record_, "--on", "25.11.2026"}).status, kUsage);
}

TEST_F(Commands, AskedForWhatIsNotThereIsRefusedInOneSentence) {
  make();
  std::vector<std::vector<std::string>> calls{{"show", record_, "NOPE"}, {"drift", record_, "NOPE"}};
#ifdef SPANWRIGHT_WITH_GUI
  calls.push_back({"certificate", record_, "99999", "--out", folder_.string()});
#endif
  for (const auto& words : calls) {
    const Answer answer = call(words);
    EXPECT_EQ(answer.status, kRefused) << words.front();
    EXPECT_TRUE(answer.out.empty());
    EXPECT_FALSE(answer.err.empty());
  }
}

TEST_F(Commands, FilesThatAreNoRecordAreStatusFour) {
  const std::string text = write("text.spanwright", "this is not a record\n");
  const std::string empty = write("empty.spanwright", "");
  for (const std::string& file : {text, empty, (folder_ / "missing").string(), folder_.string()}) {
    const Answer answer = call({"due", file});
    EXPECT_EQ(answer.status, kStorage) << file;
    EXPECT_NE(answer.err.find(file), std::string::npos) << answer.err;
    EXPECT_EQ(std::count(answer.err.begin(), answer.err.end(), '\n'), 1) << answer.err;
  }
  EXPECT_FALSE(fs::exists(folder_ / "missing"));
}

TEST_F(Commands, HelpIsNotAnError) {
  const Answer answer = call({"--help"});
  EXPECT_EQ(answer.status, kDone);
  for (const char* name : {"new", "import", "record", "show", "due", "drift", "calc"}) {
    EXPECT_NE(answer.out.find(name), std::string::npos) << name;
  }
}

}  // namespace
}  // namespace spanwright
