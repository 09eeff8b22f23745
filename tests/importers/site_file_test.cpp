// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/site_file.h"

#include <gmock/gmock.h>

#include "tests/importers/files.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// Line 1 is the line with [site].
constexpr std::string_view kSite = R"([site]
code = "LARK"
name = "Larkmead Creamery"
address = ["Dairy Lane 4", "Larkmead"]
[calendar]
working_days = ["mon", "tue", "sat"]
closed = [ { first = 2026-12-24, last = 2027-01-01, name = "winter" } ]
grace_days = 7
[[person]]
login = "mt"
name = "Mara Tolland"
roles = ["technician", "reviewer"]
left_on = 2024-06-30
[[place]]
path = "Hall / Cabinet P1 / Station 1"
[[interval]]
code = "yearly"
months = 12
[[plan]]
code = "AI"
revision = "2"
title = "Five points"
points = [0, 25, 50, 75, 100]
order = "up-down"
repeats = 2
tolerance = { percent_of_span = 0.25, absolute = 0.1 }
cautions = ["Loop in manual."]
[[standard]]
serial = "LC-1"
  [[standard.certificate]]
  number = "C-2"
  issuer = "lab"
  issued = 2025-02-12
  valid_from = 2025-02-12
  valid_until = 2026-02-28
    [[standard.certificate.range]]
    unit = "mA"
    resolution = 0.001
    points = [ { nominal = 4, error = 0.0002, uncertainty = 0.0008 }, { nominal = 20, error = -0.1, uncertainty = 0.0012 } ]
  [[standard.certificate]]
  number = "C-1"
  issuer = "lab"
  issued = 2024-02-12
  valid_from = 2024-02-12
  valid_until = 2025-02-28
    [[standard.certificate.range]]
    unit = "mA"
    points = [ { nominal = 4, error = 0, uncertainty = 0.0008 } ]
[[sensor]]
serial = "TX-1"
process = { low = 0, high = 150, unit = "degC" }
output = { low = 4, high = 20, unit = "mA" }
[[channel]]
tag = "TT-101"
place = "Hall / Cabinet P1 / Station 1"
terminal = "1"
  [[channel.setup]]
  from = 2018-03-01T08:00:00
  kind = "analog-input"
  signal = { low = 4, high = 20, unit = "mA" }
  counts = { low = 0, high = 32000 }
  bits = 16
  units = { low = 0, high = 150, unit = "degC" }
  alarms = { low = 70, high = 90, dead_band = 1 }
  [[channel.setup]]
  from = 2020-01-01
  kind = "rtd-input"
  element = "pt1000"
  wires = 4
  range = { low = -50, high = 200, unit = "degC" }
  [[channel.fitting]]
  sensor = "TX-1"
  from = 2018-03-01T08:00:00
  until = 2019-01-01T00:00:00
  [[channel.routine]]
  subject = "channel"
  plan = "AI"
  interval = "yearly"
)";

