// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/unit_digest.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "core/store/row_form.h"

namespace spanwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kRowMark = 8;  // bytes of each row's digest that an entry keeps

/// A value of a row; `held` keeps what it may point to.
RowValue valueOf(const std::string& column, const Json& value, const ContentOf& content, std::string& held) {
  if (value.is_null()) {
    return std::monostate{};
  }
  if (value.is_number_integer()) {
    return value.get<std::int64_t>();
  }
  if (value.is_number_float()) {
    return value.get<double>();
  }
  if (value.is_string()) {
    return std::string_view(value.get_ref<const std::string&>());
  }
  if (value.is_object() && value.size() == 1 && value.contains("bytes") && value["bytes"].is_string()) {
    auto bytes = parseHex(value["bytes"].get_ref<const std::string&>());
    if (!bytes) {
      throw std::runtime_error(fmt::format("{} is not written in hexadecimal", column));
    }
    held = *std::move(bytes);
    return Bytes{held};
  }
  if (value.is_object() && column == "content") {
    held = content(value);
    return Bytes{held};
  }
  throw std::runtime_error(fmt::format("{} holds no value that a row has", column));
}

std::string rowText(const CoveredTable& table, const std::vector<std::string>& columns, const Json& row,
                    const ContentOf& content) {
  if (!row.is_object() || row.size() != columns.size()) {
    throw std::runtime_error(fmt::format("a row of {} has not the columns it should have", table.table));
  }
  RowForm form(table.table);
  for (const std::string& column : columns) {
    const auto value = row.find(column);
    if (value == row.end()) {
      throw std::runtime_error(fmt::format("a row of {} is without {}", table.table, column));
    }
    std::string held;
    form.add(column, valueOf(column, *value, content, held));
  }
  return form.text();
}

std::string placeOf(const CoveredTable& table, const Json& row) {
  std::string place(table.table);
  for (const std::string& column : columnNames(table.order)) {
    const Json& value = row.at(column);
    place += ' ' + (value.is_string() ? value.get<std::string>() : value.dump());
  }
  return place;
}

/// Steps of an alignment of two lists of row marks: which rows of the entry are gone, which are new.
struct Alignment {
  std::vector<std::size_t> gone, added;
};

std::vector<std::string_view> marksOf(std::string_view rows) {
  std::vector<std::string_view> marks;
  for (std::size_t at = 0; at + kRowMark <= rows.size(); at += kRowMark) {
    marks.push_back(rows.substr(at, kRowMark));
  }
  return marks;
}

/// Longest common subsequence; units have few rows.
Alignment aligned(const std::vector<std::string_view>& was, const std::vector<std::string_view>& is) {
  std::vector<std::vector<std::size_t>> common(was.size() + 1, std::vector<std::size_t>(is.size() + 1, 0));
  for (std::size_t i = was.size(); i-- > 0;) {
    for (std::size_t j = is.size(); j-- > 0;) {
      common[i][j] =
          was[i] == is[j] ? common[i + 1][j + 1] + 1 : std::max(common[i + 1][j], common[i][j + 1]);
    }
  }
  Alignment changes;
  std::size_t i = 0, j = 0;
  while (i < was.size() || j < is.size()) {
    if (i < was.size() && j < is.size() && was[i] == is[j]) {
      ++i, ++j;
    } else if (j == is.size() || (i < was.size() && common[i + 1][j] >= common[i][j + 1])) {
      changes.gone.push_back(i++);
    } else {
      changes.added.push_back(j++);
    }
  }
  return changes;
}

}  // namespace

void UnitDigesting::add(std::string_view row, std::string place) {
  const Digest digest = sha256(row);
  over_.add(digest.view());
  unit_.rows += digest.view().substr(0, kRowMark);
  unit_.places.push_back(std::move(place));
}

std::optional<UnitDigest> UnitDigesting::finish() {
  if (unit_.places.empty()) {
    return std::nullopt;
  }
  unit_.digest = over_.finish();
  return std::move(unit_);
}

UnitDigest unitDigest(const CoveredUnit& unit, const Json& rows, const ContentOf& content) {
  if (!rows.is_object()) {
    throw std::runtime_error("it holds no rows");
  }
  UnitDigesting digesting;
  std::size_t tables = 0;
  for (const CoveredTable& table : unit.tables) {
    const auto list = rows.find(std::string(table.table));
    if (list == rows.end()) {
      continue;
    }
    ++tables;
    if (!list->is_array() || list->empty()) {
      throw std::runtime_error(fmt::format("{} is no list of rows", table.table));
    }
    const auto columns = columnNames(table.columns);
    for (const Json& row : *list) {
      digesting.add(rowText(table, columns, row, content), placeOf(table, row));
    }
  }
  auto digest = digesting.finish();
  const auto root = rows.find(std::string(unit.tables.front().table));
  if (!digest || tables != rows.size() || root == rows.end() || root->size() != 1) {
    throw std::runtime_error(fmt::format("its tables are not those of a {}", unit.name));
  }
  return *std::move(digest);
}

std::vector<std::string> rowChanges(std::string_view rows, const std::optional<UnitDigest>& unit) {
  const auto was = marksOf(rows);
  const Alignment changes = aligned(was, unit ? marksOf(unit->rows) : std::vector<std::string_view>{});
  const std::size_t pairs = std::min(changes.gone.size(), changes.added.size());
  std::vector<std::string> clauses;
  for (std::size_t i = 0; i < changes.added.size(); ++i) {
    clauses.push_back(fmt::format("the row \"{}\" {}", unit->places[changes.added[i]],
                                  i < pairs ? "was changed" : "was added"));
  }
  if (changes.gone.size() > pairs) {
    clauses.push_back(fmt::format("{} of its {} rows were removed", changes.gone.size() - pairs, was.size()));
  }
  return clauses;
}

}  // namespace spanwright
