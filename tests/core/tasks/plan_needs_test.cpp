// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/plan_needs.h"

#include <gmock/gmock.h>

#include "tests/core/tasks/visit_fixture.h"

namespace spanwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

class OfferedStandards : public test::VisitTest {
 protected:
  std::vector<std::string> offered(const char* tag, const std::vector<std::string>& lastUsed,
                                   const char* when = "2026-02-20T09:00") {
    return offeredStandards(std::get<VisitSheet>(openSheet(site_, tag, Subject::channel, test::moment(when))),
                            lastUsed);
  }
};

TEST_F(OfferedStandards, AreTheOnlyOnesThatReachTheSheetsValuesOnItsDay) {
  EXPECT_THAT(offered("TT-110", {}), ElementsAre("LC-2201"));
  EXPECT_THAT(offered("TT-110", {"VM-7", "TB-3"}), ElementsAre("LC-2201"))
      << "what is in hand serves nothing";
  // TB-3 ends at 200 degC, the sheet at 400; VM-7 measures the couple's mV.
  EXPECT_THAT(offered("TE-501", {"TB-3"}), ElementsAre("VM-7"));
  EXPECT_THAT(offered("TT-110", {"LC-2201"}, "2027-02-20T09:00"), IsEmpty()) << "none is valid then";
}

TEST_F(OfferedStandards, OfSeveralTheOneUsedLastOrNone) {
  Standard other = *site_.standard("LC-2201");
  other.serial = "LC-3000";
  site_.standards.push_back(other);
  site_.index();
  EXPECT_THAT(offered("TT-110", {}), IsEmpty()) << "nobody can know which";
  EXPECT_THAT(offered("TT-110", {"VM-7", "LC-3000"}), ElementsAre("LC-3000"));
  EXPECT_THAT(offered("TT-110", {"LC-3000", "LC-2201"}), ElementsAre("LC-3000")) << "the first in hand";
  EXPECT_THAT(offered("TT-110", {"LC-2201", "LC-3000"}), ElementsAre("LC-2201"));
}

}  // namespace
}  // namespace spanwright
