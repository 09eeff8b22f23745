// SPDX-License-Identifier: GPL-3.0-or-later
//
// The same history in every encoding, whole and damaged.
#include <gmock/gmock.h>

#include "tests/importers/files.h"

namespace spanwright::test {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

// "°" and "µ" are in every one of the encodings; the sheet's only letters beyond ASCII.
constexpr std::u16string_view kHistory =
    u"Tag,Date,Phase,Point,Way,Applied,Reading,By,Note\n"
    u"TT-101,2024-03-01,as found,25,up,8.000 mA,37.5 °C,mt,5 µm\n";

std::string utf8(std::u16string_view text) {
  std::string out;
  for (const char16_t c : text) {
    if (c < 0x80) {
      out += static_cast<char>(c);
    } else {
      out += static_cast<char>(0xC0 | (c >> 6));
      out += static_cast<char>(0x80 | (c & 0x3F));
    }
  }
  return out;
}
std::string latin1(std::u16string_view text) {
  std::string out;
  for (const char16_t c : text) {
    out += static_cast<char>(c);
  }
  return out;
}
std::string utf16(std::u16string_view text, bool bigEndian) {
  std::string out;
  for (const char16_t c : text) {
    const char high = static_cast<char>(c >> 8);
    const char low = static_cast<char>(c & 0xFF);
    out += bigEndian ? high : low;
    out += bigEndian ? low : high;
  }
  return out;
}

std::string mappingFor(std::string_view encoding) {
  return "encoding = \"" + std::string(encoding) + "\"" + std::string(kLongMapping);
}

struct Case {
  const char* name;
  const char* encoding;
  std::string file;
};
class Encodings : public testing::TestWithParam<Case> {};

TEST_P(Encodings, GiveTheSameRow) {
  const Sink sink = readHistory(mappingFor(GetParam().encoding), GetParam().file);
  EXPECT_EQ(sink.said(), "");
  ASSERT_THAT(sink.rows, SizeIs(1));
  EXPECT_EQ(sink.rows[0].typed.indicatedText,
            "37.5 \xC2\xB0"
            "C");
  EXPECT_EQ(sink.rows[0].remarks,
            "Note: 5 \xC2\xB5"
            "m");
}

INSTANTIATE_TEST_SUITE_P(
    All, Encodings,
    testing::Values(Case{"Utf8", "utf-8", utf8(kHistory)}, Case{"Utf8Detected", "detect", utf8(kHistory)},
                    Case{"Utf8Marked", "utf-8", "\xEF\xBB\xBF" + utf8(kHistory)},
                    Case{"Utf8MarkedDetected", "detect", "\xEF\xBB\xBF" + utf8(kHistory)},
                    Case{"Utf16Le", "utf-16le", utf16(kHistory, false)},
                    Case{"Utf16LeDetected", "detect", utf16(kHistory, false)},
                    Case{"Utf16LeMarked", "utf-16le", "\xFF\xFE" + utf16(kHistory, false)},
                    Case{"Utf16LeMarkedDetected", "detect", "\xFF\xFE" + utf16(kHistory, false)},
                    Case{"Utf16Be", "utf-16be", utf16(kHistory, true)},
                    Case{"Utf16BeDetected", "detect", utf16(kHistory, true)},
                    Case{"Utf16BeMarked", "detect", "\xFE\xFF" + utf16(kHistory, true)},
                    Case{"Latin1", "latin-1", latin1(kHistory)}),
    [](const auto& each) { return std::string(each.param.name); });

TEST(Encoding, Latin1IsNeverGuessed) {
  const Sink sink = readHistory(mappingFor("detect"), latin1(kHistory));
  EXPECT_THAT(sink.rows, SizeIs(0));
  EXPECT_THAT(sink.said(),
              HasSubstr("2:7 Reading: byte 6 of the cell (0xB0) is not UTF-8; if the file is Latin-1, set "
                        "encoding = \"latin-1\" in the mapping"));
}

TEST(Encoding, AMarkGoesBeforeWhatTheMappingSays) {
  const Sink sink = readHistory(mappingFor("utf-8"), "\xFF\xFE" + utf16(kHistory, false));
  EXPECT_EQ(sink.said(), readHistory(mappingFor("utf-16le"), utf16(kHistory, false)).said());
  EXPECT_FALSE(sink.rows.empty());
}

TEST(Encoding, Utf32IsRefused) {
  EXPECT_THAT(
      joined(problemsOf([] { readHistory(mappingFor("detect"), std::string("\xFF\xFE\0\0T\0\0\0", 8)); })),
      HasSubstr("UTF-32"));
}

TEST(Encoding, HalfAPairIsNamedWhereItStands) {
  std::u16string text(kHistory);
  text.insert(text.find(u"37.5"), 1, char16_t{0xD800});
  const Sink sink = readHistory(mappingFor("utf-16le"), utf16(text, false));
  EXPECT_THAT(sink.said(), HasSubstr("2:7 Reading: the cell holds what UTF-16LE does not have, at byte 1"));
}

TEST(Encoding, CharactersAcrossBlocksAreKeptWhole) {
  // Longer than a block of the reader, with characters of two bytes at every offset.
  std::u16string text = u"Tag,Date,Phase,Point,Way,Applied,Reading,By,Note\n";
  const int rows = 9000;
  for (int i = 0; i < rows; ++i) {
    text += u"TT-101,2024-03-01,as found,25,up,8.000 mA,37.5 °C,mt,";
    text.append(static_cast<std::size_t>(i % 7), u'µ');
    text += u"\n";
  }
  for (const auto& [encoding, file] :
       {std::pair("utf-8", utf8(text)), std::pair("utf-16be", utf16(text, true)),
        std::pair("latin-1", latin1(text))}) {
    const Sink sink = readHistory(mappingFor(encoding), file);
    EXPECT_EQ(sink.said(), "") << encoding;
    ASSERT_THAT(sink.rows, SizeIs(rows)) << encoding;
    EXPECT_EQ(sink.rows[6].remarks.size(), std::string("Note: ").size() + 12) << encoding;
  }
}

TEST(Encoding, TruncatedAnywhereNothingBreaks) {
  for (const auto* encoding : {"detect", "utf-16le"}) {
    const std::string whole = utf16(kHistory, false);
    for (std::size_t length = 0; length < whole.size(); ++length) {
      try {
        const Sink sink = readHistory(mappingFor(encoding), whole.substr(0, length));
        EXPECT_LE(sink.rows.size(), 1U);
      } catch (const InputError& error) {
        EXPECT_FALSE(error.problems().empty());
      }
    }
  }
}

}  // namespace
}  // namespace spanwright::test
