// SPDX-License-Identifier: GPL-3.0-or-later
//
// A new setup and another sensor on a channel.
#include <fmt/format.h>

#include <algorithm>

#include "core/record/register_rules.h"
#include "core/tasks/register_parts.h"
#include "core/tasks/status.h"

namespace spanwright {

namespace {

/// The setup in the fields as the channel's next version; what is wrong with it goes to the reader.
SetupVersion nextSetup(const Register& site, const Channel& channel, FieldReader& reader) {
  SetupVersion setup = readSetupVersion(reader);
  setup.version = channel.setups.empty() ? 1 : channel.setups.back().version + 1;
  if (!reader.sound()) {
    return setup;
  }
  if (!channel.setups.empty() && setup.inForceFrom <= channel.setups.back().inForceFrom) {
    reader.wrong("from",
                 fmt::format("the setup in force began {}, not before this one",
                             formatMoment(channel.setups.back().inForceFrom)),
                 "give a later moment, a setup is only followed by another");
  }
  for (const Routine& routine : channel.routines) {
    if (const Plan* plan = site.plan(routine.plan)) {
      for (const Problem& each : planFitProblems(*plan, routine.subject, setup.setup)) {
        reader.wrong("kind", fmt::format("the {} {}", text(routine.subject), each.what),
                     "change the routine under the channel's form first");
      }
    }
  }
  return setup;
}

SetupEffect effectOf(const Store& store, const Channel& channel, SetupVersion setup) {
  SetupEffect effect;
  const Date today = store.clock().localNow().date();
  const auto passing = store.latestPassing();
  for (const DueItem& item : dueList(store, today)) {
    if (item.channel != channel.tag || item.due.state == DueState::unproven || !item.due.provenOn ||
        item.subject == Subject::sensor) {  // a sensor's proof does not rest on the channel's setup
      continue;
    }
    LostProof lost{item.subject, 0, *item.due.provenOn, item.due.dueOn};
    for (const CalibrationSummary& each : passing) {
      if (each.channel == channel.tag && each.subject == item.subject &&
          each.performed.date() == lost.provenOn) {
        lost.calibration = std::max(lost.calibration, each.id);
      }
    }
    effect.lost.push_back(lost);
  }
  for (const CalibrationSummary& each : store.calibrations(channel.tag)) {
    effect.judgedBefore += each.performed >= setup.inForceFrom ? 1 : 0;
  }
  effect.setup = std::move(setup);
  return effect;
}

}  // namespace

std::string setupPreview(const TypedFields& fields, std::string_view prefix) {
  FieldReader reader(fields, std::string(prefix));
  const SetupVersion setup = readSetupVersion(reader);
  if (!reader.sound()) {
    return {};
  }
  const std::string ends = describeEnds(setup.setup);
  const std::string line = describe(setup.setup);
  return ends.empty() ? line : fmt::format("{} ({})", ends, line);
}

SetupEffect setupEffect(const Store& store, std::string_view channel, const TypedFields& fields) {
  FieldReader reader(fields);
  const Channel& on = channelOf(store.site(), channel);
  SetupVersion setup = nextSetup(store.site(), on, reader);
  throwIfAny(reader);
  return effectOf(store, on, std::move(setup));
}

SetupEffect putSetupInForce(Store& store, std::string_view channel, const TypedFields& fields,
                            std::string_view by) {
  store.refresh();
  FieldReader reader(fields);
  checkEditor(store, by, RegisterKind::channel, reader);
  const Channel& on = channelOf(store.site(), channel);
  FieldReader typed(fields);
  SetupVersion setup = nextSetup(store.site(), on, typed);
  reader.take(typed.problems());
  if (setup.remark.empty()) {
    reader.wrong("remark", "it is not said why the setup changes",
                 "give the reason, it stands in the journal");
  }
  throwIfAny(reader);
  SetupEffect effect = effectOf(store, on, std::move(setup));
  const ActingAs acting(store, by);
  store.addSetup(channel, effect.setup);
  return effect;
}

void fitSensor(Store& store, std::string_view channel, const TypedFields& fields, std::string_view by) {
  store.refresh();
  const Register& site = store.site();
  const Channel& on = channelOf(site, channel);
  FieldReader reader(fields);
  checkEditor(store, by, RegisterKind::channel, reader);
  const Fitting fitting = readFitting(reader);
  if (!fitting.sensor.empty() && site.sensor(fitting.sensor) == nullptr) {
    reader.wrong("sensor", fmt::format("the sensor \"{}\" is not described", fitting.sensor),
                 "choose one of the sensors");
  }
  if (reader.sound()) {
    for (const Channel& each : site.channels) {
      for (const Fitting& known : each.fittings) {
        const bool here = each.tag == on.tag;
        if ((here || known.sensor == fitting.sensor) && known.from >= fitting.from) {
          reader.wrong("from",
                       fmt::format("{} was fitted to {} at {}, not before this", known.sensor, each.tag,
                                   formatMoment(known.from)),
                       "give a later moment");
        } else if (here && known.sensor == fitting.sensor && !known.until) {
          reader.wrong("sensor", fmt::format("{} is fitted there already", fitting.sensor),
                       "nothing needs changing");
        }
      }
    }
  }
  throwIfAny(reader);
  const ActingAs acting(store, by);
  store.addFitting(channel, fitting);
}

}  // namespace spanwright
