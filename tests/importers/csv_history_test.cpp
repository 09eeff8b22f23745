// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <algorithm>
#include <random>
#include <set>

#include "core/units/number.h"
#include "tests/importers/files.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

std::string longFile(std::string_view rows) {
  return std::string(kLongHead) + std::string(rows);
}
constexpr std::string_view kGood = "TT-101,2024-03-01 08:30,as found,25,up,8.000,37.5,mt\n";

TEST(CsvHistory, ReadsTheLongLayout) {
  const Sink sink = readHistory(kLongMapping, longFile(kGood));
  EXPECT_EQ(sink.said(), "");
  ASSERT_THAT(sink.rows, SizeIs(1));
  const HistoryRow& row = sink.rows[0];
  EXPECT_EQ(row.channel, "TT-101");
  EXPECT_EQ(row.subject, Subject::channel);
  EXPECT_EQ(formatMoment(row.performed), "2024-03-01T08:30:00");
  EXPECT_EQ(row.phase, Phase::asFound);
  EXPECT_EQ(row.key, "25");
  EXPECT_EQ(row.direction, Direction::up);
  EXPECT_EQ(row.typed.appliedText, "8.000 mA");
  EXPECT_EQ(row.typed.indicatedText, "37.5 degC");
  EXPECT_EQ(row.person, "mt");
  EXPECT_FALSE(row.adjusted);
  EXPECT_EQ(row.line, 2);
  EXPECT_EQ(row.appliedColumn, 6);
  EXPECT_EQ(row.indicatedColumn, 7);
}

struct Mistake {
  const char* row;
  const char* says;  // whole list, without the last line end
};
class RowMistakes : public testing::TestWithParam<Mistake> {};

TEST_P(RowMistakes, AreNamedByLineColumnAndHeading) {
  const Sink sink =
      readHistory(kLongMapping, longFile(std::string(kGood) + GetParam().row + "\n" + std::string(kGood)));
  EXPECT_THAT(sink.said(), HasSubstr(GetParam().says));
  EXPECT_THAT(sink.rows, SizeIs(2));
  ASSERT_FALSE(sink.rejected.empty());
  for (const auto& rejection : sink.rejected) {
    EXPECT_THAT(rejection.lines, ElementsAre(3));
  }
}

