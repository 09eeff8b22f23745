// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/unit_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace spanwright {
namespace {

/// One column of one row that tells which unit it is. A statement may leave the key's last numbers out.
const std::map<std::string_view, std::string_view>& names() {
  static const std::map<std::string_view, std::string_view> kNames{
      {"place", "SELECT path FROM place WHERE site = $1 AND id = $2"},
      {"person", "SELECT login FROM person WHERE site = $1 AND id = $2"},
      {"key", "SELECT login FROM person WHERE site = $1 AND id = $2"},
      {"key lock", "SELECT login FROM person WHERE site = $1 AND id = $2"},
      {"standard", "SELECT serial FROM standard WHERE site = $1 AND id = $2"},
      {"standard certificate",
       "SELECT s.serial || ', ' || c.number FROM standard_certificate c JOIN standard s ON s.site = c.site "
       "AND "
       "s.id = c.standard WHERE c.site = $1 AND c.standard = $2 AND c.id = $3"},
      {"standard event",
       "SELECT s.serial || ' ' || e.act FROM standard_event e JOIN standard s ON s.site = e.site AND s.id = "
       "e.standard WHERE e.site = $1 AND e.id = $2"},
      {"sensor", "SELECT serial FROM sensor WHERE site = $1 AND id = $2"},
      {"plan", "SELECT code FROM plan WHERE site = $1 AND id = $2"},
      {"interval", "SELECT code FROM interval_policy WHERE site = $1 AND id = $2"},
      {"accepted interval",
       "SELECT h.tag || ' ' || a.subject || ', from ' || a.from_day FROM accepted_interval a JOIN channel h "
       "ON h.site = a.site AND h.id = a.channel WHERE a.site = $1 AND a.id = $2"},
      {"channel", "SELECT tag FROM channel WHERE site = $1 AND id = $2"},
      {"setup",
       "SELECT h.tag || ', version ' || s.version FROM channel_setup s JOIN channel h ON h.site = s.site AND "
       "h.id "
       "= s.channel WHERE s.site = $1 AND s.channel = $2 AND s.version = $3"},
      {"fitting",
       "SELECT h.tag || ', from ' || f.fitted_from FROM fitting f JOIN channel h ON h.site = f.site AND h.id "
       "= "
       "f.channel WHERE f.site = $1 AND f.channel = $2 AND f.id = $3"},
      {"calibration",
       "SELECT h.tag || ', ' || c.performed FROM calibration c JOIN channel h ON h.site = c.site AND h.id = "
       "c.channel WHERE c.site = $1 AND c.id = $2"},
      {"life", "SELECT act || ', calibration ' || calibration FROM life_event WHERE site = $1 AND id = $2"},
      {"certificate", "SELECT number FROM issued_certificate WHERE site = $1 AND year = $2 AND running = $3"},
      {"attachment", "SELECT name FROM attachment WHERE site = $1 AND id = $2"},
      {"round", "SELECT name FROM round WHERE site = $1 AND id = $2"},
  };
  return kNames;
}

}  // namespace

void bindUnit(Query& query, std::string_view site, const std::vector<std::int64_t>& n) {
  switch (n.size()) {
    case 0:
      query.bind(site);
      return;
    case 1:
      query.bind(site, n[0]);
      return;
    case 2:
      query.bind(site, n[0], n[1]);
      return;
    default:
      query.bind(site, n[0], n[1], n[2]);
  }
}

std::string unitName(Connection& connection, std::string_view site, const UnitKey& key) {
  std::string name = key.numbers.empty() ? key.unit : fmt::format("{} {}", key.unit, keyText(key));
  const auto sql = names().find(key.unit);
  if (sql == names().end()) {
    return name;
  }
  auto numbers = key.numbers;
  numbers.resize(static_cast<std::size_t>(std::count(sql->second.begin(), sql->second.end(), '$') - 1));
  Query row = connection.query(sql->second);
  bindUnit(row, site, numbers);
  return row.step() ? fmt::format("{} ({})", name, row.text(0)) : name;
}

}  // namespace spanwright
