// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/labels.h"

#include <gmock/gmock.h>

#include "tests/core/tasks/record_fixture.h"

namespace spanwright::test {
namespace {

using testing::HasSubstr;

class LabelsOfChannels : public RecordTest {
 protected:
  LabelProposal of(const char* tag, Subject subject = Subject::channel) {
    return labelsFor(store(), {{tag, subject}}, moment("2026-03-01T12:00")).at(0);
  }
};

TEST_F(LabelsOfChannels, SayWhatTheLatestPassingCalibrationProves) {
  add(visitTo("TT-110", "2025-02-20T09:30", {"0.0", "75.0", "150.0"}));
  const CalibrationId last = add(visitTo("TT-110", "2026-02-20T09:30", {"0.0", "75.0", "150.0"}));
  const LabelProposal made = of("TT-110");
  ASSERT_TRUE(made.label) << made.why;
  EXPECT_EQ(made.label->tag, "TT-110");
  EXPECT_EQ(made.label->subject, "");
  EXPECT_EQ(made.label->calibrated, "2026-02-20");
  EXPECT_EQ(made.label->due, "") << "the site has not agreed to it";
  EXPECT_EQ(made.label->certificate, "");
  EXPECT_EQ(labelText(*made.label), "TT-110\ncalibrated 2026-02-20");
  const std::string number = store().issueCertificate(last).number;
  EXPECT_EQ(labelText(*of("TT-110").label), "TT-110\ncalibrated 2026-02-20\ncertificate " + number);
}

TEST_F(LabelsOfChannels, CarryTheDueDateWhereThatWasAgreed) {
  site_.site.dueDateAgreed = true;
  add(visitTo("TT-110", "2026-02-20T09:30", {"0.0", "75.0", "150.0"}));
  // A year later, Saturday 2027-02-20; the working day before is the 19th.
  EXPECT_EQ(of("TT-110").label->due, "2027-02-19");
}

TEST_F(LabelsOfChannels, ThereIsNoneForWhatIsNotProven) {
  EXPECT_EQ(of("TT-110").why, "it has no calibration yet");
  EXPECT_EQ(of("TT-999").why, "it is not in the register");
  add(visitTo("TT-110", "2025-02-20T09:30", {"0.0", "75.0", "150.0"}));
  add(visitTo("TT-110", "2026-02-20T09:30", {"0.0", "79.0", "150.0"}));
  EXPECT_FALSE(of("TT-110").label);
  EXPECT_THAT(of("TT-110").why, HasSubstr("did not pass as left"));
}

TEST_F(LabelsOfChannels, ThereIsNoneForAnotherSetupOrSensor) {
  Sensor other = site_.sensors.front();
  other.serial = "TX-7000";
  site_.sensors.push_back(other);
  add(visitTo("TT-110", "2026-02-20T09:30", {"0.0", "75.0", "150.0"}));
  SetupVersion next = site_.channels[3].setups.back();
  next.version = 2;
  next.inForceFrom = moment("2026-02-25T08:00");
  store().addSetup("TT-110", next);
  EXPECT_THAT(of("TT-110").why, HasSubstr("its setup was changed since calibration"));
  ProposedVisit loop = visitTo("TT-101", "2026-02-20T09:30", {"0.0", "75.0", "150.0"}, {}, {"TB-3"});
  loop.subject = Subject::loop;
  add(loop);
  ASSERT_TRUE(of("TT-101", Subject::loop).label) << of("TT-101", Subject::loop).why;
  EXPECT_EQ(of("TT-101", Subject::loop).label->subject, "loop");
  store().addFitting("TT-101", {"TX-7000", moment("2026-02-26T08:00"), std::nullopt});
  EXPECT_THAT(of("TT-101", Subject::loop).why, HasSubstr("its sensor was changed since calibration"));
}

TEST_F(LabelsOfChannels, AChannelHasOneForEachRoutine) {
  EXPECT_EQ(routinesOf(store().site(), "TT-101").size(), 3U);
  EXPECT_TRUE(routinesOf(store().site(), "TT-999").empty());
}

}  // namespace
}  // namespace spanwright::test
