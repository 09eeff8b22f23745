// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/calibration.h"

#include <algorithm>

namespace spanwright {

namespace {

bool sameReading(const Reading& a, const Reading& b) {
  if (a.point.sequence != b.point.sequence || a.skipReason != b.skipReason) {
    return false;
  }
  return a.skipped() || (a.applied == b.applied && a.indicated == b.indicated);
}

bool sameReadings(const std::vector<Reading>& a, const std::vector<Reading>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), sameReading);
}

bool sameStandards(const std::vector<UsedStandard>& a, const std::vector<UsedStandard>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const UsedStandard& x, const UsedStandard& y) {
    return x.serial == y.serial && x.certificate == y.certificate;
  });
}

}  // namespace

bool sameContent(const Calibration& a, const Calibration& b) {
  return a.channel == b.channel && a.subject == b.subject && a.setupVersion == b.setupVersion &&
         a.sensor == b.sensor && a.plan == b.plan && a.planRevision == b.planRevision &&
         a.performed == b.performed && a.person == b.person && sameStandards(a.standards, b.standards) &&
         a.conditions.temperature == b.conditions.temperature &&
         a.conditions.humidity == b.conditions.humidity && a.conditions.note == b.conditions.note &&
         a.conditions.referenceJunction == b.conditions.referenceJunction &&
         a.adjustment.adjusted == b.adjustment.adjusted && a.adjustment.repaired == b.adjustment.repaired &&
         a.adjustment.text == b.adjustment.text && a.remarks == b.remarks &&
         sameReadings(a.asFound, b.asFound) && sameReadings(a.asLeft, b.asLeft);
}

Verdict overall(const std::vector<Reading>& readings) {
  bool done = false, judged = true;
  for (const Reading& reading : readings) {
    if (reading.skipped()) {
      continue;
    }
    if (reading.verdict == Verdict::fail) {
      return Verdict::fail;
    }
    done = true;
    judged = judged && reading.verdict == Verdict::pass;
  }
  return done && judged ? Verdict::pass : Verdict::notJudged;
}

std::string_view text(Phase phase) {
  return phase == Phase::asFound ? "as found" : "as left";
}

}  // namespace spanwright