INSTANTIATE_TEST_SUITE_P(
    Table, RowMistakes,
    testing::Values(
        Mistake{"TT-999,2024-03-01 08:30,as found,25,up,8.000,37.5,mt",
                "3:1 Tag: \"TT-999\" is neither a channel"},
        Mistake{"tt-101,2024-03-01 08:30,as found,25,up,8.000,37.5,mt", "3:1 Tag: \"tt-101\" is neither"},
        Mistake{",2024-03-01 08:30,as found,25,up,8.000,37.5,mt", "3:1 Tag: the channel is missing"},
        Mistake{"TT-101,01.03.2024,as found,25,up,8.000,37.5,mt",
                "3:2 Date: \"01.03.2024\" is not a date of the form"},
        Mistake{"TT-101,2024-02-30,as found,25,up,8.000,37.5,mt", "3:2 Date: \"2024-02-30\" is not a date"},
        Mistake{"TT-101,,as found,25,up,8.000,37.5,mt", "3:2 Date: the date is missing"},
        Mistake{"TT-101,2024-03-01,before,25,up,8.000,37.5,mt",
                "3:3 Phase: \"before\" is neither as found nor as left"},
        Mistake{"TT-101,2024-03-01,,25,up,8.000,37.5,mt",
                "3:3 Phase: whether as found or as left is missing"},
        Mistake{"TT-101,2024-03-01,as found,25,sideways,8.000,37.5,mt",
                "3:5 Way: \"sideways\" is neither up nor down"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8.0.0,37.5,mt", "3:6 Applied: \"8.0.0\" is not a number"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8.000,nan,mt", "3:7 Reading: \"nan\" is not a number"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8.000,37.5 furlong,mt",
                "3:7 Reading: \"37.5 furlong\" is not a number, or its unit"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8.000,\"37,5\",mt",
                "3:7 Reading: \"37,5\" does not have the decimal point that the mapping declares"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8.000,\"1,037.5\",mt",
                "3:7 Reading: \"1,037.5\" is not a number"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8.000,,mt", "3:7 Reading: the reading is missing"},
        Mistake{"TT-101,2024-03-01,as found,,up,,37.5,mt",
                "3:6 Applied: neither the point nor the applied value"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8.000,37.5,xx",
                "3:8 By: \"xx\" is neither a login nor a name"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8.000,37.5",
                "3:0 : the line has 7 cells, the headings are 8"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8,000,37,5,mt",
                "3:0 : the line has 10 cells, the headings are 8; a cell that holds \",\""},
        Mistake{"TT-101,2024-03-01,\"as found\"x,25,up,8.000,37.5,mt",
                "3:3 Phase: text follows the closing quote"},
        Mistake{"TT-101,2024-03-01,as found,\"25,up,8.000,37.5,mt",
                "3:4 Point: a quote opens a cell and is never closed"},
        Mistake{"TT-101,2024-03-01,as found,25,up,8.000,37.5 \xB0"
                "C,mt",
                "3:7 Reading: byte 6 of the cell (0xB0) is not UTF-8"}));

TEST(CsvHistory, EveryMistakeOfARowIsNamedAndTheVisitWithIt) {
  const Sink sink =
      readHistory(kLongMapping, longFile("TT-101,2024-03-01 08:30,as found,25,out,8.x,37.y,zz\n"));
  EXPECT_THAT(sink.rejected, SizeIs(4)) << sink.said();
  for (const auto& rejection : sink.rejected) {
    ASSERT_TRUE(rejection.visit.has_value());
    EXPECT_EQ(rejection.visit->channel, "TT-101");
    EXPECT_EQ(formatMoment(rejection.visit->performed), "2024-03-01T08:30:00");
  }
  const Sink unknown = readHistory(kLongMapping, longFile("TT-999,2024-03-01,as found,25,up,8,37,mt\n"));
  ASSERT_THAT(unknown.rejected, SizeIs(1));
  EXPECT_FALSE(unknown.rejected[0].visit.has_value());
}

TEST(CsvHistory, PassesOverBlankLinesRepeatedHeadingsAndSpareSeparators) {
  const Sink sink = readHistory(kLongMapping, longFile("\n,,,,,,,\n" + std::string(kLongHead) +
                                                       "TT-101,2024-03-01,as found,25,up,8.000,37.5,mt,,\n"));
  EXPECT_EQ(sink.said(), "");
  ASSERT_THAT(sink.rows, SizeIs(1));
  EXPECT_EQ(sink.rows[0].line, 5);
}

TEST(CsvHistory, ReadsDecimalCommasAliasesWordsNamesAndOwnUnits) {
  const std::string mapping = R"(
separator = ";"
decimal = "comma"
date_form = "%d.%m.%Y"
subject = "loop"
standards = ["LC-1"]
skip_lines = 1
[columns]
channel = "Tag"
performed = "Day"
time = "Time"
phase = "Phase"
point = "Point"
applied = "Applied"
reading = "Reading"
person = "By"
standards = "With"
adjusted = "Adj"
temperature = "Room"
humidity = "RH"
remarks = "Notes"
[units]
applied = "header"
reading = "header"
[values.phase]
as_found = ["vorher"]
as_left = ["nachher"]
[values.yes]
adjusted = ["ja"]
[values.skip]
reading = ["n/a"]
[values.person]
jf = ["JF1"]
[values.standards]
MM-2 = ["meter two"]
[aliases]
"TT101 old" = "TT-101"
)";
  const std::string mappingWithForm = mapping;
  const std::string csv =
      "Report of the year\n"
      "Tag;Day;Time;Phase;Point;Applied [mA];Reading (\xC2\xB0"
      "C);By;With;Adj;Room;RH;Notes;Order\n"
      "TT101 old;01.03.2024;;Vorher;25;8,000;37,5;Mara Tolland;;no;21,5;45;dry;4711\n"
      "TT-101;01.03.2024;;NACHHER;25;8,000 mA;310,65 K;JF1;LC-1 + MM-2;ja;70 \xC2\xB0"
      "F;;;\n"
      "TT-101;01.03.2024;;vorher;50;;n/a;mt;meter two;;;;;\n";
  const Sink sink = readHistory(mappingWithForm, csv);
  EXPECT_EQ(sink.said(), "");
  ASSERT_THAT(sink.rows, SizeIs(3));
  EXPECT_EQ(sink.rows[0].channel, "TT-101");
  EXPECT_EQ(sink.rows[0].subject, Subject::loop);
  EXPECT_EQ(sink.rows[0].typed.appliedText, "8,000 mA");
  EXPECT_EQ(sink.rows[0].typed.indicatedText, "37,5 degC");
  EXPECT_EQ(sink.rows[0].person, "mt");
  EXPECT_THAT(sink.rows[0].standards, ElementsAre("LC-1"));
  EXPECT_EQ(sink.rows[0].temperature, 21.5);
  EXPECT_EQ(sink.rows[0].remarks, "dry; Order: 4711");
  EXPECT_EQ(sink.rows[0].line, 3);
  EXPECT_EQ(sink.rows[1].phase, Phase::asLeft);
  EXPECT_EQ(sink.rows[1].typed.indicatedText, "310,65 K");
  EXPECT_THAT(sink.rows[1].standards, ElementsAre("LC-1", "MM-2"));
  EXPECT_EQ(sink.rows[1].person, "jf");
  EXPECT_TRUE(sink.rows[1].adjusted);
  EXPECT_NEAR(sink.rows[1].temperature.value(), 21.111, 0.001);
  EXPECT_EQ(sink.rows[2].typed.skipReason, "n/a");
  EXPECT_EQ(sink.rows[2].typed.indicatedText, "");
  EXPECT_THAT(sink.rows[2].standards, ElementsAre("MM-2"));
}

