// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/date_form.h"

#include <gtest/gtest.h>

#include <random>

namespace spanwright {
namespace {

struct Case {
  const char* form;
  const char* text;
  const char* moment;  // "" when it must be refused
};

class DateForms : public testing::TestWithParam<Case> {};

TEST_P(DateForms, ReadOrRefused) {
  const auto [form, text, moment] = GetParam();
  const auto parsed = DateForm::parse(form);
  ASSERT_TRUE(std::holds_alternative<DateForm>(parsed)) << std::get<std::string>(parsed);
  const auto read = std::get<DateForm>(parsed).read(text);
  EXPECT_EQ(read ? formatMoment(*read) : "", moment) << form << " <- " << text;
}

INSTANTIATE_TEST_SUITE_P(
    Table, DateForms,
    testing::Values(
        Case{"iso", "2024-02-29T08:30:00", "2024-02-29T08:30:00"},
        Case{"iso", " 2024-02-29 ", "2024-02-29T00:00:00"}, Case{"iso", "2023-02-29", ""},
        Case{"iso", "2024-02-29T08:30:00Z", ""},
        Case{"%d.%m.%Y %H:%M", "01.03.2024 08:30", "2024-03-01T08:30:00"},
        Case{"%d.%m.%Y %H:%M", "1.3.2024   8:05", "2024-03-01T08:05:00"},
        Case{"%d.%m.%Y %H:%M", "01.03.2024", ""}, Case{"%d.%m.%Y %H:%M", "01.03.2024 08:30:15", ""},
        Case{"%d.%m.%Y %H:%M", "31.04.2024 08:30", ""}, Case{"%d.%m.%Y %H:%M", "01.03.24 08:30", ""},
        Case{"%d.%m.%Y %H:%M", "01.03.2024 24:30", ""}, Case{"%d.%m.%Y %H:%M", "01.03.2024 08:60", ""},
        Case{"%d.%m.%Y", "00.03.2024", ""}, Case{"%d.%m.%Y", "x1.03.2024", ""}, Case{"%d.%m.%Y", "", ""},
        Case{"%m/%d/%Y %I:%M %p", "3/1/2024 12:15 AM", "2024-03-01T00:15:00"},
        Case{"%m/%d/%Y %I:%M %p", "3/1/2024 12:15 pm", "2024-03-01T12:15:00"},
        Case{"%m/%d/%Y %I:%M %p", "3/1/2024 1:15 PM", "2024-03-01T13:15:00"},
        Case{"%m/%d/%Y %I:%M %p", "3/1/2024 13:15 PM", ""}, Case{"%m/%d/%Y %I:%M %p", "3/1/2024 0:15 AM", ""},
        Case{"%d-%b-%Y", "07-MAR-2024", "2024-03-07T00:00:00"}, Case{"%d-%b-%Y", "07-Mrz-2024", ""},
        Case{"%Y%m%d%H%M%S", "20240307081530", "2024-03-07T08:15:30"}));

struct BadForm {
  const char* form;
  const char* says;
};
class BadDateForms : public testing::TestWithParam<BadForm> {};

TEST_P(BadDateForms, SayWhatIsWrong) {
  const auto parsed = DateForm::parse(GetParam().form);
  ASSERT_TRUE(std::holds_alternative<std::string>(parsed));
  EXPECT_NE(std::get<std::string>(parsed).find(GetParam().says), std::string::npos)
      << std::get<std::string>(parsed);
}

INSTANTIATE_TEST_SUITE_P(Table, BadDateForms,
                         testing::Values(BadForm{"%d.%m.%y", "%y is none of"},
                                         BadForm{"%d.%m", "a year (%Y)"},
                                         BadForm{"%d.%m.%b.%Y", "one of %m and %b"},
                                         BadForm{"%d.%m.%Y %I", "%p"}, BadForm{"%d.%m.%Y %M", "an hour"},
                                         BadForm{"%d.%d.%Y", "twice"}, BadForm{"%", "% "}));

TEST(DateForm, ReadsBackWhatWasWritten) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  const auto form = std::get<DateForm>(DateForm::parse("%d.%m.%Y %H:%M:%S"));
  const Moment from = parseMoment("1990-01-01").value();
  for (int i = 0; i < 2000; ++i) {
    const Moment moment =
        from + boost::posix_time::seconds(std::uniform_int_distribution<int>(0, 1'500'000'000)(random));
    const std::string iso = formatMoment(moment);
    const std::string text =
        iso.substr(8, 2) + "." + iso.substr(5, 2) + "." + iso.substr(0, 4) + " " + iso.substr(11);
    ASSERT_EQ(form.read(text), std::optional(moment)) << text;
  }
}

}  // namespace
}  // namespace spanwright
