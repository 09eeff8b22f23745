// SPDX-License-Identifier: GPL-3.0-or-later
//
// standards, trace and reach as scripts and people meet them.
#include <algorithm>

#include "tests/cli/record_call.h"

namespace spanwright {
namespace {

using namespace cli_test;

class Traceability : public Commands {
 protected:
  // The newest calibration made with CAL-1.
  Json newest() {
    const Json all = document({"trace", record_, "--standard", "CAL-1"}).at("calibrations");
    EXPECT_FALSE(all.empty());
    return all.back();
  }
  std::string foundFile(const std::string& error, const std::string& range = "[[range]]") {
    return write("found.toml", "found_on = 2026-11-24\nremark = \"dropped\"\n" + range +
                                   "\nunit = \"mA\"\npoints = [ { nominal = 0, error = " + error +
                                   " }, { nominal = 24, error = " + error + " } ]\n");
  }
};

TEST_F(Traceability, StandardsSayHowLongTheyMayBeUsed) {
  make();
  const Json all = document({"standards", record_});
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].at("standard"), "CAL-1");
  expectKeys(all[0],
             {"certificate", "issuer", "valid_from", "valid_until", "last_day", "days_left", "state"});
  const Json before = document({"standards", record_, "--on", "2000-01-01"});
  EXPECT_EQ(before[0].at("state"), "no certificate yet");
  EXPECT_TRUE(before[0].at("certificate").is_null());
  EXPECT_TRUE(before[0].at("days_left").is_null());
  const Json after = document({"standards", record_, "--on", "2100-01-01"});
  EXPECT_EQ(after[0].at("state"), "expired");
  EXPECT_LT(after[0].at("days_left").get<int>(), 0);
  const Answer table = call({"standards", record_, "--on", "2100-01-01"});
  EXPECT_EQ(table.status, kDone);
  EXPECT_NE(table.out.find("expired"), std::string::npos);
  EXPECT_EQ(call({"standards", record_, "--on", "yesterday"}).status, kUsage);
  EXPECT_EQ(call({"standards", record_ + "x"}).status, kStorage);
}

TEST_F(Traceability, AChartOfFewCertificatesSaysSo) {
  make();
  const Json chart = document({"standards", record_, "--chart", "CAL-1"});
  ASSERT_FALSE(chart.at("charts").empty());
  EXPECT_EQ(chart.at("charts")[0].at("gap"), "too few certificates");
  expectKeys(chart.at("charts")[0].at("points")[0], {"certificate", "issued", "error"});
  EXPECT_NE(call({"standards", record_, "--chart", "CAL-1"}).out.find("too few certificates"),
            std::string::npos);
  const Answer unknown = call({"standards", record_, "--chart", "CAL-9"});
  EXPECT_EQ(unknown.status, kRefused);
  EXPECT_NE(unknown.err.find("CAL-9"), std::string::npos);
}

TEST_F(Traceability, TraceGoesBothWays) {
  fill();
  const Json use = newest();
  const std::string id = std::to_string(use.at("calibration").get<int>());
  const Json trace = document({"trace", record_, "--calibration", id});
  expectKeys(trace,
             {"channel", "place", "performed", "recorded_utc", "person_name", "source", "setup", "sensor",
              "plan", "issued_certificate", "standards", "readings", "gaps", "differs", "agrees"});
  EXPECT_EQ(trace.at("channel"), use.at("channel"));
  EXPECT_TRUE(trace.at("agrees").get<bool>());
  EXPECT_TRUE(trace.at("gaps").empty());
  EXPECT_EQ(trace.at("standards")[0].at("certificate").at("number"), use.at("certificate"));
  const Json& reading = trace.at("readings")[0];
  expectKeys(reading, {"applied_typed", "reading_typed", "applied", "expected", "error", "limit_low",
                       "verdict", "standards", "budget", "differs"});
  EXPECT_EQ(reading.at("standards")[0].at("certificate"), use.at("certificate"));
  EXPECT_FALSE(reading.at("budget").at("lines").empty());
  EXPECT_NEAR(reading.at("budget").at("expanded").get<double>(),
              reading.at("expanded_uncertainty").get<double>(), 1e-12);
  const Answer people = call({"trace", record_, "--calibration", id});
  EXPECT_EQ(people.status, kDone);
  EXPECT_NE(people.out.find("certificate of standard CAL-1"), std::string::npos);
  EXPECT_NE(people.out.find("The stored numbers agree"), std::string::npos);
  const Answer standard = call({"trace", record_, "--standard", "CAL-1"});
  EXPECT_EQ(standard.status, kDone);
  EXPECT_NE(standard.out.find("24 calibrations."), std::string::npos) << standard.out;
}

