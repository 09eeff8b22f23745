// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/labels.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/tasks/issue.h"

namespace spanwright {
namespace {

/// What keeps the calibration from standing for what is in force, or nothing.
std::string whyNot(const Channel& channel, const CalibrationSummary& last, Moment now) {
  const SetupVersion* setup = setupInForce(channel, now);
  const Fitting* fitting = fittingAt(channel, now);
  if (!proves(last.state)) {
    return fmt::format("calibration {} is {}", last.id, text(last.state));
  }
  if (last.leftVerdict != Verdict::pass) {
    return fmt::format("calibration {} did not pass as left", last.id);
  }
  if (last.subject != Subject::sensor && (setup == nullptr || setup->version != last.setupVersion)) {
    return fmt::format("its setup was changed since calibration {}", last.id);
  }
  if (last.subject != Subject::channel && (fitting == nullptr || fitting->sensor != last.sensor)) {
    return fmt::format("its sensor was changed since calibration {}", last.id);
  }
  return {};
}

LabelProposal labelFor(const Store& store, const RoundStop& stop, Moment now) {
  LabelProposal proposal{stop, std::nullopt, {}};
  const Channel* channel = store.site().channel(stop.channel);
  if (channel == nullptr) {
    proposal.why = "it is not in the register";
    return proposal;
  }
  const auto summaries = store.calibrations(stop.channel);
  const auto last = std::find_if(summaries.rbegin(), summaries.rend(), [&](const CalibrationSummary& each) {
    return each.subject == stop.subject && counts(each.state);
  });
  if (last == summaries.rend()) {
    proposal.why = "it has no calibration yet";
    return proposal;
  }
  proposal.why = whyNot(*channel, *last, now);
  if (!proposal.why.empty()) {
    return proposal;
  }
  ChannelLabel& label = proposal.label.emplace();
  label.tag = stop.channel;
  label.subject = stop.subject == Subject::channel ? std::string() : std::string(text(stop.subject));
  label.calibrated = formatDate(last->performed.date());
  if (store.site().site.dueDateAgreed) {
    if (const auto due = dueAfterCalibration(store, last->id)) {
      label.due = formatDate(*due);
    }
  }
  if (const auto issued = store.issuedCertificate(last->id)) {
    label.certificate = issued->number;
  }
  return proposal;
}

}  // namespace

std::vector<LabelProposal> labelsFor(const Store& store, const std::vector<RoundStop>& stops, Moment now) {
  std::vector<LabelProposal> all;
  all.reserve(stops.size());
  for (const RoundStop& stop : stops) {
    all.push_back(labelFor(store, stop, now));
  }
  return all;
}

std::vector<RoundStop> routinesOf(const Register& site, std::string_view channel) {
  std::vector<RoundStop> stops;
  if (const Channel* found = site.channel(channel)) {
    for (const Routine& routine : found->routines) {
      stops.push_back({found->tag, routine.subject});
    }
  }
  return stops;
}

}  // namespace spanwright
