// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/trace_json.h"

#include <cmath>

#include "cli/ruling_output.h"
#include "core/metrology/ruling.h"

namespace spanwright {

namespace {

Json momentOrNull(std::optional<Moment> moment) {
  return moment ? Json(formatMoment(*moment)) : Json(nullptr);
}

Json certificateJson(const StandardCertificate& certificate) {
  Json units = Json::array();
  for (const CertificateRange& range : certificate.ranges) {
    units.push_back(symbol(range.unit));
  }
  return {{"number", certificate.number},
          {"issuer", certificate.issuer},
          {"traceability", certificate.traceability},
          {"issued", formatDate(certificate.issued)},
          {"valid_from", formatDate(certificate.validFrom)},
          {"valid_until", formatDate(certificate.validUntil)},
          {"coverage_factor", certificate.coverageFactor},
          {"units", units}};
}

Json valueJson(const TracedValue& value) {
  Json json{{"done", value.applied ? "applied" : "measured"},
            {"value", value.value},
            {"unit", symbol(value.unit)},
            {"standard", nullptr},
            {"certificate", nullptr}};
  if (!value.certificate.empty()) {
    json["standard"] = value.standard;
    json["certificate"] = value.certificate;
    json["at"] = value.at;
    json["certificate_unit"] = symbol(value.certificateUnit);
    json["error"] = value.error;
    json["expanded_uncertainty"] = value.uncertainty;
    json["coverage_factor"] = value.coverageFactor;
  }
  return json;
}

Json budgetJson(const std::optional<Budget>& budget) {
  if (!budget) {
    return nullptr;
  }
  Json lines = Json::array();
  for (const BudgetLine& line : budget->lines) {
    lines.push_back({{"name", line.name},
                     {"standard_uncertainty", line.standardUncertainty},
                     {"sensitivity", line.sensitivity},
                     {"contribution", std::abs(line.standardUncertainty * line.sensitivity)}});
  }
  return {{"combined", budget->combined},
          {"degrees_of_freedom", orNull(budget->degreesOfFreedom)},
          {"coverage_factor", budget->coverageFactor},
          {"expanded", budget->expanded},
          {"lines", lines}};
}

Json readingJson(const TracedReading& traced, const DecisionRule* rule) {
  const Reading& reading = traced.reading;
  Json json{{"phase", traced.phase == Phase::asFound ? "as_found" : "as_left"},
            {"point", reading.point.label}};
  if (reading.skipped()) {
    json["skipped"] = reading.skipReason;
    return json;
  }
  json["applied_typed"] = reading.appliedText;
  json["reading_typed"] = reading.indicatedText;
  json["applied"] = reading.applied;
  json["applied_unit"] = symbol(reading.point.appliedUnit);
  json["reading"] = reading.indicated;
  json["unit"] = symbol(reading.point.readingUnit);
  json["expected"] = reading.expected;
  json["error"] = reading.error();
  json["limit_low"] = orNull(reading.limits.low);
  json["limit_high"] = orNull(reading.limits.high);
  json["expanded_uncertainty"] = orNull(reading.expandedUncertainty);
  json["coverage_factor"] = reading.coverageFactor;
  json["verdict"] = text(reading.verdict);
  addRuling(json, rule, reading);
  json["standards"] = Json::array();
  for (const TracedValue& value : traced.values) {
    json["standards"].push_back(valueJson(value));
  }
  json["budget"] = budgetJson(traced.budget);
  json["differs"] = traced.differs;
  return json;
}

Json standardsJson(const CalibrationTrace& trace) {
  Json standards = Json::array();
  for (const TracedStandard& traced : trace.standards) {
    standards.push_back(
        {{"standard", traced.used.serial},
         {"what", traced.description},
         {"certificate_named", traced.used.certificate},
         {"certificate", traced.certificate ? certificateJson(*traced.certificate) : Json(nullptr)},
         {"valid_on_day", traced.validOnDay}});
  }
  return standards;
}

Json setupJson(const CalibrationTrace& trace) {
  if (!trace.setup) {
    return nullptr;
  }
  return {{"version", trace.setup->version},
          {"in_force_from", formatMoment(trace.setup->inForceFrom)},
          {"in_force_until", momentOrNull(trace.setupUntil)},
          {"kind", kindName(trace.setup->setup)},
          {"what", describe(trace.setup->setup)},
          {"remark", trace.setup->remark}};
}

Json sensorJson(const CalibrationTrace& trace) {
  if (!trace.sensor) {
    return nullptr;
  }
  return {{"serial", trace.sensor->serial},
          {"maker", trace.sensor->maker},
          {"model", trace.sensor->model},
          {"fitted_from", trace.fitting ? momentOrNull(trace.fitting->from) : Json(nullptr)},
          {"fitted_until", trace.fitting ? momentOrNull(trace.fitting->until) : Json(nullptr)}};
}

Json planJson(const CalibrationTrace& trace) {
  const Calibration& calibration = trace.calibration;
  Json json{{"code", calibration.plan},
            {"revision", calibration.planRevision},
            {"in_register", trace.plan.has_value()}};
  if (trace.plan) {
    json["title"] = trace.plan->title;
    json["procedure"] = trace.plan->procedure;
    json["decision_rule"] = describe(trace.plan->decisionRule);
  }
  return json;
}

}  // namespace

Json traceJson(const CalibrationTrace& trace) {
  const Calibration& calibration = trace.calibration;
  const DecisionRule* rule = trace.plan ? &trace.plan->decisionRule : nullptr;
  Json readings = Json::array();
  for (const TracedReading& reading : trace.readings) {
    readings.push_back(readingJson(reading, rule));
  }
  Json issued = nullptr;
  if (trace.issued) {
    issued = {{"number", trace.issued->number},
              {"issued_utc", formatMoment(trace.issued->issuedUtc)},
              {"revision", trace.issued->revision}};
  }
  return {{"calibration", calibration.id},
          {"channel", calibration.channel},
          {"title", trace.title},
          {"place", trace.place},
          {"subject", text(calibration.subject)},
          {"performed", formatMoment(calibration.performed)},
          {"person", calibration.person},
          {"person_name", trace.personName},
          {"recorded_utc", formatMoment(calibration.recordedUtc)},
          {"source", calibration.source},
          {"reference_junction", orNull(calibration.conditions.referenceJunction)},
          {"as_found", text(calibration.foundVerdict)},
          {"as_left", text(calibration.leftVerdict)},
          {"setup", setupJson(trace)},
          {"sensor", sensorJson(trace)},
          {"plan", planJson(trace)},
          {"issued_certificate", issued},
          {"standards", standardsJson(trace)},
          {"readings", readings},
          {"gaps", trace.gaps},
          {"differs", trace.differs},
          {"agrees", trace.agrees()}};
}

Json traceJson(const StandardTrace& trace) {
  Json certificates = Json::array(), calibrations = Json::array();
  for (const StandardCertificate& certificate : trace.standard.certificates) {
    certificates.push_back(certificateJson(certificate));
  }
  for (const UseOfStandard& use : trace.uses) {
    calibrations.push_back({{"calibration", use.calibration},
                            {"channel", use.channel},
                            {"subject", text(use.subject)},
                            {"performed", formatMoment(use.performed)},
                            {"as_found", text(use.found)},
                            {"as_left", text(use.left)},
                            {"certificate", use.certificate},
                            {"valid_on_day", use.validOnDay}});
  }
  return {{"standard", trace.standard.serial},   {"maker", trace.standard.maker},
          {"model", trace.standard.model},       {"description", trace.standard.description},
          {"location", trace.standard.location}, {"certificates", certificates},
          {"calibrations", calibrations},        {"gaps", trace.gaps}};
}

}  // namespace spanwright