TEST(CsvHistory, JoinsDayAndTime) {
  const std::string mapping =
      "date_form = \"%d.%m.%Y %H:%M\"\nsubject = \"channel\"\nphase = \"as_left\"\nchannel = "
      "\"FT-102\"\n[columns]\n"
      "performed = \"Day\"\ntime = \"Time\"\npoint = \"P\"\nreading = \"R\"\n";
  const Sink sink = readHistory(mapping, "Day,Time,P,R\n01.03.2024,8:05,50,1\n");
  EXPECT_EQ(sink.said(), "");
  ASSERT_THAT(sink.rows, SizeIs(1));
  EXPECT_EQ(formatMoment(sink.rows[0].performed), "2024-03-01T08:05:00");
  EXPECT_EQ(sink.rows[0].channel, "FT-102");
  EXPECT_TRUE(sink.rows[0].adjusted) << "as-left readings of their own, and no column that says otherwise";
}

constexpr std::string_view kTwoBlocks = R"(
subject = "channel"
person = "mt"
[columns]
channel = "Tag"
performed = "Date"
point = "Point"
applied = "Applied"
reading_as_found = "Found"
reading_as_left = "Left"
)";

TEST(CsvHistory, ReadsBothReadingsOfALongRow) {
  const Sink sink = readHistory(kTwoBlocks,
                                "Tag,Date,Point,Applied,Found,Left\nTT-101,2024-03-01,0,4,0.2,0.0\n"
                                "TT-101,2024-03-01,50,12,75.1,\nTT-101,2024-03-01,100,20,,\n");
  ASSERT_THAT(sink.rows, SizeIs(3));
  EXPECT_EQ(sink.rows[0].phase, Phase::asFound);
  EXPECT_EQ(sink.rows[1].phase, Phase::asLeft);
  EXPECT_EQ(sink.rows[1].typed.indicatedText, "0.0");
  EXPECT_EQ(sink.rows[1].indicatedColumn, 6);
  EXPECT_EQ(sink.said(), "4:5 Found: the reading is missing\n");
}

constexpr std::string_view kWide = R"(
layout = "wide"
subject = "channel"
person = "mt"
[columns]
channel = "Tag"
performed = "Date"
[units]
applied = "mA"
[[readings]]
phase = "as_found"
point = "0"
direction = "up"
applied = "A0"
reading = "F0"
[[readings]]
phase = "as_found"
point = "100"
reading = "F100"
[[readings]]
phase = "as_left"
point = "0"
reading = "L0"
)";

TEST(CsvHistory, ReadsTheWideLayout) {
  const Sink sink = readHistory(kWide,
                                "Tag,Date,A0,F0,F100,L0,Note\nTT-101,2024-03-01,4.01,0.2,100.1 degC,,fine\n"
                                "TT-101,2024-03-02,4.00,,99,1,\nTT-101,2024-03-03,,,,,\n");
  ASSERT_THAT(sink.rows, SizeIs(2));
  EXPECT_EQ(sink.rows[0].typed.appliedText, "4.01 mA");
  EXPECT_EQ(sink.rows[0].direction, Direction::up);
  EXPECT_EQ(sink.rows[0].remarks, "Note: fine");
  EXPECT_EQ(sink.rows[1].key, "100");
  EXPECT_EQ(sink.rows[1].typed.appliedText, "");
  EXPECT_EQ(sink.rows[1].remarks, "") << "once a visit is enough";
  EXPECT_EQ(sink.said(),
            "3:4 F0: the reading is missing, though a value was applied\n4:0 : the line holds no reading\n");
}

