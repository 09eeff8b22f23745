// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/certificate_data.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>

namespace spanwright {
namespace {

using Json = nlohmann::ordered_json;

Json pairs(const std::vector<LabelledText>& texts) {
  Json list = Json::array();
  for (const LabelledText& text : texts) {
    list.push_back({{"label", text.label}, {"value", text.value}});
  }
  return list;
}

Json table(const CertificateTable& table) {
  Json rows = Json::array();
  for (const CertificateRow& r : table.rows) {
    rows.push_back({{"point", r.point},
                    {"applied", r.applied},
                    {"applied_as", r.appliedAs},
                    {"expected", r.expected},
                    {"reading", r.reading},
                    {"read_as", r.readAs},
                    {"error", r.error},
                    {"limit_low", r.low},
                    {"limit_high", r.high},
                    {"percent_of_span", r.percentOfSpan},
                    {"fraction_of_limit", r.fraction},
                    {"uncertainty", r.uncertainty},
                    {"coverage_factor", r.coverage},
                    {"verdict", r.verdict},
                    {"note", r.note}});
  }
  return {{"phase", text(table.phase)},        {"title", table.title}, {"applied_unit", table.appliedUnit},
          {"reading_unit", table.readingUnit}, {"rows", rows},         {"conclusion", table.conclusion}};
}

Json standards(const std::vector<CertificateStandard>& list) {
  Json all = Json::array();
  for (const CertificateStandard& s : list) {
    all.push_back({{"serial", s.serial},
                   {"description", s.description},
                   {"certificate", s.certificate},
                   {"issuer", s.issuer},
                   {"valid_from", s.validFrom},
                   {"valid_until", s.validUntil},
                   {"traceability", s.traceability}});
  }
  return all;
}

Json parsed(std::string_view data) {
  Json json = Json::parse(data, nullptr, false);
  if (!json.is_object() || json.value("form", Json()) != kCertificateForm) {
    throw std::runtime_error("it is not the data of a certificate of this program");
  }
  return json;
}

std::string shown(const Json& value) {
  return value.is_string() ? fmt::format("\"{}\"", value.get<std::string>()) : value.dump();
}

void compare(const Json& a, const Json& b, const std::string& place, std::vector<std::string>& found) {
  if (a == b) {
    return;
  }
  const auto below = [&](const std::string& name) { return place.empty() ? name : place + " / " + name; };
  if (a.is_object() && b.is_object()) {
    std::set<std::string> names;
    for (const Json* side : {&a, &b}) {
      for (const auto& [name, value] : side->items()) {
        names.insert(name);
      }
    }
    for (const std::string& name : names) {
      compare(a.value(name, Json()), b.value(name, Json()), below(name), found);
    }
    return;
  }
  if (a.is_array() && b.is_array()) {
    for (std::size_t i = 0; i < std::max(a.size(), b.size()); ++i) {
      compare(i < a.size() ? a[i] : Json(), i < b.size() ? b[i] : Json(), below(std::to_string(i + 1)),
              found);
    }
    return;
  }
  found.push_back(fmt::format("{}: {} instead of {}", place, shown(a), shown(b)));
}

}  // namespace

std::string certificateData(const Certificate& c) {
  Json tables = Json::array();
  for (const CertificateTable& one : c.tables) {
    tables.push_back(table(one));
  }
  const CertificateAnchor anchor = c.anchor.value_or(CertificateAnchor{});
  const Json json{{"form", kCertificateForm},
                  {"title", c.title},
                  {"number", c.number},
                  {"revision", c.revision},
                  {"mark", c.mark},
                  {"issued", c.issueDate},
                  {"calibration", anchor.calibration},
                  {"journal", {{"entry", anchor.journalEntry}, {"hash", anchor.journalHash}}},
                  {"record_digest", anchor.recordDigest},
                  {"issuer", c.issuer},
                  {"customer", c.customer},
                  {"place_of_work", c.placeOfWork},
                  {"item", pairs(c.item)},
                  {"setup", pairs(c.setup)},
                  {"method", pairs(c.method)},
                  {"work", pairs(c.work)},
                  {"conditions", pairs(c.conditions)},
                  {"found", c.foundConclusion},
                  {"left", c.leftConclusion},
                  {"tables", tables},
                  {"adjustment", c.adjustment},
                  {"decision", pairs(c.decision)},
                  {"standards", standards(c.standards)},
                  {"people", pairs(c.people)},
                  {"signature_lines", c.signatures},
                  {"deviations", c.deviations},
                  {"statements", c.statements},
                  {"record", pairs(c.record)},
                  {"program", c.programVersion}};
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

CertificateClaim certificateClaim(std::string_view data) {
  const Json json = parsed(data);
  try {
    const Json& journal = json.at("journal");
    return {json.at("number").get<std::string>(),
            json.at("revision").get<int>(),
            {json.at("calibration").get<CalibrationId>(), journal.at("entry").get<std::int64_t>(),
             journal.at("hash").get<std::string>(), json.at("record_digest").get<std::string>()}};
  } catch (const Json::exception&) {
    throw std::runtime_error("it does not say which calibration of which record it is of");
  }
}

std::vector<std::string> certificateDifferences(std::string_view handedOut, std::string_view record) {
  Json theirs = parsed(handedOut), ours = parsed(record);
  theirs.erase("program");
  ours.erase("program");
  std::vector<std::string> found;
  compare(theirs, ours, "", found);
  return found;
}

}  // namespace spanwright
