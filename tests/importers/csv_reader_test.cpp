// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/csv_reader.h"

#include <gtest/gtest.h>

#include <random>

#include "tests/importers/files.h"

namespace spanwright::test {
namespace {

struct Read {
  int line;
  std::vector<std::string> cells;
  std::string fault;
  int faultColumn;
  bool operator==(const Read&) const = default;
};

std::ostream& operator<<(std::ostream& out, const Read& read) {
  out << read.line << " [";
  for (const auto& cell : read.cells) {
    out << testing::PrintToString(cell) << " ";
  }
  return out << "] " << read.fault << "@" << read.faultColumn;
}

std::vector<Read> readAll(std::string_view text, char separator = ',') {
  const TempFile file(text, "table.csv");
  TextSource source(file.path(), Encoding::utf8);
  CsvReader reader(source, separator);
  std::vector<Read> all;
  CsvRecord record;
  while (reader.next(record)) {
    all.push_back(
        {record.line, {record.cells.begin(), record.cells.end()}, record.fault, record.faultColumn});
  }
  return all;
}

Read row(int line, std::vector<std::string> cells) {
  return {line, std::move(cells), "", 0};
}

TEST(CsvReader, SplitsCells) {
  EXPECT_EQ(readAll("a,b,c\n1,,3\n"), (std::vector{row(1, {"a", "b", "c"}), row(2, {"1", "", "3"})}));
  EXPECT_EQ(readAll("a;b"), readAll("a;b\n"));
  EXPECT_EQ(readAll("a;b\r\nc;d\r\n", ';'), (std::vector{row(1, {"a", "b"}), row(2, {"c", "d"})}));
  EXPECT_EQ(readAll("a,b\rc,d\r"), (std::vector{row(1, {"a", "b"}), row(2, {"c", "d"})}));
  EXPECT_EQ(readAll("a\n\nb\n"), (std::vector{row(1, {"a"}), row(2, {""}), row(3, {"b"})}));
  EXPECT_EQ(readAll(",\n"), (std::vector{row(1, {"", ""})}));
}

TEST(CsvReader, UnderstandsQuotes) {
  EXPECT_EQ(readAll("\"a,b\",\"c \"\"d\"\"\",e\n"), (std::vector{row(1, {"a,b", "c \"d\"", "e"})}));
  EXPECT_EQ(readAll("\"\",\"\"\"\"\n"), (std::vector{row(1, {"", "\""})}));
  EXPECT_EQ(readAll("\"a\nb\",c\nd,e\n"), (std::vector{row(1, {"a\nb", "c"}), row(3, {"d", "e"})}));
  EXPECT_EQ(readAll("\"a\r\nb\"\r\nd\r\n"), (std::vector{row(1, {"a\r\nb"}), row(3, {"d"})}));
  EXPECT_EQ(readAll("2\" pipe,3\n"), (std::vector{row(1, {"2\" pipe", "3"})}));
  EXPECT_EQ(readAll("\"a\""), (std::vector{row(1, {"a"})}));
  EXPECT_EQ(readAll("a,\"b\"\"\""), (std::vector{row(1, {"a", "b\""})}));
  EXPECT_EQ(readAll("\"a\",b\r"), (std::vector{row(1, {"a", "b"})}));
}

TEST(CsvReader, AStrayQuoteCostsItsOwnLineOnly) {
  const auto unclosed = readAll("x,\"b\nc,d\ne,f\n");
  ASSERT_EQ(unclosed.size(), 3U);
  EXPECT_NE(unclosed[0].fault.find("never closed"), std::string::npos);
  EXPECT_EQ(unclosed[0].faultColumn, 2);
  EXPECT_EQ(unclosed[1], row(2, {"c", "d"}));
  EXPECT_EQ(unclosed[2], row(3, {"e", "f"}));
  const auto stray = readAll("\"a\"b,c\nd,e\n");
  ASSERT_EQ(stray.size(), 2U);
  EXPECT_NE(stray[0].fault.find("follows the closing quote"), std::string::npos);
  EXPECT_EQ(stray[1], row(2, {"d", "e"}));
  // The quote opened in line 1 meets the one opened in line 2: only line 1 is wrong.
  const auto two = readAll("\"a,b\n\"c\",d\n");
  ASSERT_EQ(two.size(), 2U);
  EXPECT_EQ(two[0].line, 1);
  EXPECT_FALSE(two[0].fault.empty());
  EXPECT_EQ(two[1], row(2, {"c", "d"}));
}

TEST(CsvReader, NamesBytesThatAreNoText) {
  const auto nul = readAll(std::string_view("a,b\nc,d\0e\nf,g\n", 14));
  ASSERT_EQ(nul.size(), 3U);
  EXPECT_EQ(nul[1].line, 2);
  EXPECT_EQ(nul[1].faultColumn, 2);
  EXPECT_NE(nul[1].fault.find("NUL"), std::string::npos);
  EXPECT_EQ(nul[2], row(3, {"f", "g"}));
  const auto latin = readAll(
      "a,b\nok,\xC3\xBC\nbad,21 \xB0"
      "C\n");
  ASSERT_EQ(latin.size(), 3U);
  EXPECT_EQ(latin[1], row(2, {"ok", "\xC3\xBC"}));
  EXPECT_EQ(latin[2].faultColumn, 2);
  EXPECT_NE(latin[2].fault.find("byte 4 of the cell (0xB0) is not UTF-8"), std::string::npos)
      << latin[2].fault;
  // Overlong forms, halves of pairs and what lies beyond Unicode are not UTF-8 either.
  for (const auto* bad : {"\xC0\xAF", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\xE2\x82", "\xFF"}) {
    EXPECT_FALSE(readAll(std::string("x,") + bad + "\n")[0].fault.empty());
  }
}

TEST(CsvReader, AHugeLineIsOneSentenceAndReadingGoesOn) {
  std::string text = "a,b\n";
  text.append(3U * 1024U * 1024U, 'x');
  text += "\nc,d\n";
  const auto all = readAll(text);
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[1].line, 2);
  EXPECT_NE(all[1].fault.find("longer than"), std::string::npos);
  EXPECT_EQ(all[2], row(3, {"c", "d"}));
}

TEST(CsvReader, TheLongestLineIsStillRead) {
  const std::string longest(CsvReader::kLongestRecord, 'x');
  EXPECT_EQ(readAll(longest + "\ny\n"), (std::vector{row(1, {longest}), row(2, {"y"})}));
  EXPECT_FALSE(readAll(longest + "x\ny\n")[0].fault.empty());
}

TEST(CsvReader, AQuoteNeverClosedInALargeFileDoesNotSwallowIt) {
  std::string text = "\"open\n";
  const int lines = 200'000;
  for (int i = 0; i < lines; ++i) {
    text += "0123456789,abc\n";
  }
  const auto all = readAll(text);
  ASSERT_EQ(all.size(), static_cast<std::size_t>(lines) + 1);
  EXPECT_FALSE(all[0].fault.empty());
  EXPECT_EQ(all.back(), row(lines + 1, {"0123456789", "abc"}));
}

TEST(CsvReader, SkipsLinesWhateverIsInThem) {
  const TempFile file("Report \"of\nthe \"year\na,b\n");
  TextSource source(file.path(), Encoding::detect);
  CsvReader reader(source, ',');
  EXPECT_TRUE(reader.skipLine());
  EXPECT_TRUE(reader.skipLine());
  CsvRecord record;
  ASSERT_TRUE(reader.next(record));
  EXPECT_EQ(record.line, 3);
  EXPECT_EQ(record.cells, (std::vector<std::string_view>{"a", "b"}));
  EXPECT_FALSE(reader.skipLine());
}

TEST(CsvReader, ReadsBackWhatWasWritten) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  const std::vector<std::string> pieces{"a",    ",", "\"", "\n",   " ",   "\xC2\xB0",
                                        "12.5", ";", "",   "\r\n", "\"\""};
  const auto pick = [&random](std::size_t below) {
    return std::uniform_int_distribution<std::size_t>(0, below - 1)(random);
  };
  for (int round = 0; round < 300; ++round) {
    std::vector<Read> expected;
    std::string text;
    int line = 1;
    for (std::size_t rows = 1 + pick(30); rows > 0; --rows) {
      Read read{line++, {}, "", 0};
      for (std::size_t cells = 1 + pick(6); cells > 0; --cells) {
        std::string cell;
        std::string written;
        for (std::size_t parts = pick(5); parts > 0; --parts) {
          const auto& piece = pieces[pick(pieces.size())];
          cell += piece;
          line += piece.find('\n') != std::string::npos ? 1 : 0;
        }
        for (const char c : cell) {
          written += c == '"' ? std::string("\"\"") : std::string(1, c);
        }
        text += (read.cells.empty() ? "\"" : ",\"") + written + "\"";
        read.cells.push_back(std::move(cell));
      }
      text += pick(2) == 0 ? "\n" : "\r\n";
      expected.push_back(std::move(read));
    }
    ASSERT_EQ(readAll(text), expected) << testing::PrintToString(text);
  }
}

}  // namespace
}  // namespace spanwright::test