TEST(CsvHistory, HeadingsThatDoNotFitAreRefusedTogether) {
  const auto problems =
      problemsOf([] { readHistory(kLongMapping, "Tag,Date,Date,Phase,Point,Way,Applied,By\n"); });
  EXPECT_THAT(
      problems,
      ElementsAre(HasSubstr("1:3 two columns are headed \"Date\""),
                  HasSubstr("1:0 no column is headed \"Reading\", which line 11 of the mapping names; "
                            "the headings are \"Tag\", \"Date\"")));
  std::string inHeading(kLongMapping);
  inHeading.replace(inHeading.find("\"mA\""), 4, "\"header\"");
  EXPECT_THAT(problemsOf([&] { readHistory(inHeading, kLongHead); }),
              ElementsAre(HasSubstr("1:6 the heading has no unit")));
  EXPECT_THAT(
      problemsOf([&] { readHistory(inHeading, "Tag,Date,Phase,Point,Way,Applied [mX],Reading,By\n"); }),
      ElementsAre(HasSubstr("1:6 \"mX\" is not a unit")));
}

TEST(CsvHistory, FilesThatAreNoTablesAreRefusedInASentence) {
  const auto says = [](std::string_view csv) {
    return joined(problemsOf([&] { readHistory(kLongMapping, csv); }));
  };
  EXPECT_THAT(says(""), HasSubstr("the file is empty"));
  EXPECT_THAT(says("\n\n"), HasSubstr("no heading line"));
  EXPECT_THAT(says("PK\x03\x04rest"), HasSubstr("spreadsheet"));
  EXPECT_THAT(says("sep=;\nTag\n"), HasSubstr("its separator is \";\""));
  EXPECT_THAT(says("Tag,\"Date\n"), HasSubstr("the heading line cannot be read"));
  const Register site = smallSite();
  Sink sink;
  const TempFile map(kLongMapping);
  EXPECT_THROW(readCsvHistory("/nonexistent.csv", *readCsvMapping(map.path()), site, sink), StorageError);
  EXPECT_THROW(readCsvHistory(testing::TempDir(), *readCsvMapping(map.path()), site, sink), StorageError);
}

TEST(CsvHistory, AColumnMayGiveTheReferenceJunction) {
  std::string mapping(kLongMapping);
  mapping.replace(mapping.find("[units]"), 0, "reference_junction = \"Terminals\"\n");
  std::string csv(kLongHead);
  csv.insert(csv.size() - 1, ",Terminals");
  const auto with = [](std::string_view cell) {
    std::string line(kGood);
    return line.insert(line.size() - 1, "," + std::string(cell));
  };
  csv += with("23.4") + with("") + with("77 degF") + with("85.5") + with("warm");
  const Sink sink = readHistory(mapping, csv);
  ASSERT_THAT(sink.rows, SizeIs(3));
  EXPECT_EQ(sink.rows[0].referenceJunction, 23.4);
  EXPECT_EQ(sink.rows[1].referenceJunction, std::nullopt);
  EXPECT_NEAR(sink.rows[2].referenceJunction.value(), 25.0, 1e-9);  // 77 degF is 25 degC exactly
  EXPECT_EQ(sink.said(),
            "5:9 Terminals: \"85.5\" is not between -40 and 85 degC\n"
            "6:9 Terminals: \"warm\" is not a number of degC\n");
}

TEST(CsvHistory, AHugeLineCostsItselfOnly) {
  std::string csv = longFile(kGood);
  csv.append(200U * 1024U * 1024U, '7');
  csv += "\n" + std::string(kGood);
  const Sink sink = readHistory(kLongMapping, csv);
  EXPECT_THAT(sink.rows, SizeIs(2));
  EXPECT_EQ(sink.said(), "3:0 : the line is longer than 1048576 bytes\n");
}

