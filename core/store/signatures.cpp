// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/signatures.h"

#include <fmt/format.h>

#include "core/record/life.h"
#include "core/store/covered.h"
#include "core/store/keys.h"

namespace spanwright {
namespace {

Moment momentOf(std::string_view text) {
  if (text.ends_with('Z')) {
    text.remove_suffix(1);
  }
  return parseMoment(text).value_or(Moment());
}

void checkLifeEvents(Connection& connection, std::string_view site, std::int64_t& checked,
                     std::vector<std::string>& problems) {
  Query row = connection.query(
      "SELECT l.id, l.calibration, l.act, coalesce(p.login, ''), l.at_utc, l.reason, l.digest, l.signature, "
      "k.public_key FROM life_event l LEFT JOIN person p ON p.site = l.site AND p.id = l.person "
      "LEFT JOIN person_key k ON k.site = l.site AND k.person = l.person AND k.id = l.key "
      "WHERE l.site = $1 AND l.act <> 'superseded' ORDER BY l.id");
  row.bind(site);
  while (row.step()) {
    ++checked;
    LifeEvent event;
    event.calibration = row.integer(1);
    const auto act = parseLifeAct(row.textView(2));
    event.act = act.value_or(LifeAct::performed);
    event.person = row.text(3);
    event.atUtc = momentOf(row.textView(4));
    event.reason = row.text(5);
    event.digest = row.bytes(6);
    const std::string name = fmt::format("the signature \"{}\" of {} under calibration {}", row.text(2),
                                         event.person, event.calibration);
    if (!act ||
        !signatureHolds(row.bytesView(8), signedText(site, event, row.bytesView(8)), row.bytesView(7))) {
      problems.push_back(name + " does not hold: it was changed, moved or made with another key");
      continue;
    }
    const auto now = unitDigest(connection, site, {"calibration", {event.calibration}});
    if (!now || now->digest.view() != event.digest) {
      problems.push_back(name + " was given to other readings than the record holds now");
    }
  }
}

void checkStandardEvents(Connection& connection, std::string_view site, std::int64_t& checked,
                         std::vector<std::string>& problems) {
  Query row = connection.query(
      "SELECT e.id, coalesce(s.serial, ''), e.act, e.first_day, e.last_day, coalesce(p.login, ''), e.at_utc, "
      "e.reason, "
      "e.signature, k.public_key FROM standard_event e LEFT JOIN standard s ON s.site = e.site AND s.id = "
      "e.standard "
      "LEFT JOIN person p ON p.site = e.site AND p.id = e.person "
      "LEFT JOIN person_key k ON k.site = e.site AND k.person = e.person AND k.id = e.key "
      "WHERE e.site = $1 ORDER BY e.id");
  row.bind(site);
  while (row.step()) {
    ++checked;
    StandardEvent event;
    event.standard = row.text(1);
    const auto act = parseStandardAct(row.textView(2));
    event.act = act.value_or(StandardAct::outOfService);
    event.firstDay = parseDate(row.textView(3)).value_or(Date());
    event.lastDay = parseDate(row.textView(4)).value_or(Date());
    event.person = row.text(5);
    event.atUtc = momentOf(row.textView(6));
    event.reason = row.text(7);
    if (!act ||
        !signatureHolds(row.bytesView(9), signedText(site, event, row.bytesView(9)), row.bytesView(8))) {
      problems.push_back(fmt::format("the signature of {} under \"{}\" of standard {} does not hold",
                                     event.person, row.text(2), event.standard));
    }
  }
}

}  // namespace

std::vector<std::string> signatureProblems(Connection& connection, std::string_view site,
                                           std::int64_t& checked) {
  std::vector<std::string> problems;
  checkLifeEvents(connection, site, checked, problems);
  checkStandardEvents(connection, site, checked, problems);
  return problems;
}

}  // namespace spanwright
