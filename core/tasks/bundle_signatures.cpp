// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/bundle_signatures.h"

#include <fmt/format.h>

#include "core/record/life.h"
#include "core/record/register.h"
#include "core/store/keys.h"

namespace spanwright {
namespace {

std::string bytesIn(const BundleJson& row, const char* column) {
  const BundleJson& value = row.at(column);
  return value.is_object() ? parseHex(value.value("bytes", "")).value_or("") : "";
}

Moment utcIn(const BundleJson& row) {
  const std::string text = textIn(row, "at_utc");
  return parseMoment(text.substr(0, text.size() - (text.ends_with('Z') ? 1 : 0))).value_or(Moment());
}

std::string fieldOf(const BundleContents& contents, const UnitKey& unit, const char* column) {
  const BundleUnit* found = contents.find(unit);
  return found == nullptr ? std::string() : textIn(rootRow(*found), column);
}

std::string publicKeyOf(const BundleContents& contents, std::int64_t person, std::int64_t key) {
  const BundleUnit* found = contents.find({"key", {person, key}});
  return found == nullptr ? std::string() : bytesIn(rootRow(*found), "public_key");
}

/// Nothing when it holds.
std::string lifeProblem(const BundleContents& contents, const BundleJson& row) {
  LifeEvent event;
  const auto act = parseLifeAct(textIn(row, "act"));
  event.act = act.value_or(LifeAct::performed);
  event.calibration = numberIn(row, "calibration");
  event.person = fieldOf(contents, {"person", {numberIn(row, "person")}}, "login");
  event.atUtc = utcIn(row);
  event.reason = textIn(row, "reason");
  event.digest = bytesIn(row, "digest");
  const std::string key = publicKeyOf(contents, numberIn(row, "person"), numberIn(row, "key"));
  if (!act || !signatureHolds(key, signedText(contents.site, event, key), bytesIn(row, "signature"))) {
    return fmt::format(
        "the signature of {} under calibration {} does not hold: it was changed, moved or made with another "
        "key",
        event.person, event.calibration);
  }
  const BundleUnit* calibration = contents.find({"calibration", {event.calibration}});
  if (calibration == nullptr || calibration->digest.digest.view() != event.digest) {
    return fmt::format("the signature of {} was given to other readings of calibration {} than are here",
                       event.person, event.calibration);
  }
  return {};
}

std::string standardProblem(const BundleContents& contents, const BundleJson& row) {
  StandardEvent event;
  const auto act = parseStandardAct(textIn(row, "act"));
  event.act = act.value_or(StandardAct::outOfService);
  event.standard = fieldOf(contents, {"standard", {numberIn(row, "standard")}}, "serial");
  event.firstDay = parseDate(textIn(row, "first_day")).value_or(Date());
  event.lastDay = parseDate(textIn(row, "last_day")).value_or(Date());
  event.person = fieldOf(contents, {"person", {numberIn(row, "person")}}, "login");
  event.atUtc = utcIn(row);
  event.reason = textIn(row, "reason");
  const std::string key = publicKeyOf(contents, numberIn(row, "person"), numberIn(row, "key"));
  if (!act || !signatureHolds(key, signedText(contents.site, event, key), bytesIn(row, "signature"))) {
    return fmt::format("the signature of {} about standard {} does not hold", event.person, event.standard);
  }
  return {};
}

}  // namespace

std::vector<std::pair<std::string, std::string>> bundleSignatureProblems(const BundleContents& contents,
                                                                         std::size_t& checked) {
  std::vector<std::pair<std::string, std::string>> problems;
  for (const auto& [file, unit] : contents.units) {
    std::string problem;
    if (unit.key.unit == "life" && textIn(rootRow(unit), "act") != text(LifeAct::superseded)) {
      problem = lifeProblem(contents, rootRow(unit));
      ++checked;
    } else if (unit.key.unit == "standard event") {
      problem = standardProblem(contents, rootRow(unit));
      ++checked;
    }
    if (!problem.empty()) {
      problems.emplace_back(file, std::move(problem));
    }
  }
  return problems;
}

}  // namespace spanwright
