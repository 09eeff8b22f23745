// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/find_channels.h"

#include <gmock/gmock.h>

#include "status_fixture.h"

namespace spanwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// Tag, place, what it measures, what is fitted.
struct Described {
  const char* tag;
  const char* place;
  const char* title;
  std::vector<std::string> sensors = {};
  bool retired = false;
};

Register siteWith(const std::vector<Described>& channels) {
  Register site = status_test::smallSite({});
  site.sensors.push_back({"PT 100/7", "Invented", "RTD", "Fühler im Kühlkreis", {}});
  for (const Described& each : channels) {
    Channel channel = status_test::channelWith(each.tag, status_test::currentInput(100.0));
    channel.place = each.place;
    channel.title = each.title;
    channel.retired = each.retired;
    for (const std::string& serial : each.sensors) {
      channel.fittings.push_back({serial, status_test::moment("2018-03-01T08:00"), {}});
    }
    site.channels.push_back(channel);
  }
  return site;
}

const std::vector<Described> kSite{
    {"PT-12", "Hall / Cabinet 3", "Mash tun pressure", {"TX-1"}},
    {"TT-120", "Hall / Cabinet 3", "Kühlwasser Vorlauf", {"TX-2"}},
    {"TT-12", "Hall / Cabinet 1", "Mash tun temperature"},
    {"TT-121", "Yard", "Old outlet 12", {}, true},
    {"FT-7", "Yard", "Steam 100% \"wet\" flow_rate", {"PT 100/7"}},
    {"LS-4", "Yard / TT-12 skid", "Level"},
};

class Finding : public testing::Test {
 protected:
  std::vector<std::string> tags(std::string_view typed) const { return finder.find(typed, 100).tags; }
  const ChannelFinder finder{siteWith(kSite)};
};

TEST_F(Finding, PutsTheTagFirstThenWhatBeginsWithItThenWhatHoldsIt) {
  EXPECT_THAT(tags("tt-12"), ElementsAre("TT-12", "TT-120", "TT-121", "LS-4"));
  // Holds: in the order of tags. The retired one comes last of its kind.
  EXPECT_THAT(tags("12"), ElementsAre("PT-12", "TT-12", "TT-120", "TT-121", "LS-4"));
  EXPECT_THAT(tags("T"), testing::Contains("FT-7"));
  EXPECT_EQ(tags("t").front(), "TT-12");
}

TEST_F(Finding, MayLeaveTheMarksOfATagOut) {
  EXPECT_THAT(tags("tt120"), ElementsAre("TT-120"));
  EXPECT_EQ(tags("TT12").front(), "TT-12");
}

TEST_F(Finding, LooksAtSerialNumbersPlacesAndWords) {
  EXPECT_THAT(tags("tx-2"), ElementsAre("TT-120"));
  EXPECT_THAT(tags("TX"), ElementsAre("PT-12", "TT-120"));
  EXPECT_THAT(tags("cabinet 3"), ElementsAre("PT-12", "TT-120"));
  EXPECT_THAT(tags("mash"), ElementsAre("PT-12", "TT-12"));
  EXPECT_THAT(tags("head"), ElementsAre("PT-12", "TT-120")) << "the model of what is fitted";
}

TEST_F(Finding, WantsEveryWordAndRanksByTheOneThatTellsMost) {
  EXPECT_THAT(tags("mash tt"), ElementsAre("TT-12", "PT-12")) << "the other by its transmitter";
  EXPECT_THAT(tags("yard 12"), ElementsAre("TT-121", "LS-4"));
  EXPECT_THAT(tags("mash nowhere"), IsEmpty());
}

TEST_F(Finding, BeginningsOfWordsComeBeforeTheirMiddle) {
  EXPECT_THAT(tags("let"), ElementsAre("TT-121"));
  const ChannelFinder words(siteWith({{"A-1", "Yard", "outlet"}, {"B-1", "Yard", "letter"}}));
  EXPECT_THAT(words.find("let", 10).tags, ElementsAre("B-1", "A-1"));
}

TEST_F(Finding, TakesWhateverIsTyped) {
  EXPECT_THAT(tags("KÜHLWASSER"), ElementsAre("TT-120"));
  EXPECT_THAT(tags("kühl"), ElementsAre("FT-7", "TT-120"));
  EXPECT_THAT(tags("\"wet\""), ElementsAre("FT-7"));
  EXPECT_THAT(tags("100%"), ElementsAre("FT-7")) << "a percent sign stands for itself";
  EXPECT_THAT(tags("flow_rate"), ElementsAre("FT-7"));
  EXPECT_THAT(tags("flowXrate"), IsEmpty()) << "and so does a low line";
  EXPECT_THAT(tags("'; DROP TABLE channel; --"), IsEmpty());
  EXPECT_THAT(tags("*"), IsEmpty());
  EXPECT_THAT(tags(""), IsEmpty());
  EXPECT_THAT(tags(" \t\n "), IsEmpty());
  EXPECT_THAT(tags(std::string(300, 't')), IsEmpty());
  EXPECT_THAT(tags("\xC3"), testing::Not(testing::Contains("LS-4"))) << "half a letter";
  EXPECT_THAT(tags(std::string_view("tt\0-12", 6)), ElementsAre("TT-12", "TT-120", "TT-121", "PT-12", "LS-4"))
      << "no byte ends the words";
}

TEST_F(Finding, NeverFindsAcrossTwoParts) {
  EXPECT_THAT(tags("12pt12"), IsEmpty());
  EXPECT_THAT(tags("pressure1"), IsEmpty());
}

TEST_F(Finding, CountsAllAndHandsOutAsManyAsAsked) {
  const FoundChannels some = finder.find("t", 2);
  EXPECT_EQ(some.matched, tags("t").size());
  EXPECT_GT(some.matched, 2U);
  EXPECT_THAT(some.tags, ElementsAre("TT-12", "TT-120"));
}

TEST_F(Finding, AnEmptyRegisterHasNothing) {
  EXPECT_EQ(ChannelFinder(siteWith({})).find("tt", 10).matched, 0U);
}

}  // namespace
}  // namespace spanwright
