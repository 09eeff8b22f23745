// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/table.h"

#include <gtest/gtest.h>

#include <sstream>

namespace spanwright {
namespace {

TEST(Table, AlignsByShownWidthNotByBytes) {
  Table table({{"unit"}, {"value", Table::Align::right}});
  table.add({"°C", "1.25"});
  table.add({"m³/h", "100"});
  std::ostringstream out;
  table.print(out);
  EXPECT_EQ(out.str(),
            "unit  value\n"
            "----  -----\n"
            "°C     1.25\n"
            "m³/h    100\n");
}

TEST(Table, LeavesNoBlanksAtLineEnds) {
  Table table({{"a"}, {"b"}});
  table.add({"long cell", ""});
  std::ostringstream out;
  table.print(out);
  EXPECT_EQ(out.str(), "a          b\n---------  -\nlong cell\n");
}

TEST(ShownWidth, CountsCodePoints) {
  EXPECT_EQ(shownWidth(""), 0U);
  EXPECT_EQ(shownWidth("µS/cm"), 5U);
  EXPECT_EQ(shownWidth("±0.1 °C"), 7U);
}

}  // namespace
}  // namespace spanwright