// Type K, terminals at 25 degC: 3.095988 mV are 100 degC (thermocouple_cold_junction_examples.csv).
TEST_F(Traceability, AReferenceJunctionIsShownWithItsVisitAndTraced) {
  fill();
  const std::string head =
      "channel = \"TE-4\"\nsubject = \"channel\"\nperformed = 2026-11-20T09:30:00\nperson = \"adale\"\n"
      "standards = [\"SIM-1\"]\ncautions_confirmed = true\n";
  const std::string readings =
      "as_found = [\n"
      "  { point = \"0\", applied = \"-1.000 mV\", reading = \"0.1\" },\n"
      "  { point = \"50\", applied = \"7.138 mV\", reading = \"200.1\" },\n"
      "  { point = \"100\", applied = \"15.397 mV\", reading = \"400.0\" } ]\n";
  const Answer without = call({"record", record_, write("without.toml", head + readings)});
  EXPECT_EQ(without.status, kRefused);
  EXPECT_NE(without.err.find("with the reference junction at 0 degC the point is at 8.138 mV"),
            std::string::npos)
      << without.err;
  const Json made =
      document({"record", record_,
                write("with.toml", head + "conditions = { reference_junction = 25 }\n" + readings)});
  EXPECT_EQ(made.at("reference_junction"), 25.0);
  EXPECT_EQ(made.at("outcome"), "pass") << made.dump();
  const std::string id = std::to_string(made.at("calibration").get<int>());
  EXPECT_NE(call({"show", record_, "TE-4", "--calibration", id}).out.find("Reference junction: 25 °C.\n"),
            std::string::npos);
  const Json trace = document({"trace", record_, "--calibration", id});
  EXPECT_EQ(trace.at("reference_junction"), 25.0);
  EXPECT_TRUE(trace.at("agrees").get<bool>());
  const std::string table = call({"trace", record_, "--calibration", id}).out;
  EXPECT_NE(table.find("reference junction"), std::string::npos) << table;
  EXPECT_EQ(call({"show", record_, "FT-8", "--calibration", "1"}).out.find("Reference junction"),
            std::string::npos);
}

TEST_F(Traceability, TraceIsCalledWithOneOfTheTwo) {
  make();
  EXPECT_EQ(call({"trace", record_}).status, kUsage);
  EXPECT_EQ(call({"trace", record_, "--calibration", "1", "--standard", "CAL-1"}).status, kUsage);
  EXPECT_EQ(call({"trace", record_, "--calibration", "one"}).status, kUsage);
  EXPECT_EQ(call({"trace", record_, "--calibration", "999"}).status, kRefused);
  EXPECT_EQ(call({"trace", record_, "--standard", "CAL-9"}).status, kRefused);
}

TEST_F(Traceability, ReachSaysWhatFlipsAndWhereToGo) {
  fill();
  Answer answer = call({"reach", record_, "CAL-1", "--found", foundFile("0.4"), "--json"});
  EXPECT_EQ(answer.status, kFound) << answer.err;
  const Json all = Json::parse(answer.out);
  ASSERT_FALSE(all.empty());
  int flips = 0;
  std::vector<int> visits;
  for (const Json& each : all) {
    expectKeys(each, {"calibration", "channel", "was", "becomes", "flips", "subject", "performed", "as_found",
                      "as_left", "worst", "points", "needs_visit", "visit_order", "cleared_by"});
    flips += each.at("flips").get<bool>() ? 1 : 0;
    EXPECT_EQ(each.at("needs_visit").get<bool>(), !each.at("visit_order").is_null());
    if (each.at("needs_visit").get<bool>()) {
      visits.push_back(each.at("visit_order").get<int>());
    }
  }
  EXPECT_GT(flips, 0);
  ASSERT_FALSE(visits.empty());
  EXPECT_EQ(*std::min_element(visits.begin(), visits.end()), 1);
  answer = call({"reach", record_, "CAL-1", "--found", foundFile("0.4")});
  EXPECT_EQ(answer.status, kFound);
  EXPECT_NE(answer.out.find("pass -> fail"), std::string::npos) << answer.out;
  EXPECT_NE(answer.out.find("To visit again, in walking order:"), std::string::npos);
  EXPECT_NE(answer.out.find("Last good certificate: "), std::string::npos);
}

TEST_F(Traceability, ReachWithoutAFlipIsDone) {
  fill();
  const Answer answer = call({"reach", record_, "CAL-1", "--found", foundFile("0.0")});
  EXPECT_EQ(answer.status, kDone) << answer.out;
  EXPECT_NE(answer.out.find("0 change verdict"), std::string::npos);
  EXPECT_NE(answer.out.find("No channel needs a visit"), std::string::npos);
}

TEST_F(Traceability, ReachRefusesABadFile) {
  make();
  const Answer bad = call({"reach", record_, "CAL-1", "--found", foundFile("0.4", "[[rang]]")});
  EXPECT_EQ(bad.status, kRefused);
  EXPECT_NE(bad.err.find("found.toml:3"), std::string::npos) << bad.err;
  EXPECT_EQ(call({"reach", record_, "CAL-9", "--found", foundFile("0.4")}).status, kRefused);
  EXPECT_EQ(call({"reach", record_, "CAL-1"}).status, kUsage);
  EXPECT_EQ(call({"reach", record_, "CAL-1", "--found", "nowhere.toml"}).status, kStorage);
}

}  // namespace
}  // namespace spanwright
