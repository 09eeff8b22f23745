// SPDX-License-Identifier: GPL-3.0-or-later
//
// What keeps a certificate from being issued.
#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "core/certificate/certificate.h"
#include "core/certificate/words.h"
#include "core/record/ruled_reading.h"

namespace spanwright {
namespace {

using Faults = std::vector<std::string>;

void fault(Faults& faults, std::string_view what, std::string_view clause) {
  faults.push_back(fmt::format("{} (ISO/IEC 17025:2017 {})", what, clause));
}

bool blank(const std::vector<std::string>& lines) {
  return std::all_of(lines.begin(), lines.end(), [](const std::string& line) { return line.empty(); });
}

void siteFaults(Faults& faults, const SiteInfo& site) {
  if (site.issuer.empty()) {
    fault(faults, "the issuer's name is missing", "7.8.2.1 b");
  }
  if (blank(site.issuerAddress)) {
    fault(faults, "the issuer's address is missing", "7.8.2.1 b");
  }
  if (site.name.empty() || blank(site.address)) {
    fault(faults, "the name or address of the site where the work was done is missing", "7.8.2.1 c");
  }
  if (site.customer.empty()) {
    fault(faults, "the customer's name is missing", "7.8.2.1 e");
  }
  if (site.customerContact.empty()) {
    fault(faults, "the customer's contact is missing", "7.8.2.1 e");
  }
}

void planFaults(Faults& faults, const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  if (source.plan == nullptr) {
    fault(faults, fmt::format("the plan \"{}\" is not in the register", calibration.plan), "7.8.2.1 f");
    return;
  }
  const Plan& plan = *source.plan;
  if (plan.code != calibration.plan || plan.revision != calibration.planRevision) {
    fault(faults,
          fmt::format("the calibration was made under plan {} revision {}, the register has {} revision {}",
                      calibration.plan, calibration.planRevision, plan.code, plan.revision),
          "7.8.2.1 f");
  }
  if (plan.procedure.empty()) {
    fault(faults, fmt::format("plan {} names no procedure", plan.code), "7.8.2.1 f");
  }
  if (const auto unusable = planRuleFault(plan.decisionRule)) {
    fault(faults, fmt::format("plan {} has no decision rule that can be used: {}", plan.code, *unusable),
          "7.8.6.1");
  }
}

void itemFaults(Faults& faults, const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  if (source.channel == nullptr || source.channel->tag.empty()) {
    fault(faults, fmt::format("the channel \"{}\" is not in the register", calibration.channel), "7.8.2.1 g");
  }
  if (calibration.subject != Subject::sensor &&
      (source.setup == nullptr || source.setup->version != calibration.setupVersion)) {
    fault(faults, fmt::format("version {} of the setup is not in the register", calibration.setupVersion),
          "7.8.2.1 g");
  }
  if (calibration.subject != Subject::channel && (source.sensor == nullptr || source.sensor->serial.empty() ||
                                                  source.sensor->serial != calibration.sensor)) {
    fault(faults, fmt::format("the sensor \"{}\" is not in the register", calibration.sensor), "7.8.2.1 g");
  }
}

void dateFaults(Faults& faults, const CertificateSource& source) {
  const Moment performed = source.calibration->performed;
  if (performed.is_special()) {
    fault(faults, "the date of the work is missing", "7.8.2.1 i");
    return;
  }
  if (!source.issued.is_special() && source.issued < performed.date()) {
    fault(faults,
          fmt::format("the date of issue {} is before the work on {}", formatDate(source.issued),
                      formatDate(performed.date())),
          "7.8.2.1 j");
  }
}

void readingFaults(Faults& faults, const Reading& reading, Phase phase, const DecisionRule* rule) {
  const auto at = [&](std::string_view what) {
    return fmt::format("{}, point {} \"{}\": {}", text(phase), reading.point.sequence, reading.point.label,
                       what);
  };
  if (reading.point.readingUnit == Unit::none) {
    fault(faults, at("the reading has no unit"), "7.8.2.1 m");
  }
  if (!std::isfinite(reading.indicated) || !std::isfinite(reading.expected)) {
    fault(faults, at("the reading or what was expected is not a number"), "7.8.2.1 m");
  }
  const auto& uncertainty = reading.expandedUncertainty;
  if (!uncertainty) {
    fault(faults, at("there is no uncertainty"), "7.8.4.1 a");
  } else if (!std::isfinite(*uncertainty) || *uncertainty <= 0.0 || !std::isfinite(reading.coverageFactor) ||
             reading.coverageFactor <= 0.0) {
    fault(faults, at("the uncertainty or its coverage factor is not above zero"), "7.8.4.1 a");
  }
  if (reading.verdict == Verdict::notJudged) {
    fault(faults, at("there is no verdict"), "7.8.4.1 e");
  } else if (rule != nullptr && rulingOn(*rule, reading).verdict != reading.verdict) {
    fault(faults,
          at(fmt::format("the verdict \"{}\" is not the one the plan's decision rule gives ({})",
                         text(reading.verdict), describe(*rule))),
          "7.8.6.1");
  }
}

bool anyDone(const std::vector<Reading>& readings) {
  return std::any_of(readings.begin(), readings.end(), [](const Reading& one) { return !one.skipped(); });
}

void resultFaults(Faults& faults, const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  const DecisionRule* rule = ruleOf(source.plan, calibration);
  if (!anyDone(calibration.asFound) && !anyDone(calibration.asLeft)) {
    fault(faults, "there is no reading", "7.8.2.1 m");
  }
  const bool changed = calibration.adjustment.adjusted || calibration.adjustment.repaired;
  if (changed && !anyDone(calibration.asLeft)) {
    fault(faults, "something was adjusted or repaired, but there is no as-left reading", "7.8.4.1 d");
  }
  for (const Phase phase : {Phase::asFound, Phase::asLeft}) {
    for (const Reading& reading : phase == Phase::asFound ? calibration.asFound : calibration.asLeft) {
      if (!reading.skipped()) {
        readingFaults(faults, reading, phase, rule);
      }
    }
  }
}

/// Did a reviewer allow the standard's use that day without a valid certificate? The certificate then says
/// so.
bool allowedOn(const CertificateSource& source, const UsedStandard& used, Date day) {
  const Standard* standard = source.site->standard(used.serial);
  const StandardUse use = standard != nullptr ? standardUse(*standard, day) : StandardUse{};
  return use.allowed && use.certificate->number == used.certificate;
}

void standardFault(Faults& faults, const CertificateSource& source, const UsedStandard& used) {
  const Moment performed = source.calibration->performed;
  const StandardCertificate* certificate = usedCertificate(*source.site, used);
  if (certificate == nullptr) {
    fault(faults,
          fmt::format("certificate \"{}\" of standard {} is not in the register", used.certificate,
                      used.serial),
          "7.8.4.1 c");
    return;
  }
  if (!performed.is_special() &&
      (performed.date() < certificate->validFrom || performed.date() > certificate->validUntil) &&
      !allowedOn(source, used, performed.date())) {
    fault(faults,
          fmt::format("certificate {} of standard {} is valid from {} to {}, the work was on {}",
                      certificate->number, used.serial, formatDate(certificate->validFrom),
                      formatDate(certificate->validUntil), formatDate(performed.date())),
          "7.8.4.1 c");
  }
  if (certificate->issuer.empty() || certificate->traceability.empty()) {
    fault(faults,
          fmt::format("certificate {} of standard {} does not say who issued it or what it is "
                      "traceable to",
                      certificate->number, used.serial),
          "7.8.4.1 c");
  }
}

}  // namespace

std::vector<std::string> certificateFaults(const CertificateSource& source) {
  assert(source.site != nullptr && source.calibration != nullptr);
  const Calibration& calibration = *source.calibration;
  Faults faults;
  siteFaults(faults, source.site->site);
  planFaults(faults, source);
  itemFaults(faults, source);
  dateFaults(faults, source);
  resultFaults(faults, source);
  if (calibration.standards.empty()) {
    fault(faults, "no reference standard is named", "7.8.4.1 c");
  }
  for (const UsedStandard& used : calibration.standards) {
    standardFault(faults, source, used);
  }
  if (source.site->person(calibration.person) == nullptr) {
    fault(faults,
          fmt::format("the person \"{}\" who did the work is not in the register", calibration.person),
          "7.5.1");
  }
  return faults;
}

}  // namespace spanwright
