// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/typed_register.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/record/register_rules.h"

namespace spanwright {

namespace {

constexpr Role kRoles[] = {Role::technician, Role::planner, Role::reviewer, Role::administrator};
constexpr Subject kSubjects[] = {Subject::channel, Subject::sensor, Subject::loop};
// Common practice, no source: 95 % limits, and nothing concluded from fewer than ten outcomes.
constexpr double kConfidence = 0.95;
constexpr int kLeastOutcomes = 10;

ToleranceSide readSide(FieldReader reader) {
  return {reader.number("absolute", 0.0), reader.number("percent_of_reading", 0.0, Unit::percent),
          reader.number("percent_of_span", 0.0, Unit::percent), reader.number("counts", 0.0, Unit::count)};
}

void put(TypedFields& into, const std::string& prefix, const ToleranceSide& side) {
  into[prefix + "absolute"] = typedKnown(side.absolute);
  into[prefix + "percent_of_reading"] = typedKnown(side.percentOfReading);
  into[prefix + "percent_of_span"] = typedKnown(side.percentOfSpan);
  into[prefix + "counts"] = typedKnown(side.counts);
}

DecisionRule readRule(FieldReader& reader) {
  DecisionRule rule;
  const std::string word = reader.text("rule");
  if (word == "guard-band") {
    rule.basis = GuardBasis::factor;
    rule.factor = reader.needNumber("factor", "factor of the guard band");
  } else if (word == "false-accept") {
    rule.basis = reader.yes("any_spread") ? GuardBasis::anyPopulation : GuardBasis::specificRisk;
    rule.falseAcceptLimit = reader.needNumber("limit", "limit of false acceptance");
  }
  return rule;
}

}  // namespace

SiteInfo readSiteInfo(FieldReader& reader) {
  SiteInfo site;
  site.code = reader.text("code");
  site.name = reader.text("name");
  site.address = reader.lines("address");
  site.issuer = reader.text("issuer");
  site.issuerAddress = reader.lines("issuer_address");
  site.customer = reader.text("customer");
  site.customerContact = reader.text("customer_contact");
  site.note = reader.text("note");
  site.dueDateAgreed = reader.yes("due_date_agreed");
  reader.take(siteProblems(site));
  return site;
}

TypedFields fieldsOf(const SiteInfo& site) {
  return {{"code", site.code},
          {"name", site.name},
          {"address", typedLines(site.address)},
          {"issuer", site.issuer},
          {"issuer_address", typedLines(site.issuerAddress)},
          {"customer", site.customer},
          {"customer_contact", site.customerContact},
          {"note", site.note},
          {"due_date_agreed", typedYes(site.dueDateAgreed)}};
}

CalendarRules readCalendar(FieldReader& reader) {
  CalendarRules calendar;
  calendar.workingWeekdays.clear();
  for (std::size_t day = 0; day < kWeekdayCodes.size(); ++day) {
    if (reader.yes(fmt::format("working.{}", kWeekdayCodes[day]))) {
      calendar.workingWeekdays.push_back(static_cast<int>(day));
    }
  }
  calendar.closed = reader.days("closed");
  calendar.dueSoonDays = reader.whole("due_soon_days", calendar.dueSoonDays);
  calendar.graceDays = reader.whole("grace_days", calendar.graceDays);
  calendar.earlyDays = reader.whole("early_days", calendar.earlyDays);
  reader.take(calendarProblems(calendar));
  return calendar;
}

TypedFields fieldsOf(const CalendarRules& calendar) {
  TypedFields fields{{"closed", typedDays(calendar.closed)},
                     {"due_soon_days", std::to_string(calendar.dueSoonDays)},
                     {"grace_days", std::to_string(calendar.graceDays)},
                     {"early_days", std::to_string(calendar.earlyDays)}};
  for (const int day : calendar.workingWeekdays) {
    fields[fmt::format("working.{}", kWeekdayCodes.at(static_cast<std::size_t>(day)))] = "yes";
  }
  return fields;
}

Person readPerson(FieldReader& reader) {
  Person person;
  person.login = reader.text("login");
  person.name = reader.text("name");
  for (const Role role : kRoles) {
    if (reader.yes(fmt::format("role.{}", text(role)))) {
      person.roles.push_back(role);
    }
  }
  const std::size_t before = reader.problems().size();
  person.hoursPerWeek = reader.maybeNumber("hours_per_week", Unit::hour);
  person.away = reader.days("away");
  if (reader.problems().size() == before) {
    reader.take(personProblems(person));
  }
  if (person.name.empty()) {
    reader.wrong("name", "the person has no name", "give it, certificates tell who signed");
  }
  return person;
}

TypedFields fieldsOf(const Person& person) {
  TypedFields fields{{"login", person.login},
                     {"name", person.name},
                     {"hours_per_week", typedNumber(person.hoursPerWeek)},
                     {"away", typedDays(person.away)}};
  for (const Role role : person.roles) {
    fields[fmt::format("role.{}", text(role))] = "yes";
  }
  return fields;
}

Place readPlace(FieldReader& reader) {
  Place place;
  place.name = reader.text("name");
  place.parentPath = reader.text("within");
  place.path = place.parentPath.empty() ? place.name : place.parentPath + " / " + place.name;
  place.order = reader.whole("order", 0);
  if (place.name.find(" / ") != std::string::npos) {
    reader.wrong("name", fmt::format("the name \"{}\" holds \" / \", which parts places", place.name),
                 "add the outer place first, then the one within it");
  } else {
    for (const Problem& each : placePathProblems(place.path)) {
      reader.wrong("name", each.what, each.todo);
    }
  }
  return place;
}

TypedFields fieldsOf(const Place& place) {
  return {{"name", place.name}, {"within", place.parentPath}, {"order", std::to_string(place.order)}};
}

Standard readStandard(FieldReader& reader) {
  Standard standard;
  standard.serial = reader.text("serial");
  standard.maker = reader.text("maker");
  standard.model = reader.text("model");
  standard.description = reader.text("description");
  standard.location = reader.text("location");
  reader.take(standardProblems(standard));
  return standard;
}

TypedFields fieldsOf(const Standard& standard) {
  return {{"serial", standard.serial},
          {"maker", standard.maker},
          {"model", standard.model},
          {"description", standard.description},
          {"location", standard.location}};
}

Plan readPlan(FieldReader& reader) {
  Plan plan;
  plan.code = reader.text("code");
  plan.revision = reader.text("revision");
  plan.title = reader.text("title");
  plan.procedure = reader.text("procedure");
  const std::size_t before = reader.problems().size();
  plan.scheme.percents = reader.numbers("points");
  plan.scheme.order = parseRunOrder(reader.text("order")).value_or(RunOrder::up);
  plan.scheme.repeats = reader.whole("repeats", 1);
  plan.scheme.alarms = reader.yes("alarms");
  plan.scheme.loss = reader.yes("loss");
  plan.tolerance.plus = readSide(reader.below("tolerance"));
  plan.tolerance.minus = reader.yes("minus") ? readSide(reader.below("minus")) : plan.tolerance.plus;
  plan.adjustLimit = reader.number("adjust_limit", plan.adjustLimit);
  plan.decisionRule = readRule(reader);
  plan.settleSeconds = reader.number("settle_seconds", 0.0, Unit::second);
  plan.minutes = reader.number("minutes", plan.minutes, Unit::minute);
  plan.cautions = reader.lines("cautions");
  plan.junctionUncertainty = reader.maybeNumber("reference_junction_uncertainty", Unit::none);
  plan.leadHalfWidth = reader.maybeNumber("lead_resistance_half_width", Unit::ohm);
  for (const auto& [field, what] : {std::pair("revision", "revision"), {"title", "title"}}) {
    if (!reader.has(field)) {
      reader.wrong(field, fmt::format("the plan has no {}", what), "give it, it is printed on certificates");
    }
  }
  if (reader.problems().size() == before) {
    reader.take(planProblems(plan));
  }
  return plan;
}

TypedFields fieldsOf(const Plan& plan) {
  const DecisionRule& rule = plan.decisionRule;
  TypedFields fields{{"code", plan.code},
                     {"revision", plan.revision},
                     {"title", plan.title},
                     {"procedure", plan.procedure},
                     {"points", typedNumbers(plan.scheme.percents)},
                     {"order", std::string(text(plan.scheme.order))},
                     {"repeats", std::to_string(plan.scheme.repeats)},
                     {"alarms", typedYes(plan.scheme.alarms)},
                     {"loss", typedYes(plan.scheme.loss)},
                     {"minus", typedYes(!(plan.tolerance.plus == plan.tolerance.minus))},
                     {"adjust_limit", typedNumber(plan.adjustLimit)},
                     {"rule", rule.basis == GuardBasis::none     ? "simple"
                              : rule.basis == GuardBasis::factor ? "guard-band"
                                                                 : "false-accept"},
                     {"any_spread", typedYes(rule.basis == GuardBasis::anyPopulation)},
                     {"factor", typedNumber(rule.factor)},
                     {"limit", typedNumber(rule.falseAcceptLimit)},
                     {"settle_seconds", typedKnown(plan.settleSeconds)},
                     {"minutes", typedNumber(plan.minutes)},
                     {"cautions", typedLines(plan.cautions)},
                     {"reference_junction_uncertainty", typedNumber(plan.junctionUncertainty)},
                     {"lead_resistance_half_width", typedNumber(plan.leadHalfWidth)}};
  put(fields, "tolerance.", plan.tolerance.plus);
  put(fields, "minus.", plan.tolerance.minus);
  return fields;
}

IntervalPolicy readInterval(FieldReader& reader) {
  IntervalPolicy policy;
  policy.code = reader.text("code");
  policy.kind = parsePolicyKind(reader.text("policy")).value_or(PolicyKind::fixed);
  const std::size_t before = reader.problems().size();
  policy.months = reader.whole("months", 0);
  policy.days = reader.whole("days", 0);
  if (reader.has("months") == reader.has("days")) {
    reader.wrong("months", "months and days are both missing or both given", "give exactly one of them");
  }
  policy.minimumDays = reader.whole("minimum_days", 0);
  policy.maximumDays = reader.whole("maximum_days", 0);
  if (policy.kind == PolicyKind::staircase) {
    policy.lengthen = reader.needNumber("lengthen", "factor of a step up");
    policy.shorten = reader.needNumber("shorten", "factor of a step down");
  } else if (policy.kind == PolicyKind::reliability) {
    policy.target = reader.needNumber("target", "probability aimed at");
    policy.confidence = reader.number("confidence", kConfidence);
    policy.leastOutcomes = reader.whole("least_outcomes", kLeastOutcomes);
  }
  if (reader.problems().size() == before) {
    reader.take(intervalProblems(policy));
  }
  return policy;
}

TypedFields fieldsOf(const IntervalPolicy& policy) {
  return {{"code", policy.code},
          {"policy", std::string(text(policy.kind))},
          {"months", typedKnown(policy.months)},
          {"days", typedKnown(policy.months > 0 ? 0 : policy.days)},
          {"minimum_days", typedKnown(policy.minimumDays)},
          {"maximum_days", typedKnown(policy.maximumDays)},
          {"lengthen", typedKnown(policy.lengthen)},
          {"shorten", typedKnown(policy.shorten)},
          {"target", typedKnown(policy.target)},
          {"confidence", typedKnown(policy.confidence)},
          {"least_outcomes", typedKnown(policy.leastOutcomes)}};
}

Channel readChannel(FieldReader& reader) {
  Channel channel;
  channel.tag = reader.text("tag");
  channel.place = reader.text("place");
  channel.terminal = reader.text("terminal");
  channel.title = reader.text("title");
  channel.retired = reader.yes("retired");
  for (const Subject subject : kSubjects) {
    FieldReader routine = reader.below(fmt::format("routine.{}", text(subject)));
    if (routine.has("plan") || routine.has("interval")) {
      channel.routines.push_back({subject, routine.text("plan"), routine.text("interval")});
    }
  }
  return channel;
}

TypedFields fieldsOf(const Channel& channel) {
  TypedFields fields{{"tag", channel.tag},
                     {"place", channel.place},
                     {"terminal", channel.terminal},
                     {"title", channel.title},
                     {"retired", typedYes(channel.retired)}};
  for (const Routine& routine : channel.routines) {
    fields[fmt::format("routine.{}.plan", text(routine.subject))] = routine.plan;
    fields[fmt::format("routine.{}.interval", text(routine.subject))] = routine.interval;
  }
  return fields;
}

Fitting readFitting(FieldReader& reader) {
  Fitting fitting;
  fitting.sensor = reader.text("sensor");
  if (fitting.sensor.empty()) {
    reader.wrong("sensor", "no sensor is chosen", "choose which is fitted");
  }
  fitting.from = reader.needMoment("from", "moment from which it is fitted").value_or(Moment());
  return fitting;
}

}  // namespace spanwright
