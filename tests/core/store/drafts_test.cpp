// SPDX-License-Identifier: GPL-3.0-or-later
#include "samples.h"

namespace spanwright {
namespace {

using test::at;
using test::everything;

class Drafts : public testing::Test {
 protected:
  static Draft sample() {
    Draft d;
    d.channel = "TT-101";
    d.subject = Subject::loop;
    d.person = "adam";
    d.started = at("2026-11-20T09:30:00");
    d.setupVersion = 7;
    d.standards = {"LC-2201", "AA-0001", "LC-2201"};
    d.conditions = {21.5, {}, "draughty", 23.4};
    d.cautionsConfirmed = true;
    d.adjustment = {true, false, "zero trimmed"};
    d.remarks = "in haste";
    return d;
  }
  const test::Folder folder;
  const std::filesystem::path file = folder / "site.record";
  Store store = Store::create(file, test::sampleRegister());
};

TEST_F(Drafts, ComeBackWholeWithTheirValuesInOrder) {
  Draft d = sample();
  d.id = store.saveDraft(d);
  const DraftValue left{Phase::asLeft, 1, "4 mA", "0.0", ""};
  const DraftValue second{Phase::asFound, 2, "", "", "not reachable"};
  const DraftValue firstValue{Phase::asFound, 1, "4,000 mA", "0,1", ""};
  for (const DraftValue& value : {left, second, firstValue}) {
    store.saveDraftValue(d.id, value);
  }
  d.values = {firstValue, second, left};
  const Store other = Store::open(file);
  ASSERT_TRUE(other.draft(d.id).has_value());
  EXPECT_EQ(everything(*other.draft(d.id)), everything(d));
  EXPECT_EQ(other.drafts().size(), 1U);
}

TEST_F(Drafts, TheHeaderIsReplacedAndTheValuesStay) {
  Draft d = sample();
  d.id = store.saveDraft(d);
  store.saveDraftValue(d.id, {Phase::asFound, 1, "", "1", ""});
  d.standards = {"AA-0001"};
  d.remarks = "with care";
  d.conditions.referenceJunction = 31.5;
  d.person.clear();
  d.started = {};
  d.values = {{Phase::asFound, 5, "ignored", "", ""}};
  EXPECT_EQ(store.saveDraft(d), d.id);
  d.values = {{Phase::asFound, 1, "", "1", ""}};
  EXPECT_EQ(everything(*store.draft(d.id)), everything(d));
}

TEST_F(Drafts, AValueTypedAgainReplacesTheOldOne) {
  const auto id = store.saveDraft(sample());
  store.saveDraftValue(id, {Phase::asFound, 1, "a", "1", ""});
  store.saveDraftValue(id, {Phase::asFound, 1, "b", "", "skipped"});
  const auto values = store.draft(id)->values;
  ASSERT_EQ(values.size(), 1U);
  EXPECT_EQ(values[0].appliedText, "b");
  EXPECT_EQ(values[0].skipReason, "skipped");
}

TEST_F(Drafts, AreRemovedWithTheirPartsAndTheirNumberIsNotGivenAgain) {
  const auto id = store.saveDraft(sample());
  store.saveDraftValue(id, {Phase::asFound, 1, "", "1", ""});
  store.removeDraft(id);
  store.removeDraft(id);  // gone is gone
  EXPECT_EQ(store.draft(id), std::nullopt);
  EXPECT_TRUE(store.drafts().empty());
  const auto next = store.saveDraft(sample());
  EXPECT_NE(next, id);
  EXPECT_TRUE(store.draft(next)->values.empty());
}

TEST_F(Drafts, WhatIsGoneOrUnknownIsRefused) {
  Draft d = sample();
  d.id = 12;
  EXPECT_NE(test::inputRefusal([&] { store.saveDraft(d); }).find("draft 12 is no longer"), std::string::npos);
  EXPECT_NE(test::inputRefusal([&] { store.saveDraftValue(12, {}); }).find("draft 12 is no longer"),
            std::string::npos);
  d = sample();
  d.channel = "no such";
  test::inputRefusal([&] { store.saveDraft(d); });
  d = sample();
  d.standards = {"no such"};
  test::inputRefusal([&] { store.saveDraft(d); });
  EXPECT_TRUE(store.drafts().empty());
}

TEST_F(Drafts, EnteringAndRemovingIsOneChange) {
  const auto id = store.saveDraft(sample());
  {
    const Store::Transaction transaction(store);
    store.add(test::plainCalibration("TT-101", "2026-01-01"));
    store.removeDraft(id);
  }
  EXPECT_EQ(store.calibrationCount(), 0);
  EXPECT_EQ(store.drafts().size(), 1U);
}

}  // namespace

}  // namespace spanwright
