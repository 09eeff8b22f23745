// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/covered.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "core/store/row_form.h"
#include "core/store/unit_digest.h"
#include "core/store/unit_names.h"

namespace spanwright {
namespace {

const std::vector<CoveredUnit>& units() {
  static const std::vector<CoveredUnit> kUnits{
      // register_revision only counts changes, so that programs see each other's.
      {"site",
       {{"site",
         "code, name, address, issuer, issuer_address, customer, customer_contact, note, due_date_agreed, "
         "working_weekdays, due_soon_days, grace_days, created_utc, created_by, early_days",
         "", ""},
        {"closed_days", "site, id, first_day, last_day, name", "", "id"}}},
      {"place", {{"place", "site, id, path, name, parent, walking_order", "id", ""}}},
      {"person",
       {{"person", "site, id, login, name, roles, left_on, hours_per_week", "id", ""},
        {"person_away", "site, person, id, first_day, last_day, name", "person", "id"}}},
      {"standard", {{"standard", "site, id, serial, maker, model, description, location", "id", ""}}},
      {"standard certificate",
       {{"standard_certificate",
         "site, standard, id, number, issuer, traceability, issued, valid_from, valid_until, coverage_factor",
         "standard, id", ""},
        {"standard_range", "site, standard, certificate, id, unit, resolution", "standard, certificate",
         "id"},
        {"standard_point", "site, standard, certificate, range, id, nominal, error, uncertainty",
         "standard, certificate", "range, id"}}},
      {"sensor", {{"sensor", "site, id, serial, maker, model, description, range", "id", ""}}},
      {"plan",
       {{"plan",
         "site, id, code, revision, title, procedure, scheme, tolerance, adjust_limit, decision_rule, "
         "cautions, settle_seconds, minutes, junction_uncertainty, lead_half_width",
         "id", ""}}},
      {"interval",
       {{"interval_policy",
         "site, id, code, policy, days, months, minimum_days, maximum_days, lengthen, shorten, target, "
         "confidence, least_outcomes",
         "id", ""}}},
      {"accepted interval",
       {{"accepted_interval",
         "site, id, channel, subject, days, months, from_day, interval_policy, proposed_days, evidence, "
         "person, at_utc, reason",
         "id", ""}}},
      {"channel",
       {{"channel", "site, id, tag, place, terminal, title, retired", "id", ""},
        {"routine", "site, channel, id, subject, plan, interval_policy", "channel", "id"}}},
      {"setup",
       {{"channel_setup", "site, channel, version, in_force_from, kind, parameters, filter_seconds, remark",
         "channel, version", ""}}},
      {"fitting", {{"fitting", "site, channel, id, sensor, fitted_from, fitted_until", "channel, id", ""}}},
      {"calibration",
       {{"calibration",
         "site, id, channel, subject, setup_version, sensor, plan, plan_revision, performed, person, "
         "temperature, humidity, conditions_note, cautions_confirmed, adjusted, repaired, adjustment, "
         "found_verdict, left_verdict, remarks, source, recorded_utc, readings, reference_junction",
         "id", ""},
        {"correction", "site, calibration, corrects, reason", "calibration", ""},
        {"calibration_standard", "site, calibration, id, standard, certificate", "calibration", "id"},
        {"reading",
         "site, calibration, phase, sequence, role, percent, direction, run, alarm, label, nominal_applied, "
         "applied, applied_unit, applied_text, indicated, indicated_unit, indicated_text, skip_reason, "
         "expected, limit_low, limit_high, uncertainty, coverage, verdict, within_one_step, floored",
         "calibration", "phase, sequence"}}},
      {"life",
       {{"life_event",
         "site, id, calibration, act, person, at_utc, reason, correction, digest, key, signature", "id",
         ""}}},
      {"certificate",
       {{"issued_certificate", "site, year, running, number, calibration, issued_utc, revision",
         "year, running", ""}}},
      {"key", {{"person_key", "site, person, id, public_key, made_utc", "person, id", ""}}},
      {"key lock",
       {{"key_lock", "site, person, key, id, salt, operations, memory, nonce, box, must_change, made_utc",
         "person, key, id", ""}}},
      {"standard event",
       {{"standard_event",
         "site, id, standard, act, first_day, last_day, person, at_utc, reason, key, signature", "id", ""}}},
      {"attachment",
       {{"attachment",
         "site, id, standard, certificate, calibration, channel, name, media_type, sha256, content, note, "
         "person, added_utc",
         "id", ""}}},
      {"round",
       {{"round", "site, id, name, reason, person, made_utc, closed_utc", "id", ""},
        {"round_stop", "site, round, id, channel, subject", "round", "id"}}},
  };
  return kUnits;
}

/// The column that holds the site: the site's own row has it under another name.
std::string_view siteColumn(const CoveredTable& table) {
  return table.table == "site" ? "code" : "site";
}

std::string selectRows(const CoveredTable& table) {
  std::string sql =
      fmt::format("SELECT {} FROM {} WHERE {} = $1", table.columns, table.table, siteColumn(table));
  int place = 1;
  for (const std::string& key : columnNames(table.keys)) {
    sql += fmt::format(" AND {} = ${}", key, ++place);
  }
  if (!table.order.empty()) {
    sql += fmt::format(" ORDER BY {}", table.order);
  }
  return sql;
}

/// What every use of one table's rows needs, worked out once.
struct PreparedTable {
  const CoveredTable* table;
  std::string sql;
  std::vector<std::string> columns;
  std::vector<int> placeColumns;  ///< those that tell people which row it is
};

const std::vector<PreparedTable>& preparedTables(const CoveredUnit& unit) {
  static const auto kAll = [] {
    std::vector<std::vector<PreparedTable>> all;
    for (const CoveredUnit& one : units()) {
      auto& list = all.emplace_back();
      for (const CoveredTable& table : one.tables) {
        PreparedTable prepared{&table, selectRows(table), columnNames(table.columns), {}};
        for (const std::string& name : columnNames(table.order)) {
          const auto at = std::find(prepared.columns.begin(), prepared.columns.end(), name);
          prepared.placeColumns.push_back(static_cast<int>(at - prepared.columns.begin()));
        }
        list.push_back(std::move(prepared));
      }
    }
    return all;
  }();
  return kAll[static_cast<std::size_t>(&unit - units().data())];
}

/// Calls `take(table, row)` for every row of the unit, in order. False when a kind or key is none.
template <class Take>
bool forEachRow(Connection& connection, std::string_view site, const UnitKey& key, Take take) {
  const CoveredUnit* unit = coveredUnit(key.unit);
  if (unit == nullptr || key.numbers.size() != columnNames(unit->tables.front().keys).size()) {
    return false;
  }
  for (const PreparedTable& table : preparedTables(*unit)) {
    Query rows = connection.query(table.sql);
    bindUnit(rows, site, key.numbers);
    while (rows.step()) {
      take(table, rows);
    }
  }
  return true;
}

RowValue valueOf(const Query& row, int column) {
  switch (row.cell(column)) {
    case Cell::null:
      return std::monostate{};
    case Cell::integer:
      return row.integer(column);
    case Cell::real:
      return row.real(column);
    case Cell::text:
      return row.textView(column);
    case Cell::bytes:
      break;
  }
  return Bytes{row.bytesView(column)};
}

nlohmann::ordered_json jsonValue(const Query& row, int column) {
  switch (row.cell(column)) {
    case Cell::null:
      return nullptr;
    case Cell::integer:
      return row.integer(column);
    case Cell::real:
      return row.real(column);
    case Cell::text:
      return row.text(column);
    case Cell::bytes:
      break;
  }
  return {{"bytes", hexOf(row.bytesView(column))}};
}

/// An attachment can be large, and is a file of its own wherever rows are handed out.
nlohmann::ordered_json contentReference(std::string_view content) {
  return {{"size", content.size()}, {"sha256", hex(sha256(content))}};
}

std::string placeText(const PreparedTable& table, const Query& row) {
  std::string text(table.table->table);
  for (const int column : table.placeColumns) {
    text += ' ' + row.text(column);
  }
  return text;
}

}  // namespace

std::span<const CoveredUnit> coveredUnits() {
  return units();
}

const CoveredUnit* coveredUnit(std::string_view name) {
  const auto found = std::find_if(units().begin(), units().end(),
                                  [name](const CoveredUnit& unit) { return unit.name == name; });
  return found == units().end() ? nullptr : &*found;
}

std::string keyText(const UnitKey& key) {
  return fmt::format("{}", fmt::join(key.numbers, "/"));
}

std::optional<std::vector<std::int64_t>> parseKeyText(std::string_view text) {
  std::vector<std::int64_t> numbers;
  while (!text.empty()) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || numbers.size() == 3) {
      return std::nullopt;
    }
    numbers.push_back(number);
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    if (!text.empty()) {
      if (text.front() != '/' || text.size() == 1) {
        return std::nullopt;
      }
      text.remove_prefix(1);
    }
  }
  return numbers;
}

