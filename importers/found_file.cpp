// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/found_file.h"

#include <fmt/format.h>

#include "core/units/number.h"
#include "importers/toml_reader.h"

namespace spanwright {
namespace {

void readPoints(TomlTable& table, CertificateRange& range) {
  auto points = table.tables("points", "points of " + table.name() + ", entry");
  for (auto& item : points) {
    const std::size_t before = item.problems().count();
    CertificatePoint point;
    point.nominal = item.needNumber("nominal");
    point.error = item.needNumber("error");
    point.uncertainty = item.number("uncertainty", 0.0, kPositive);
    item.finish();
    if (item.problems().count() != before) {
      continue;
    }
    if (!range.points.empty() && point.nominal <= range.points.back().nominal) {
      item.problem("nominal",
                   fmt::format("is {} after {}", formatShortest(point.nominal),
                               formatShortest(range.points.back().nominal)),
                   "list the points by ascending nominal value, each once");
      continue;
    }
    range.points.push_back(point);
  }
  if (points.empty()) {
    table.problem("points", table.has("points") ? "is empty" : "is missing",
                  "give at least one { nominal = , error = }");
  }
}

void readRanges(TomlTable& file, FoundErrors& found) {
  auto ranges = file.tables("range", "[[range]]");
  for (auto& table : ranges) {
    CertificateRange range;
    range.unit = table.needUnit("unit").value_or(Unit::none);
    range.resolution = table.number("resolution", 0.0, kNotNegative);
    readPoints(table, range);
    table.finish();
    found.ranges.push_back(std::move(range));
  }
  if (ranges.empty()) {
    file.problem("range", file.has("range") ? "is empty" : "is missing",
                 "add [[range]] with unit and points, as on the certificate");
  }
}

}  // namespace

FoundErrors readFoundFile(const std::filesystem::path& file) {
  const toml::table parsed = parseTomlFile(file);
  ProblemList problems(file.string());
  TomlTable root(parsed, "the found file", problems, toml::source_position{1, 1});
  FoundErrors found;
  found.foundOn = root.needDate("found_on").value_or(Date());
  found.certificate = root.text("certificate");
  found.lastGood = root.text("last_good_certificate");
  found.remark = root.text("remark");
  found.coverageFactor = root.number("k", 2.0, {kLeastFactor, kLargestFactor});
  readRanges(root, found);
  root.finish();
  problems.throwIfAny();
  return found;
}

}  // namespace spanwright
