// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>

#include "core/certificate/rule_words.h"
#include "core/record/reference_junction.h"
#include "core/units/number.h"
#include "core/units/quantity.h"

namespace spanwright {
namespace {

void add(std::vector<LabelledText>& texts, std::string label, std::string value) {
  if (!value.empty()) {
    texts.push_back({std::move(label), std::move(value)});
  }
}

/// "2026-11-20 09:30"
std::string shownMoment(Moment moment) {
  std::string text = formatMoment(moment);
  if (text.size() >= 16) {
    text = text.substr(0, 16);
    text[10] = ' ';
  }
  return text;
}

std::string words(std::string_view name) {
  std::string text(name);
  std::replace(text.begin(), text.end(), '-', ' ');
  return text;
}

std::string_view subjectText(Subject subject) {
  switch (subject) {
    case Subject::channel:
      return "the channel alone, without its sensor, at its terminals";
    case Subject::sensor:
      return "the sensor alone";
    case Subject::loop:
      break;
  }
  return "the loop end to end: sensor and channel together";
}

/// The setup's and tolerance's own lines are ASCII; a certificate shows units as people write them.
std::string withDisplaySymbols(std::string line) {
  const auto partOfWord = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; };
  for (const Unit unit : allUnits()) {
    const std::string from(symbol(unit));
    const std::string to(displaySymbol(unit));
    if (from.empty() || from == to) {
      continue;
    }
    for (auto at = line.find(from); at != std::string::npos; at = line.find(from, at + 1)) {
      const std::size_t after = at + from.size();
      if ((at == 0 || !partOfWord(line[at - 1])) && (after == line.size() || !partOfWord(line[after]))) {
        line.replace(at, from.size(), to);
      }
    }
  }
  return line;
}

std::string schemeText(const TestScheme& scheme) {
  std::string sentence = scheme.percents.empty() ? "those of the setup" : "";
  if (!scheme.percents.empty()) {
    std::vector<std::string> percents;
    for (const double percent : scheme.percents) {
      percents.push_back(formatShortest(percent));
    }
    sentence = fmt::format("{} % of span, {}", fmt::join(percents, ", "), text(scheme.order));
  }
  if (scheme.repeats > 1) {
    sentence += fmt::format(", run {} times", scheme.repeats);
  }
  if (scheme.alarms) {
    sentence += "; every alarm level in use";
  }
  if (scheme.loss) {
    sentence += "; loss of communication";
  }
  return sentence;
}

std::string sensorText(const Sensor& sensor) {
  std::vector<std::string> parts;
  for (const std::string& part : {sensor.maker, sensor.model, sensor.description}) {
    if (!part.empty()) {
      parts.push_back(part);
    }
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::string planText(const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  std::string line = fmt::format("{} revision {}", calibration.plan, calibration.planRevision);
  if (source.plan != nullptr && !source.plan->title.empty()) {
    line += ": " + source.plan->title;
  }
  return line;
}

bool anyFloored(const Calibration& calibration) {
  const auto floored = [](const Reading& reading) { return !reading.skipped() && reading.flooredByStep; };
  return std::any_of(calibration.asFound.begin(), calibration.asFound.end(), floored) ||
         std::any_of(calibration.asLeft.begin(), calibration.asLeft.end(), floored);
}

Unit readingUnit(const Calibration& calibration) {
  return calibration.asFound.empty() ? Unit::none : calibration.asFound.front().point.readingUnit;
}

/// What "within limits" means for this subject, in words of its plan and setup.
std::string specification(const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  if (source.plan == nullptr) {
    return "";
  }
  const SetupKind* kind =
      source.setup != nullptr && calibration.subject != Subject::sensor ? &source.setup->setup.kind : nullptr;
  std::string line = "limits of error printed with each point, from ";
  if (kind != nullptr && std::holds_alternative<DiscreteOutputSetup>(*kind)) {
    return line + "the voltage limits of the setup";
  }
  line += fmt::format("plan {} revision {}: {}", calibration.plan, calibration.planRevision,
                      withDisplaySymbols(describe(source.plan->tolerance, readingUnit(calibration))));
  const auto* threshold = kind != nullptr ? std::get_if<ThresholdSetup>(kind) : nullptr;
  if (threshold != nullptr && threshold->inputType > 0) {
    line += fmt::format("; no wider than IEC 61131-2 type {} allows", threshold->inputType);
  }
  if (anyFloored(calibration)) {
    line += "; where that is finer than one step of the reading, one step";
  }
  return line;
}

void addSkipped(std::vector<std::string>& texts, const std::vector<Reading>& readings, Phase phase) {
  for (const Reading& reading : readings) {
    if (reading.skipped()) {
      texts.push_back(
          fmt::format("Skipped {}, {}: {}", text(phase), reading.point.label, reading.skipReason));
    }
  }
}

std::string uncertaintyStatement(const Calibration& calibration) {
  const auto known = [](const Reading& reading) {
    return !reading.skipped() && reading.expandedUncertainty.has_value();
  };
  const bool any = std::any_of(calibration.asFound.begin(), calibration.asFound.end(), known) ||
                   std::any_of(calibration.asLeft.begin(), calibration.asLeft.end(), known);
  return any ? "The uncertainty stated is the expanded uncertainty: the combined standard uncertainty "
               "multiplied by the coverage factor k printed with it, for a coverage probability of 95.45 %, "
               "evaluated by JCGM 100:2008 (GUM). It holds at the time of the calibration and makes no "
               "allowance for later drift."
             : "No uncertainty is stated.";
}

std::string cautionStatement(const CertificateSource& source) {
  if (source.plan == nullptr || source.plan->cautions.empty()) {
    return "";
  }
  return fmt::format("Cautions of the plan{}: {}",
                     source.calibration->cautionsConfirmed
                         ? " (confirmed by the person who did the work before the first value)"
                         : " (no confirmation is recorded)",
                     fmt::join(source.plan->cautions, " "));
}

}  // namespace

const StandardCertificate* usedCertificate(const Register& site, const UsedStandard& used) {
  const Standard* standard = site.standard(used.serial);
  if (standard == nullptr) {
    return nullptr;
  }
  const auto found =
      std::find_if(standard->certificates.begin(), standard->certificates.end(),
                   [&used](const StandardCertificate& known) { return known.number == used.certificate; });
  return found == standard->certificates.end() ? nullptr : &*found;
}

std::vector<LabelledText> itemTexts(const CertificateSource& source) {
  const Channel& channel = *source.channel;
  const bool sensorOnly = source.calibration->subject == Subject::sensor;
  std::vector<LabelledText> texts;
  add(texts, "Calibrated", std::string(subjectText(source.calibration->subject)));
  add(texts, sensorOnly ? "Fitted on" : "Tag", channel.tag);
  add(texts, "Title", channel.title);
  add(texts, "Place", channel.place);
  add(texts, "Terminal", channel.terminal);
  if (source.setup != nullptr && !sensorOnly) {
    add(texts, "Kind", words(kindName(source.setup->setup)));
  }
  if (source.sensor != nullptr) {
    const bool covered = source.calibration->subject != Subject::channel;
    add(texts, covered ? "Sensor" : "Sensor fitted",
        sensorText(*source.sensor) + (covered ? "" : " (not part of this calibration)"));
    add(texts, "Serial number", source.sensor->serial);
    add(texts, "Sensor range", withDisplaySymbols(describe(source.sensor->range)));
  }
  return texts;
}

std::vector<LabelledText> setupTexts(const CertificateSource& source) {
  std::vector<LabelledText> texts;
  if (source.setup == nullptr || source.calibration->subject == Subject::sensor) {
    return texts;
  }
  const SetupVersion& setup = *source.setup;
  add(texts, "Version", fmt::format("{}", setup.version));
  add(texts, "In force since", shownMoment(setup.inForceFrom));
  add(texts, "Setup", withDisplaySymbols(describe(setup.setup)));
  add(texts, "Reason", setup.remark);
  return texts;
}

/// What the plan states of reference junction and leads, where the subject has them.
void addConnection(std::vector<LabelledText>& texts, const CertificateSource& source) {
  const Subject subject = source.calibration->subject;
  const auto* kind =
      subject == Subject::channel && source.setup != nullptr ? &source.setup->setup.kind : nullptr;
  const auto* bare = subject == Subject::sensor && source.sensor != nullptr && !source.sensor->range.output
                         ? &source.sensor->range
                         : nullptr;
  const bool couple = (kind != nullptr && std::holds_alternative<ThermocoupleSetup>(*kind)) ||
                      (bare != nullptr && bare->thermocouple.has_value());
  const bool rtd = (kind != nullptr && std::holds_alternative<RtdSetup>(*kind)) ||
                   (bare != nullptr && bare->rtd.has_value());
  if (couple && source.plan->junctionUncertainty) {
    add(texts, "Reference junction",
        "known to " + formatShortest(*source.plan->junctionUncertainty) +
            " K (expanded, k = 2); in the uncertainty where mV were used");
  }
  if (rtd && source.plan->leadHalfWidth) {
    add(texts, "Leads",
        "within ±" + formatShortest(*source.plan->leadHalfWidth) + " Ω; in the uncertainty (rectangular)");
  }
}

std::vector<LabelledText> methodTexts(const CertificateSource& source) {
  std::vector<LabelledText> texts;
  if (source.plan != nullptr) {
    add(texts, "Procedure", source.plan->procedure);
  }
  add(texts, "Plan", planText(source));
  if (source.plan != nullptr) {
    add(texts, "Points", schemeText(source.plan->scheme));
    if (source.plan->settleSeconds > 0.0) {
      add(texts, "Settling time", formatShortest(source.plan->settleSeconds) + " s before each reading");
    }
    addConnection(texts, source);
  }
  return texts;
}

std::vector<LabelledText> workTexts(const CertificateSource& source) {
  std::vector<LabelledText> texts;
  add(texts, "Performed", shownMoment(source.calibration->performed) + " (site time)");
  add(texts, "Issued", source.issued.is_special() ? "not issued" : formatDate(source.issued) + " (UTC)");
  add(texts, "Record",
      source.calibration->id > 0 ? fmt::format("calibration {}", source.calibration->id) : "");
  if (source.dueOn && source.site->site.dueDateAgreed) {
    add(texts, "Due again", formatDate(*source.dueOn) + ", as agreed with the customer");
  }
  return texts;
}

std::vector<LabelledText> conditionTexts(const CertificateSource& source) {
  const Conditions& conditions = source.calibration->conditions;
  std::vector<LabelledText> texts;
  add(texts, "Temperature",
      conditions.temperature ? formatShortest(*conditions.temperature) + " °C" : "not recorded");
  add(texts, "Humidity",
      conditions.humidity ? formatShortest(*conditions.humidity) + " % relative" : "not recorded");
  add(texts, "Reference junction",
      junctionText(*source.calibration, source.setup != nullptr ? &source.setup->setup : nullptr,
                   source.sensor != nullptr ? &source.sensor->range : nullptr));
  add(texts, "Note", conditions.note);
  return texts;
}

std::string placeOfWorkText(const CertificateSource& source) {
  const SiteInfo& site = source.site->site;
  std::vector<std::string> parts{site.name};
  parts.insert(parts.end(), site.address.begin(), site.address.end());
  std::string place = fmt::format("{}", fmt::join(parts, ", "));
  if (source.calibration->subject != Subject::sensor && !source.channel->place.empty()) {
    place += "; " + source.channel->place;
  }
  return place;
}

std::string adjustmentText(const Calibration& calibration) {
  const Adjustment& adjustment = calibration.adjustment;
  if (!adjustment.adjusted && !adjustment.repaired) {
    const std::string nothing = adjustment.text.empty()
                                    ? "Nothing was adjusted or repaired"
                                    : "Nothing was adjusted or repaired (" + adjustment.text + ")";
    return calibration.asLeft.empty() ? nothing + "; as found stands as left."
                                      : nothing + "; the points were taken a second time, and stand as left.";
  }
  const std::string_view what = !adjustment.repaired  ? "Adjusted"
                                : adjustment.adjusted ? "Repaired and adjusted"
                                                      : "Repaired";
  return fmt::format("{} after the as-found readings: {}.", what,
                     adjustment.text.empty() ? "no description is recorded" : adjustment.text);
}

std::vector<CertificateStandard> standardTexts(const CertificateSource& source) {
  std::vector<CertificateStandard> texts;
  for (const UsedStandard& used : source.calibration->standards) {
    CertificateStandard line;
    line.serial = used.serial;
    line.certificate = used.certificate;
    if (const Standard* standard = source.site->standard(used.serial)) {
      std::vector<std::string> parts;
      for (const std::string& part : {standard->maker, standard->model, standard->description}) {
        if (!part.empty()) {
          parts.push_back(part);
        }
      }
      line.description = fmt::format("{}", fmt::join(parts, ", "));
    }
    if (const StandardCertificate* certificate = usedCertificate(*source.site, used)) {
      line.issuer = certificate->issuer;
      line.validFrom = formatDate(certificate->validFrom);
      line.validUntil = formatDate(certificate->validUntil);
      line.traceability = certificate->traceability;
    }
    texts.push_back(std::move(line));
  }
  return texts;
}

std::vector<LabelledText> decisionTexts(const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  std::vector<LabelledText> texts;
  if (source.plan == nullptr) {
    return texts;
  }
  // The rule and the risk it goes with: ISO/IEC 17025:2017 7.8.6.1; the rest: 7.8.6.2.
  add(texts, "Rule", ruleText(source.plan->decisionRule));
  add(texts, "Level of risk", riskText(source.plan->decisionRule));
  add(texts, "Specification", specification(source));
  add(texts, "Covers",
      calibration.asLeft.empty()
          ? "every as-found point printed above that was not skipped"
          : "every as-found and as-left point printed above that was not skipped, each phase for itself");
  add(texts, "As found", std::string(text(calibration.foundVerdict)));
  add(texts, "As left",
      std::string(text(calibration.leftVerdict)) +
          (calibration.asLeft.empty() ? " (as found stands as left)" : ""));
  return texts;
}

std::vector<std::string> deviationTexts(const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  std::vector<std::string> texts;
  addSkipped(texts, calibration.asFound, Phase::asFound);
  addSkipped(texts, calibration.asLeft, Phase::asLeft);
  if (!calibration.conditions.temperature && !calibration.conditions.humidity &&
      calibration.conditions.note.empty()) {
    texts.emplace_back("The ambient conditions were not recorded.");
  }
  for (const UsedStandard& used : calibration.standards) {
    const Standard* standard = source.site->standard(used.serial);
    const StandardUse use =
        standard != nullptr ? standardUse(*standard, calibration.performed.date()) : StandardUse{};
    if (use.allowed) {
      texts.push_back(
          fmt::format("Standard {} had no valid certificate on the day; its use from {} to {} was allowed by "
                      "{}: {}.",
                      used.serial, formatDate(use.event->firstDay), formatDate(use.event->lastDay),
                      use.event->person, use.event->reason));
    }
  }
  if (!calibration.remarks.empty()) {
    texts.push_back("Remarks: " + calibration.remarks);
  }
  if (!calibration.source.empty() && calibration.source != "entered") {
    texts.push_back(
        fmt::format("The readings were imported from \"{}\"; they were not entered when they were taken.",
                    calibration.source));
  }
  return texts;
}

std::vector<std::string> statementTexts(const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  const bool sensorOnly = calibration.subject == Subject::sensor;
  std::vector<std::string> texts;
  texts.push_back(fmt::format(
      "The results relate only to the item named here{} No sampling was involved.",
      sensorOnly
          ? ", with the serial number it bears."
          : fmt::format(", under version {} of its setup. Another setup, range or sensor is not covered.",
                        calibration.setupVersion)));
  texts.push_back(uncertaintyStatement(calibration));
  texts.emplace_back("Tag, title, place and setup are stated as the customer's register describes them.");
  texts.emplace_back("This certificate must not be reproduced except in full.");
  texts.emplace_back("This is not a proof test of a safety function.");
  texts.emplace_back("This is not an accredited certificate.");
  if (std::string cautions = cautionStatement(source); !cautions.empty()) {
    texts.push_back(std::move(cautions));
  }
  if (!source.site->site.note.empty()) {
    texts.push_back(source.site->site.note);
  }
  return texts;
}

}  // namespace spanwright
