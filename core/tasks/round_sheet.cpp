// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/round_sheet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "core/certificate/figures.h"
#include "core/certificate/rule_words.h"
#include "core/signal/rtd.h"
#include "core/signal/thermocouple.h"
#include "core/tasks/in_force.h"
#include "core/tasks/plan_needs.h"
#include "core/tasks/rounds.h"
#include "core/tasks/visit.h"
#include "core/tasks/visit_before.h"
#include "core/tasks/walking_order.h"
#include "core/units/number.h"

namespace spanwright {
namespace {

constexpr int kMoreDecimals = 3;  // that show a limit in full

std::string withUnit(double value, Unit unit) {
  const std::string symbol(displaySymbol(unit));
  return plainNumber(value) + (symbol.empty() ? "" : " " + symbol);
}

/// What a box of mV or ohm has to be set to for a simulated temperature.
std::string atTerminals(const VisitSheet& sheet, const TestPoint& point) {
  if (sheet.subject != Subject::channel || point.role != PointRole::value) {
    return {};
  }
  const auto celsius = convert(point.nominalApplied, point.appliedUnit, Unit::celsius);
  const auto* rtd = std::get_if<RtdSetup>(&sheet.setup->setup.kind);
  const auto couple = sheet.couple();
  if (!celsius || (rtd == nullptr && !couple)) {
    return {};
  }
  const Expected signal = rtd != nullptr ? rtdOhms(rtd->element, Celsius{*celsius})
                                         : thermocoupleMillivolts(*couple, Celsius{*celsius});
  const auto* value = std::get_if<double>(&signal);
  constexpr int kDecimals = 3;
  return value == nullptr ? std::string()
                          : fmt::format(" ({}\u00A0{})", formatFixed(*value, kDecimals),
                                        displaySymbol(rtd != nullptr ? Unit::ohm : Unit::millivolt));
}

RoundSheetPoint pointOf(const VisitSheet& sheet, const TestPoint& point,
                        const std::optional<Calibration>& last) {
  RoundSheetPoint line;
  line.label = point.label;
  const bool ramp = point.role == PointRole::switchOn || point.role == PointRole::switchOff ||
                    point.role == PointRole::alarmTrip || point.role == PointRole::alarmReset;
  line.applied = (ramp ? "ramp past " : "") + withUnit(point.nominalApplied, point.appliedUnit) +
                 atTerminals(sheet, point);
  const ChannelSetup* setup = sheet.subject == Subject::sensor ? nullptr : &sheet.setup->setup;
  const Evaluation found =
      expectPoint(point, *sheet.model, setup, sheet.plan->tolerance, point.nominalApplied);
  const auto* result = std::get_if<PointResult>(&found);
  if (result == nullptr) {
    return line;
  }
  const double step = sheet.model->stepAt(result->expected);
  const int decimals = step > 0.0 ? decimalsFor(step) : 3;
  const auto shown = [&](double value) {
    return formatFixed(value, fullDecimals(value, decimals, decimals + kMoreDecimals));
  };
  line.expected = shown(result->expected);
  line.low = std::isfinite(result->limits.low) ? shown(result->expected + result->limits.low) : "";
  line.high = std::isfinite(result->limits.high) ? shown(result->expected + result->limits.high) : "";
  if (last) {
    for (const Reading& reading : last->standingAsLeft()) {
      if (reading.point.label == point.label && !reading.skipped()) {
        line.previous =
            fmt::format("{} ({})", shown(reading.indicated), signedText(reading.error(), decimals));
      }
    }
  }
  return line;
}

std::vector<LabelledText> factsOf(const VisitSheet& sheet) {
  const Channel& channel = *sheet.channel;
  const Plan& plan = *sheet.plan;
  std::vector<LabelledText> facts{{"Place", channel.place}, {"Terminal", channel.terminal}};
  facts.push_back({"Setup", fmt::format("{}: {}", sheet.setup->version, describe(sheet.setup->setup))});
  if (sheet.sensor != nullptr) {
    facts.push_back({"Sensor", fmt::format("{} ({}), {}", sheet.sensor->serial, sheet.sensor->description,
                                           describe(sheet.sensor->range))});
  }
  facts.push_back({"Plan", fmt::format("{} rev. {}: {}", plan.code, plan.revision, plan.title)});
  facts.push_back({"Procedure", plan.procedure});
  facts.push_back({"Tolerance", describe(plan.tolerance, sheet.model->readingSpan().unit)});
  if (plan.decisionRule.basis != GuardBasis::none) {
    facts.push_back({"Decision", ruleText(plan.decisionRule)});
  }
  if (sheet.subject == Subject::channel && sheet.couple()) {
    facts.push_back({"mV in brackets", "emf of the couple, its reference junction at 0 degC"});
  }
  if (plan.settleSeconds > 0.0) {
    facts.push_back({"Settling", fmt::format("wait {} s at each point", formatShortest(plan.settleSeconds))});
  }
  return facts;
}

RoundSheetItem itemOf(const Store& store, const RoundStop& stop, Date day) {
  RoundSheetItem item;
  item.tag = stop.channel;
  item.subject = text(stop.subject);
  if (const Channel* channel = store.site().channel(stop.channel)) {
    item.title = channel->title;
    item.facts = {{"Place", channel->place}, {"Terminal", channel->terminal}};
  }
  auto opened = openSheet(store.site(), stop.channel, stop.subject, endOf(day));
  if (const auto* problem = std::get_if<Problem>(&opened)) {
    item.problem = sentence(*problem);
    return item;
  }
  const VisitSheet& sheet = std::get<VisitSheet>(opened);
  item.facts = factsOf(sheet);
  item.cautions = sheet.plan->cautions;
  item.readingUnit = displaySymbol(sheet.model->readingSpan().unit);
  item.junction = sheet.couple().has_value();
  const std::optional<Calibration> last = visitBefore(store, subjectOf(sheet), sheet.when);
  item.previous =
      last ? fmt::format("as left on {}, calibration {}", formatDate(last->performed.date()), last->id)
           : fmt::format("none yet under setup {}", sheet.setup->version);
  for (const TestPoint& point : sheet.points) {
    item.points.push_back(pointOf(sheet, point, last));
  }
  return item;
}

std::string standardText(const Standard& standard, Date day) {
  const StandardCertificate* certificate = standardUse(standard, day).certificate;
  return fmt::format("{}, {} ({}){}", standard.serial, standard.description, standard.location,
                     certificate == nullptr
                         ? std::string()
                         : fmt::format(": certificate {}, valid until {}", certificate->number,
                                       formatDate(certificate->validUntil)));
}

/// For each quantity the standards that can be used that day.
std::vector<std::string> takeFor(const Register& site, const std::vector<RoundStop>& stops, Date day) {
  const std::vector<UsableDays> usable = usableDays(site, {day, day}, {});
  std::vector<std::string> lines;
  for (const RoundStop& stop : stops) {
    const auto opened = openSheet(site, stop.channel, stop.subject, endOf(day));
    const auto* sheet = std::get_if<VisitSheet>(&opened);
    if (sheet == nullptr) {
      continue;
    }
    for (const StandardNeed& need : standardNeeds(*sheet, usable, {})) {
      std::vector<std::string> serials;
      for (const StandardNeed::Able& able : need.able) {
        serials.push_back(site.standards[able.standard].serial);
      }
      std::string line = fmt::format(
          "{}: {}", need.what,
          serials.empty() ? "no standard is valid that day" : fmt::format("{}", fmt::join(serials, " or ")));
      if (std::find(lines.begin(), lines.end(), line) == lines.end()) {
        lines.push_back(std::move(line));
      }
    }
  }
  return lines;
}

RoundSheet sheetFor(const Store& store, std::string title, std::vector<RoundStop> stops, Date day) {
  const Register& site = store.site();
  const auto ranks = channelRanks(site);
  const auto rankOf = [&](const RoundStop& stop) {
    const auto at = ranks.find(stop.channel);
    return std::pair(at == ranks.end() ? static_cast<int>(ranks.size()) : at->second, stop.subject);
  };
  std::stable_sort(stops.begin(), stops.end(),
                   [&](const RoundStop& a, const RoundStop& b) { return rankOf(a) < rankOf(b); });
  RoundSheet sheet;
  sheet.title = std::move(title);
  sheet.site = site.site.name;
  sheet.note = site.site.note;
  sheet.programVersion = "Spanwright " SPANWRIGHT_VERSION;
  for (const RoundStop& stop : stops) {
    sheet.items.push_back(itemOf(store, stop, day));
  }
  sheet.take = takeFor(site, stops, day);
  return sheet;
}

}  // namespace

RoundSheet sheetOfRound(const Store& store, std::int64_t round, Date day) {
  for (const Round& each : store.rounds()) {
    if (each.id != round) {
      continue;
    }
    std::vector<RoundStop> open;
    for (const StopProgress& stop : roundProgress(store, each)) {
      if (stop.calibration == 0) {
        open.push_back(stop.stop);
      }
    }
    if (open.empty()) {
      throw InputError(fmt::format("every channel of round {} is visited", round),
                       "there is no sheet to print");
    }
    return sheetFor(store, fmt::format("Round {}: {}", each.id, each.name), std::move(open), day);
  }
  throw InputError(fmt::format("there is no round {}", round), "\"spanwright rounds\" lists them");
}

RoundSheet sheetOfChannels(const Store& store, const std::vector<std::string>& tags, Date day) {
  std::vector<RoundStop> stops;
  std::vector<Problem> problems;
  std::set<std::string> seen;
  for (const std::string& tag : tags) {
    const Channel* channel = store.site().channel(tag);
    if (channel == nullptr) {
      problems.push_back(
          {{}, fmt::format("there is no channel \"{}\" in the register", tag), "correct the tag"});
      continue;
    }
    if (channel->routines.empty()) {
      problems.push_back(
          {{}, fmt::format("{} has no routine", tag), "describe what is calibrated on it first"});
    }
    for (const Routine& routine : channel->routines) {
      if (seen.insert(fmt::format("{} {}", text(routine.subject), tag)).second) {
        stops.push_back({tag, routine.subject});
      }
    }
  }
  if (!problems.empty()) {
    throw InputError(std::move(problems));
  }
  return sheetFor(store, "Channels to visit", std::move(stops), day);
}

std::vector<RoundSheet> sheetsOfPlan(const Store& store, const SitePlan& plan, int dayCount) {
  const Register& site = store.site();
  std::vector<RoundSheet> sheets;
  for (std::size_t i = 0; i < plan.stops.size();) {
    const PlannedStop& head = plan.stops[i];
    std::vector<RoundStop> stops;
    std::set<std::string> standards;
    for (; i < plan.stops.size() && plan.stops[i].day == head.day && plan.stops[i].person == head.person;
         ++i) {
      for (const PlannedSubject& visit : plan.stops[i].visits) {
        stops.push_back({visit.channel, visit.subject});
      }
      standards.insert(plan.stops[i].standards.begin(), plan.stops[i].standards.end());
    }
    if (head.day >= plan.from + boost::gregorian::days(dayCount)) {
      break;
    }
    RoundSheet sheet =
        sheetFor(store, "Visits planned for " + formatDate(head.day), std::move(stops), head.day);
    sheet.day = formatDate(head.day);
    const Person* person = site.person(head.person);
    sheet.technician = person == nullptr ? head.person : person->name;
    sheet.take.clear();
    for (const std::string& serial : standards) {
      sheet.take.push_back(standardText(*site.standard(serial), head.day));
    }
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

RoundSheet sheetOfStop(const Store& store, const PlannedStop& stop) {
  return std::move(sheetsOfPlan(store, {stop.day, stop.day, {stop}, {}, {}}, 1).front());
}

}  // namespace spanwright
