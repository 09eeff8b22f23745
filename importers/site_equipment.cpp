// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reference standards with their certificates, and sensors.
#include <fmt/format.h>

#include <algorithm>

#include "core/record/register_rules.h"
#include "importers/site_parts.h"

namespace spanwright {
namespace {

void readRangePoints(TomlTable& range, CertificateRange& into) {
  auto points = range.tables("points", "points of " + range.name() + ", entry");
  for (auto& table : points) {
    const std::size_t before = table.problems().count();
    CertificatePoint point;
    point.nominal = table.needNumber("nominal");
    point.error = table.needNumber("error");
    point.uncertainty = table.needNumber("uncertainty", kPositive);
    table.finish();
    if (table.problems().count() != before) {
      continue;
    }
    if (!into.points.empty() && point.nominal <= into.points.back().nominal) {
      table.problem("nominal", fmt::format("is {} after {}", point.nominal, into.points.back().nominal),
                    "list the points by ascending nominal value, each once");
      continue;
    }
    into.points.push_back(point);
  }
  if (points.empty()) {
    range.problem("points", range.has("points") ? "is empty" : "is missing",
                  "give at least one { nominal = , error = , uncertainty = }");
  }
}

StandardCertificate readCertificate(TomlTable& table) {
  StandardCertificate certificate;
  certificate.number = table.needText("number");
  certificate.issuer = table.needText("issuer");
  certificate.traceability = table.text("traceability");
  const auto issued = table.needDate("issued");
  const auto from = table.needDate("valid_from");
  const auto until = table.needDate("valid_until");
  if (from && until && *until < *from) {
    table.problem("valid_until", fmt::format("is before valid_from ({})", formatDate(*from)),
                  "exchange the two dates or correct one");
  } else if (issued && until && *until < *issued) {
    table.problem("valid_until", fmt::format("is before issued ({})", formatDate(*issued)),
                  "correct one of the two dates");
  }
  certificate.issued = issued.value_or(Date());
  certificate.validFrom = from.value_or(Date());
  certificate.validUntil = until.value_or(Date());
  certificate.coverageFactor = table.number("k", 2.0, {1.0, 10.0});
  auto ranges = table.tables("range", "range of " + table.name() + ",");
  for (auto& item : ranges) {
    CertificateRange range;
    range.unit = item.needUnit("unit").value_or(Unit::none);
    range.resolution = item.number("resolution", 0.0, kNotNegative);
    readRangePoints(item, range);
    item.finish();
    certificate.ranges.push_back(std::move(range));
  }
  if (ranges.empty() && !table.has("range")) {
    table.problem("range", "is missing", "add [[standard.certificate.range]] with unit and points");
  }
  table.finish();
  return certificate;
}

}  // namespace

void readStandards(TomlTable& file, SiteReading& reading) {
  for (auto& table : file.tables("standard", "[[standard]]")) {
    Standard standard;
    standard.serial = table.needText("serial");
    if (!standard.serial.empty()) {
      table.rename("[[standard]] " + inQuotes(standard.serial));
      reading.standards.add(standard.serial, table.at("serial"), table.problems());
    }
    standard.maker = table.text("maker");
    standard.model = table.text("model");
    standard.description = table.text("description");
    standard.location = table.text("location");
    NameSet numbers("certificate number");
    for (auto& item : table.tables("certificate", "certificate of " + table.name() + ",")) {
      standard.certificates.push_back(readCertificate(item));
      numbers.add(standard.certificates.back().number, item.at("number"), table.problems());
    }
    // A certificate whose dates were refused has none to sort by; nothing is returned then anyway.
    const bool dated = std::none_of(standard.certificates.begin(), standard.certificates.end(),
                                    [](const auto& each) { return each.validFrom.is_special(); });
    if (dated) {
      std::stable_sort(standard.certificates.begin(), standard.certificates.end(),
                       [](const auto& a, const auto& b) { return a.validFrom < b.validFrom; });
    }
    table.finish();
    reading.site.standards.push_back(std::move(standard));
  }
}

void readSensors(TomlTable& file, SiteReading& reading) {
  for (auto& table : file.tables("sensor", "[[sensor]]")) {
    Sensor sensor;
    sensor.serial = table.needText("serial");
    if (!sensor.serial.empty()) {
      table.rename("[[sensor]] " + inQuotes(sensor.serial));
      reading.sensors.add(sensor.serial, table.at("serial"), table.problems());
    }
    sensor.maker = table.text("maker");
    sensor.model = table.text("model");
    sensor.description = table.text("description");
    const std::size_t before = table.problems().count();
    if (const auto process = needSpan(table, "process")) {
      sensor.range.process = *process;
    }
    sensor.range.output = readSpan(table, "output");
    sensor.range.transfer = table.choice<TransferKind>("transfer", kTransfers).value_or(TransferKind::linear);
    sensor.range.thermocouple = table.choice<ThermocoupleType>("thermocouple", kCouples);
    sensor.range.rtd = table.choice<RtdElement>("rtd", kElements);
    table.finish();
    report(table, sensorProblems(sensor), before);
    reading.site.sensors.push_back(std::move(sensor));
  }
}

}  // namespace spanwright
