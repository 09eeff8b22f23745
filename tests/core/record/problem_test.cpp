// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/problem.h"

#include <gtest/gtest.h>

namespace spanwright {
namespace {

TEST(Sentence, LeavesOutWhatIsNotKnown) {
  const struct {
    Problem problem;
    const char* sentence;
  } cases[] = {
      {{{"site.toml", 12, 8, ""}, "\"mB\" is no unit", "write one of bar, mbar"},
       "site.toml:12:8: \"mB\" is no unit; write one of bar, mbar."},
      {{{"site.toml", 12, 0, ""}, "no tag", ""}, "site.toml:12: no tag."},
      {{{"h.csv", 3, 2, "Tag"}, "\"X\" is not in the register", "mend the tag"},
       "h.csv:3:2: column \"Tag\": \"X\" is not in the register; mend the tag."},
      {{{"", 7, 0, ""}, "empty", ""}, "line 7: empty."},
      {{{}, "nothing was applied", "type a value"}, "nothing was applied; type a value."},
  };
  for (const auto& one : cases) {
    EXPECT_EQ(sentence(one.problem), one.sentence);
  }
}

TEST(InputError, KeepsEveryProblemAndSaysHowMany) {
  const InputError error({{{"a", 1, 0, ""}, "first", ""}, {{"a", 2, 0, ""}, "second", ""}});
  EXPECT_EQ(error.problems().size(), 2U);
  EXPECT_STREQ(error.what(), "a:1: first. (2 mistakes in all)");
}

}  // namespace
}  // namespace spanwright