TEST(CsvHistory, TruncatedAnywhereEveryLineIsReadOrRejected) {
  const std::string whole =
      longFile(std::string(kGood) + "\"TT-101\",2024-03-01,\"as\"\" found\",50,up,12,\"75.\xC2\xB0\",mt\n" +
               std::string(kGood));
  const auto headEnd = kLongHead.size();
  for (std::size_t length = 0; length < whole.size(); ++length) {
    const std::string cut = whole.substr(0, length);
    try {
      const Sink sink = readHistory(kLongMapping, cut);
      EXPECT_GE(length + 1, headEnd);
      const auto dataLines = std::count(cut.begin(), cut.end(), '\n') - 1 + (cut.back() == '\n' ? 0 : 1);
      std::set<int> told;
      for (const auto& row : sink.rows) {
        told.insert(row.line);
      }
      for (const auto& rejection : sink.rejected) {
        told.insert(rejection.where.line);
      }
      EXPECT_EQ(static_cast<std::ptrdiff_t>(told.size()), std::max<std::ptrdiff_t>(dataLines, 0)) << cut;
    } catch (const InputError& error) {
      EXPECT_LT(length + 1, headEnd) << cut;
      EXPECT_FALSE(error.problems().empty());
    }
  }
  const Sink cut = readHistory(kLongMapping, longFile("TT-101,2024-03-01,as fou"));
  EXPECT_THAT(cut.said(), HasSubstr("2:0 : the line has 3 cells, the headings are 8; the file ends within "
                                    "it, so it may have been cut off"));
}

TEST(CsvHistory, TellsProgressAndStopsWhenAsked) {
  const TempFile map(kLongMapping);
  std::string csv(kLongHead);
  for (int i = 0; i < 20'000; ++i) {
    csv += kGood;
  }
  const TempFile data(csv);
  const Register site = smallSite();
  const auto mapping = readCsvMapping(map.path());
  Sink sink;
  std::vector<double> told;
  readCsvHistory(data.path(), *mapping, site, sink, [&](double done) {
    told.push_back(done);
    return true;
  });
  ASSERT_GE(told.size(), 3U);
  EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
  EXPECT_EQ(told.back(), 1.0);
  EXPECT_THAT(
      problemsOf([&] { readCsvHistory(data.path(), *mapping, site, sink, [](double) { return false; }); }),
      ElementsAre(HasSubstr("cancelled")));
}

TEST(CsvHistory, ReadsBackWhatWasWritten) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  const auto below = [&random](int most) { return std::uniform_int_distribution<int>(0, most - 1)(random); };
  const Moment from = parseMoment("2001-01-01").value();
  std::string csv(kLongHead);
  std::vector<HistoryRow> written;
  for (int i = 0; i < 5000; ++i) {
    HistoryRow row;
    row.channel = below(2) == 0 ? "TT-101" : "FT-102";
    row.performed = from + boost::posix_time::seconds(below(700'000'000));
    row.phase = below(2) == 0 ? Phase::asFound : Phase::asLeft;
    row.key = std::to_string(25 * below(5));
    row.direction = below(2) == 0 ? Direction::up : Direction::down;
    row.typed.appliedText = formatFixed(below(20'000) / 1000.0, below(4));
    row.typed.indicatedText = formatFixed((below(200'000) - 100'000) / 100.0, below(3));
    row.person = below(2) == 0 ? "mt" : "jf";
    csv += row.channel + "," + formatMoment(row.performed) + "," + std::string(text(row.phase)) + "," +
           row.key + "," + std::string(text(row.direction)) + "," + row.typed.appliedText + ",\"" +
           row.typed.indicatedText + "\"," + row.person + "\n";
    written.push_back(std::move(row));
  }
  const Sink sink = readHistory(kLongMapping, csv);
  EXPECT_EQ(sink.said(), "");
  ASSERT_EQ(sink.rows.size(), written.size());
  for (std::size_t i = 0; i < written.size(); ++i) {
    ASSERT_EQ(sink.rows[i].channel, written[i].channel);
    ASSERT_EQ(sink.rows[i].performed, written[i].performed);
    ASSERT_EQ(sink.rows[i].phase, written[i].phase);
    ASSERT_EQ(sink.rows[i].key, written[i].key);
    ASSERT_EQ(sink.rows[i].direction, written[i].direction);
    ASSERT_EQ(sink.rows[i].typed.appliedText, written[i].typed.appliedText + " mA");
    ASSERT_EQ(sink.rows[i].typed.indicatedText, written[i].typed.indicatedText + " degC");
    ASSERT_EQ(sink.rows[i].person, written[i].person);
    ASSERT_EQ(sink.rows[i].line, static_cast<int>(i) + 2);
  }
}

}  // namespace
}  // namespace spanwright::test