std::string rowText(std::string_view table, std::span<const std::string> columns, const Query& row) {
  RowForm form(table);
  int column = 0;
  for (const std::string& name : columns) {
    form.add(name, valueOf(row, column++));
  }
  return form.text();
}

std::optional<UnitDigest> unitDigest(Connection& connection, std::string_view site, const UnitKey& key) {
  UnitDigesting unit;
  forEachRow(connection, site, key, [&](const PreparedTable& table, const Query& row) {
    unit.add(rowText(table.table->table, table.columns, row), placeText(table, row));
  });
  return unit.finish();
}

void forEachUnit(Connection& connection, std::string_view site, const CoveredUnit& unit,
                 const std::function<bool(const UnitKey&)>& visit) {
  const CoveredTable& root = unit.tables.front();
  const auto keys = columnNames(root.keys);
  Query rows = connection.query(fmt::format(
      "SELECT {} FROM {} WHERE {} = $1{}", keys.empty() ? "1" : std::string(root.keys), root.table,
      siteColumn(root), keys.empty() ? std::string() : fmt::format(" ORDER BY {}", root.keys)));
  rows.bind(site);
  while (rows.step()) {
    UnitKey key{std::string(unit.name), {}};
    for (std::size_t i = 0; i < keys.size(); ++i) {
      key.numbers.push_back(rows.integer(static_cast<int>(i)));
    }
    if (!visit(key)) {
      return;
    }
  }
}

std::string unitJson(Connection& connection, std::string_view site, const UnitKey& key) {
  nlohmann::ordered_json tables = nlohmann::ordered_json::object();
  forEachRow(connection, site, key, [&](const PreparedTable& table, const Query& row) {
    nlohmann::ordered_json values = nlohmann::ordered_json::object();
    int column = 0;
    for (const std::string& name : table.columns) {
      values[name] = name == "content" ? contentReference(row.bytesView(column)) : jsonValue(row, column);
      ++column;
    }
    tables[std::string(table.table->table)].push_back(std::move(values));
  });
  return tables.empty() ? std::string()
                        : tables.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::vector<std::string> columnNames(std::string_view list) {
  std::vector<std::string> names;
  while (!list.empty()) {
    const std::size_t comma = list.find(", ");
    names.emplace_back(list.substr(0, comma));
    list.remove_prefix(comma == std::string_view::npos ? list.size() : comma + 2);
  }
  return names;
}

}  // namespace spanwright