/// kSite with the first `from` replaced by `to`.
std::string changed(std::string_view from, std::string_view to) {
  std::string text(kSite);
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

std::vector<std::string> problemsIn(std::string_view text) {
  const TempFile file(text, "site.toml");
  return problemsOf([&] { readSiteFile(file.path()); });
}

TEST(SiteFile, BecomesARegister) {
  const TempFile file(kSite, "site.toml");
  const Register site = readSiteFile(file.path());
  EXPECT_EQ(site.site.code, "LARK");
  EXPECT_THAT(site.site.address, ElementsAre("Dairy Lane 4", "Larkmead"));
  EXPECT_THAT(site.calendar.workingWeekdays, ElementsAre(1, 2, 6));
  ASSERT_EQ(site.calendar.closed.size(), 1U);
  EXPECT_EQ(formatDate(site.calendar.closed[0].last), "2027-01-01");
  EXPECT_EQ(site.calendar.graceDays, 7);
  EXPECT_EQ(site.calendar.dueSoonDays, 30);
  EXPECT_EQ(site.calendar.earlyDays, 30);
  ASSERT_NE(site.person("mt"), nullptr);
  EXPECT_THAT(site.person("mt")->roles, ElementsAre(Role::technician, Role::reviewer));
  ASSERT_EQ(site.places.size(), 3U);
  EXPECT_EQ(site.places[0].path, "Hall");
  EXPECT_EQ(site.places[2].parentPath, "Hall / Cabinet P1");
  EXPECT_EQ(site.places[2].name, "Station 1");
  const Plan* plan = site.plan("AI");
  ASSERT_NE(plan, nullptr);
  EXPECT_EQ(plan->scheme.order, RunOrder::upDown);
  EXPECT_EQ(plan->scheme.repeats, 2);
  EXPECT_DOUBLE_EQ(plan->tolerance.minus.absolute, 0.1);
  const Standard* standard = site.standard("LC-1");
  ASSERT_NE(standard, nullptr);
  ASSERT_EQ(standard->certificates.size(), 2U);
  EXPECT_EQ(standard->certificates[0].number, "C-1");
  EXPECT_DOUBLE_EQ(standard->certificates[1].ranges[0].points[1].error, -0.1);
  const Channel* channel = site.channel("TT-101");
  ASSERT_NE(channel, nullptr);
  ASSERT_EQ(channel->setups.size(), 2U);
  const auto& input = std::get<AnalogInputSetup>(channel->setups[0].setup.kind);
  EXPECT_EQ(input.bits, 16);
  EXPECT_EQ(input.units, (Span{0, 150, Unit::celsius}));
  EXPECT_EQ(input.alarms.high, 90.0);
  EXPECT_EQ(channel->setups[1].version, 2);
  EXPECT_EQ(std::get<RtdSetup>(channel->setups[1].setup.kind).wires, 4);
  EXPECT_EQ(formatMoment(*channel->fittings[0].until), "2019-01-01T00:00:00");
  EXPECT_THAT(registerFaults(site), IsEmpty());
}

DecisionRule ruleWritten(std::string_view rule) {
  const TempFile file(changed("repeats = 2", "decision_rule = " + std::string(rule)), "site.toml");
  return readSiteFile(file.path()).plan("AI")->decisionRule;
}

TEST(SiteFile, WhatAPlanStatesOfJunctionAndLeads) {
  const TempFile unsaid(kSite, "site.toml");
  const Register plain = readSiteFile(unsaid.path());
  EXPECT_FALSE(plain.plan("AI")->junctionUncertainty || plain.plan("AI")->leadHalfWidth);
  const TempFile said(
      changed("repeats = 2", "reference_junction_uncertainty = 0.4\nlead_resistance_half_width = 0.05"),
      "site.toml");
  const Register stated = readSiteFile(said.path());
  EXPECT_EQ(stated.plan("AI")->junctionUncertainty, 0.4);
  EXPECT_EQ(stated.plan("AI")->leadHalfWidth, 0.05);
}

TEST(SiteFile, DecisionRulesOfAPlan) {
  const TempFile unsaid(kSite, "site.toml");
  EXPECT_EQ(readSiteFile(unsaid.path()).plan("AI")->decisionRule.basis, GuardBasis::none);
  EXPECT_EQ(ruleWritten("\"simple\"").basis, GuardBasis::none);
  EXPECT_EQ(ruleWritten("{ rule = \"simple\" }").basis, GuardBasis::none);
  const DecisionRule band = ruleWritten("{ rule = \"guard-band\", factor = 0.83 }");
  EXPECT_EQ(band.basis, GuardBasis::factor);
  EXPECT_EQ(band.factor, 0.83);
  const DecisionRule risk = ruleWritten("{ rule = \"false-accept\", limit = 0.01 }");
  EXPECT_EQ(risk.basis, GuardBasis::specificRisk);
  EXPECT_EQ(risk.falseAcceptLimit, 0.01);
  EXPECT_EQ(ruleWritten("{ rule = \"false-accept\", limit = 0.01, any_spread = true }").basis,
            GuardBasis::anyPopulation);
}

struct Mistake {
  const char* from;
  const char* to;
  const char* says;  // "line:column what ..."
};

class SiteMistakes : public testing::TestWithParam<Mistake> {};

TEST_P(SiteMistakes, IsNamedWhereItStands) {
  const auto problems = problemsIn(changed(GetParam().from, GetParam().to));
  ASSERT_EQ(problems.size(), 1U) << joined(problems);
  EXPECT_THAT(problems[0], HasSubstr(GetParam().says));
}

INSTANTIATE_TEST_SUITE_P(
    Table, SiteMistakes,
    testing::Values(
        Mistake{"\"LARK\"", "\"lark\"", "2:8 [site]: the site's code is \"lark\"; 2 to 8 capital letters"},
        Mistake{"name = \"Larkmead Creamery\"", "", "1:1 [site] has no name"},
        Mistake{"\"Larkmead Creamery\"", "12",
                "3:8 name of [site] is the number 12; a text in quotes is expected"},
        Mistake{"\"Larkmead\"]", "7]", "4:28 address of [site] is the number 7"},
        Mistake{
            "grace_days = 7", "grace_day = 7",
            "8:1 \"grace_day\" is not a key of [calendar]; the keys it can have are closed, due_soon_days, "
            "early_days, grace_days, working_days"},
        Mistake{"grace_days = 7", "grace_days = -1", "8:14 grace_days of [calendar] is the number -1"},
        Mistake{"grace_days = 7", "grace_days = 7.5", "a whole number from 0 to 3660 is expected"},
        Mistake{"\"sat\"", "\"someday\"", "6:31 working_days of [calendar] holds \"someday\""},
        Mistake{"\"sat\"", "\"mon\"", "6:31 mon stands twice"},
        Mistake{"last = 2027-01-01", "last = 2025-01-01", "is before first (2026-12-24)"},
        Mistake{"\"reviewer\"", "\"boss\"", "12:24 roles of [[person]] \"mt\" holds \"boss\""},
        Mistake{"left_on = 2024-06-30", "left_on = \"2024-06-30\"",
                "13:11 left_on of [[person]] \"mt\" is the text \"2024-06-30\"; a date without quotes"},
        Mistake{"Station 1\"\n[[interval]]",
                "Station 1\"\n[[place]]\npath = \"Hall / / Station 2\"\n[[interval]]",
                "17:8 [[place]] 2: the place is"},
        Mistake{"months = 12", "months = 12\ndays = 365", "give exactly one of months and days"},
        Mistake{"months = 12", "", "give exactly one of months and days"},
        Mistake{"grace_days = 7", "early_days = -1", "8:14 early_days of [calendar] is the number -1"},
        Mistake{
            "left_on", "hours_per_week = 0\nleft_on",
            "13:18 hours_per_week of [[person]] \"mt\" is the number 0; a number above 0, at most 168, is "
            "expected"},
        Mistake{"roles = [\"technician\", \"reviewer\"]", "roles = [\"reviewer\"]\nhours_per_week = 8",
                "13:18 [[person]] \"mt\": has hours for calibrations and is no technician"},
        Mistake{"left_on", "away = [ { first = 2026-07-02, last = 2026-07-01 } ]\nleft_on",
                "is before first (2026-07-02)"},
        Mistake{"months = 12", "months = 12\npolicy = \"yearly\"",
                "19:10 policy of [[interval]] \"yearly\" is the text \"yearly\"; one of the words fixed, "
                "staircase, "
                "reliability, forecast"},
        Mistake{
            "months = 12", "months = 12\ntarget = 0.9",
            "19:10 target of [[interval]] \"yearly\" does not go with the policy \"fixed\"; remove it, or "
            "write policy = \"reliability\""},
        Mistake{"months = 12",
                "months = 12\npolicy = \"forecast\"\nminimum_days = 30\nmaximum_days = 900\nshorten = 0.5",
                "22:11 shorten of [[interval]] \"yearly\" does not go with the policy \"forecast\""},
        Mistake{"months = 12", "months = 12\npolicy = \"forecast\"\nminimum_days = 30",
                "16:1 maximum_days of [[interval]] \"yearly\" is missing, and a forecast policy proposes"},
        Mistake{"months = 12",
                "months = 12\npolicy = \"staircase\"\nminimum_days = 30\nmaximum_days = 900\nlengthen = 1.2",
                "[[interval]] \"yearly\" has no shorten"},
        Mistake{"months = 12",
                "months = 12\npolicy = \"staircase\"\nminimum_days = 30\nmaximum_days = 900\nlengthen = "
                "1\nshorten = 0.5",
                "22:12 lengthen of [[interval]] \"yearly\" is the number 1; a number above 1, at most 4, is"},
        Mistake{
            "months = 12",
            "months = 12\npolicy = \"reliability\"\nminimum_days = 30\nmaximum_days = 900\ntarget = 1.5",
            "22:10 target of [[interval]] \"yearly\" is the number 1.5; a number above 0, at most 0.999, is"},
        Mistake{"months = 12", "months = 12\nmaximum_days = 300",
                "18:10 [[interval]] \"yearly\": the interval to start with lies outside its limits"},
        Mistake{"[0, 25, 50", "[0, 50, 25", "23:18 points of [[plan]] \"AI\" has 25 after 50"},
        Mistake{"100]\norder", "140]\norder", "% of span from -5 to 105 is expected"},
        Mistake{"\"up-down\"", "\"sideways\"", "one of the words up, down, up-down, down-up is expected"},
        Mistake{"absolute = 0.1", "absolute = -0.1",
                "absolute of tolerance of [[plan]] \"AI\" is the number -0.1"},
        Mistake{"percent_of_span = 0.25, absolute = 0.1", "", "26:13 [[plan]] \"AI\": "},
        Mistake{"absolute = 0.1", "absolute = nan", "not a finite number"},
        Mistake{"repeats = 2", "decision_rule = \"guard-band\"",
                "25:17 decision_rule of [[plan]] \"AI\" is \"guard-band\"; write \"simple\", { rule"},
        Mistake{"repeats = 2", "reference_junction_uncertainty = 0",
                "reference_junction_uncertainty of [[plan]] \"AI\" is the number 0; a number above 0"},
        Mistake{"repeats = 2", "lead_resistance_half_width = nan", "not a finite number"},
        Mistake{"repeats = 2", "lead_resistance_half_width = \"short\"", "is the text \"short\""},
        Mistake{"repeats = 2", "decision_rule = 2", "decision_rule of [[plan]] \"AI\" is the number 2"},
        Mistake{"repeats = 2", "decision_rule = { factor = 1.0 }",
                "decision_rule of [[plan]] \"AI\" has no rule"},
        Mistake{"repeats = 2", "decision_rule = { rule = \"guarded\" }",
                "one of the words simple, guard-band, false-accept is expected"},
        Mistake{"repeats = 2", "decision_rule = { rule = \"guard-band\" }", "has no factor"},
        Mistake{"repeats = 2", "decision_rule = { rule = \"guard-band\", factor = 3.5 }",
                "factor of decision_rule of [[plan]] \"AI\" is the number 3.5"},
        Mistake{"repeats = 2", "decision_rule = { rule = \"guard-band\", factor = 1, limit = 0.02 }",
                "\"limit\" is not a key of decision_rule"},
        Mistake{"repeats = 2", "decision_rule = { rule = \"false-accept\" }", "has no limit"},
        Mistake{"repeats = 2", "decision_rule = { rule = \"false-accept\", limit = 2 }",
                "is 2; a probability below 0.5 is expected"},
        Mistake{"valid_until = 2026-02-28", "valid_until = 2024-02-28", "is before valid_from (2025-02-12)"},
        Mistake{"number = \"C-1\"", "number = \"C-2\"",
                "the certificate number \"C-2\" is already used in line 31"},
        Mistake{"nominal = 20", "nominal = 2", "is 2 after 4"},
        Mistake{"uncertainty = 0.0012", "uncertainty = 0", "a number above 0 is expected"},
        Mistake{"high = 150, unit = \"degC\" }\noutput", "high = 0, unit = \"degC\" }\noutput",
                "high of process of [[sensor]] \"TX-1\" is equal to low"},
        Mistake{"high = 150, unit = \"degC\" }\noutput", "high = 150, unit = \"degrees\" }\noutput",
                "is the text \"degrees\"; a unit in quotes, one of"},
        Mistake{"tag = \"TT-101\"\nplace = \"Hall / Cabinet P1 / Station 1\"",
                "tag = \"TT-101\"\nplace = \"Hall / Cabinet P1 / Station 2\"",
                "did you mean \"Hall / Cabinet P1 / Station 1\"?"},
        Mistake{"from = 2018-03-01T08:00:00\n  kind", "from = 2018-03-01T08:00:00Z\n  kind",
                "with an offset; a local date and time"},
        Mistake{"kind = \"analog-input\"", "kind = \"analogue\"",
                "one of the words threshold-input, analog-input"},
        Mistake{"signal = { low = 4, high = 20, unit = \"mA\" }",
                "signal = { low = 4, high = 20, unit = \"bar\" }", "is in bar; V, mV or mA is expected"},
        Mistake{"bits = 16", "bits = 99", "bits of setup of [[channel]] \"TT-101\", 1 is the number 99"},
        Mistake{"bits = 16", "wires = 3",
                "\"wires\" is not a key of setup of [[channel]] \"TT-101\", 1; the keys it can have"},
        Mistake{"from = 2020-01-01\n", "from = 2018-03-01\n",
                "not after the setup before it (2018-03-01T08:00:00)"},
        Mistake{"sensor = \"TX-1\"", "sensor = \"TX-2\"",
                "names the sensor \"TX-2\", which is not in this file"},
        Mistake{"until = 2019-01-01T00:00:00", "until = 2018-01-01T00:00:00", "is not after from"},
        Mistake{"plan = \"AI\"", "plan = \"AO\"", "names the plan \"AO\""},
        Mistake{"interval = \"yearly\"", "interval = \"monthly\"", "names the interval \"monthly\""},
        Mistake{"subject = \"channel\"", "subject = \"chanel\"",
                "one of the words channel, sensor, loop is expected"},
        Mistake{"points = [0, 25, 50, 75, 100]\n", "", "names the plan \"AI\", which has no points"},
        Mistake{"grace_days = 7", "grace_days = = 7", "8:14 this is not TOML as it should be"},
        Mistake{"left_on = 2024-06-30", "left_on = 2024-06-31", "this is not TOML as it should be"}));

TEST(SiteFile, ReadsThePoliciesAndThePeoplesHours) {
  std::string text = changed("months = 12", R"(months = 12
[[interval]]
code = "steps"
policy = "staircase"
days = 180
minimum_days = 90
maximum_days = 800
lengthen = 1.5
shorten = 0.25
[[interval]]
code = "target"
policy = "reliability"
months = 6
minimum_days = 30
maximum_days = 720
target = 0.85
confidence = 0.9
least_outcomes = 5
[[interval]]
code = "plain target"
policy = "reliability"
months = 6
minimum_days = 30
maximum_days = 720
target = 0.85)");
  text.replace(text.find("left_on"), 7, R"(hours_per_week = 7.5
away = [ { first = 2026-07-01, last = 2026-07-14, name = "holidays" } ]
left_on)");
  const TempFile file(text, "site.toml");
  const Register site = readSiteFile(file.path());
  ASSERT_EQ(site.intervals.size(), 4U);
  EXPECT_EQ(site.intervals[0].kind, PolicyKind::fixed);
  EXPECT_EQ(site.intervals[1].kind, PolicyKind::staircase);
  EXPECT_EQ(site.intervals[1].lengthen, 1.5);
  EXPECT_EQ(site.intervals[1].shorten, 0.25);
  EXPECT_EQ(site.intervals[2].kind, PolicyKind::reliability);
  EXPECT_EQ(site.intervals[2].target, 0.85);
  EXPECT_EQ(site.intervals[2].confidence, 0.9);
  EXPECT_EQ(site.intervals[2].leastOutcomes, 5);
  EXPECT_EQ(site.intervals[3].confidence, 0.95);
  EXPECT_EQ(site.intervals[3].leastOutcomes, 10);
  EXPECT_EQ(site.people[0].hoursPerWeek, 7.5);
  ASSERT_EQ(site.people[0].away.size(), 1U);
  EXPECT_EQ(formatDate(site.people[0].away[0].last), "2026-07-14");
}

TEST(SiteFile, ReportsEveryMistakeInTheOrderOfTheFile) {
  std::string text = changed("\"LARK\"", "\"lark\"");
  const auto also = [&text](std::string_view from, std::string_view to) {
    text.replace(text.find(from), from.size(), to);
  };
  also("absolute = 0.1", "absolute = -1");
  also("grace_days = 7", "graces = 7");
  also("interval = \"yearly\"", "interval = \"never\"");
  const auto problems = problemsIn(text);
  EXPECT_THAT(problems,
              ElementsAre(HasSubstr("2:8"), HasSubstr("8:1"), HasSubstr("26:"), HasSubstr("never")));
}

TEST(SiteFile, NamesUsedTwiceAreReportedWithTheFirstLine) {
  std::string text(kSite);
  text +=
      "[[channel]]\ntag = \"TT-101\"\nplace = \"Hall\"\n[[channel.setup]]\nfrom = 2018-03-01\n"
      "kind = \"discrete-output\"\n[[person]]\nlogin = \"mt\"\nname = \"Other\"\nroles = []\n";
  const auto problems = problemsIn(text);
  EXPECT_THAT(problems, ElementsAre(HasSubstr("the channel \"TT-101\" is already used in line 54"),
                                    HasSubstr("the login \"mt\" is already used in line 10")));
}

TEST(SiteFile, FittingsMustNotOverlapOnTheChannelNorElsewhere) {
  const std::string second = "[[channel.fitting]]\nsensor = \"TX-1\"\nfrom = 2018-06-01\n";
  const auto own = problemsIn(changed("  [[channel.routine]]", second + "[[channel.routine]]"));
  EXPECT_THAT(own, ElementsAre(HasSubstr("overlaps the one before it on the channel")));
  std::string elsewhere(kSite);
  elsewhere +=
      "[[channel]]\ntag = \"TT-102\"\nplace = \"Hall\"\n[[channel.setup]]\nfrom = 2018-03-01\n"
      "kind = \"discrete-output\"\n" +
      second;
  EXPECT_THAT(problemsIn(elsewhere), ElementsAre(HasSubstr("overlaps its fitting on \"TT-101\"")));
}

TEST(SiteFile, TruncatedAnywhereItIsReadOrRefusedInSentences) {
  for (std::size_t length = 0; length < kSite.size(); ++length) {
    const TempFile file(kSite.substr(0, length), "site.toml");
    try {
      const Register site = readSiteFile(file.path());
      EXPECT_THAT(registerFaults(site), IsEmpty()) << length;
    } catch (const InputError& error) {
      ASSERT_FALSE(error.problems().empty());
      for (const auto& problem : error.problems()) {
        EXPECT_GT(problem.where.line, 0) << length << ": " << problem.what;
        EXPECT_FALSE(problem.todo.empty());
      }
    }
  }
}

TEST(SiteFile, UnreadableFilesAreStorageTrouble) {
  EXPECT_THROW(readSiteFile("/nonexistent/site.toml"), StorageError);
  EXPECT_THROW(readSiteFile(testing::TempDir()), StorageError);
}

TEST(SiteFile, TheSamplesAreRead) {
  for (const auto* name : {"tiny/tiny.toml", "larkmead/larkmead.toml"}) {
    const auto file = std::filesystem::path(SPANWRIGHT_SOURCE_DIR) / "sample_sites" / name;
    EXPECT_EQ(joined(problemsOf([&] { EXPECT_FALSE(readSiteFile(file).channels.empty()); })), "");
  }
}

}  // namespace
}  // namespace spanwright::test
