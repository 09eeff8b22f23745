// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/journal.h"

#include <fmt/format.h>

#include <charconv>
#include <nlohmann/json.hpp>

#include "core/store/row_form.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

constexpr std::string_view kContent =
    "site, entry, at_utc, person, act, unit, unit_key, digest, row_digests, detail";

std::optional<std::string_view> rowDigestsOf(const JournalEntry& entry) {
  return entry.digest ? std::optional<std::string_view>(entry.rowDigests) : std::nullopt;
}

JournalEntry entryOf(const Query& row) {
  JournalEntry e;
  e.entry = row.integer(0);
  e.atUtc = utcAt(row, 1);
  e.person = row.text(2);
  e.act = row.text(3);
  e.unit = row.text(4);
  e.unitKey = row.text(5);
  if (!row.isNull(6)) {
    e.digest = digestOf(row.bytesView(6));
    if (!e.digest) {
      row.damaged(fmt::format("entry {} of the journal has no proper digest", e.entry));
    }
    e.rowDigests = row.bytes(7);
  }
  e.detail = row.text(8);
  const auto hash = digestOf(row.bytesView(9));
  if (!hash) {
    row.damaged(fmt::format("entry {} of the journal has no proper hash", e.entry));
  }
  e.hash = *hash;
  return e;
}

constexpr std::string_view kSelectEntries =
    "SELECT entry, at_utc, person, act, unit, unit_key, digest, row_digests, detail, hash FROM journal ";

}  // namespace

Digest contentDigest(std::string_view site, const JournalEntry& e) {
  const auto bytes = [](const std::optional<std::string_view>& value) {
    return value ? RowValue(Bytes{*value}) : RowValue();
  };
  return sha256(RowForm("journal")
                    .add("site", site)
                    .add("entry", e.entry)
                    .add("at_utc", storedUtc(e.atUtc))
                    .add("person", e.person)
                    .add("act", e.act)
                    .add("unit", e.unit)
                    .add("unit_key", e.unitKey)
                    .add("digest", bytes(e.digest ? std::optional(e.digest->view()) : std::nullopt))
                    .add("row_digests", bytes(rowDigestsOf(e)))
                    .add("detail", e.detail)
                    .text());
}

JournalHead journalHead(Connection& connection, std::string_view site) {
  Query row = connection.query("SELECT entry, hash FROM journal WHERE site = $1 ORDER BY entry DESC LIMIT 1");
  if (!row.bind(site).step()) {
    return {};
  }
  const auto hash = digestOf(row.bytesView(1));
  if (!hash) {
    row.damaged("the last entry of the journal has no proper hash");
  }
  return {row.integer(0), *hash};
}

JournalHead Journal::write(const JournalHead& last, const Act& act, std::string_view person, Moment nowUtc) {
  static const std::string kInsert = insertInto("journal", fmt::format("{}, hash", kContent));
  JournalEntry e;
  e.entry = last.entry + 1;
  e.atUtc = wholeSeconds(nowUtc);
  e.person = person;
  e.act = act.act;
  e.unit = act.about.unit;
  e.unitKey = keyText(act.about);
  e.detail = act.detail;
  if (act.digested && !e.unit.empty()) {
    auto unit = unitDigest(connection_, site_, act.about);
    if (!unit) {
      connection_.refuse(fmt::format("has no {} {} to enter into the journal", e.unit, e.unitKey),
                         "nothing was saved, try again");
    }
    e.digest = unit->digest;
    e.rowDigests = std::move(unit->rows);
  }
  e.hash = sha256(last.hash, contentDigest(site_, e));
  const auto bytes = [](const auto& view) { return view ? std::optional(Bytes{*view}) : std::nullopt; };
  connection_.query(kInsert).run(site_, e.entry, storedUtc(e.atUtc), e.person, e.act, e.unit, e.unitKey,
                                 bytes(e.digest ? std::optional(e.digest->view()) : std::nullopt),
                                 bytes(rowDigestsOf(e)), e.detail, Bytes{e.hash.view()});
  return {e.entry, e.hash};
}

JournalHead Journal::append(const Act& act, std::string_view person, Moment nowUtc) {
  JournalHead last = journalHead(connection_, site_);
  Query before = connection_.query("SELECT at_utc FROM journal WHERE site = $1 AND entry = $2");
  if (before.bind(site_, last.entry).step()) {
    const Moment then = utcAt(before, 0);
    if (wholeSeconds(nowUtc) < then) {
      const Act back{
          acts::kClockBack, {}, fmt::format("from {} to {}", storedUtc(then), storedUtc(nowUtc)), false};
      last = write(last, back, "", nowUtc);
    }
  }
  return write(last, act, person, nowUtc);
}

void Journal::cover(std::string_view act, const std::function<bool(std::string_view unit)>& chosen,
                    std::string_view person, Moment nowUtc) {
  JournalHead last = journalHead(connection_, site_);
  if (last.entry == 0) {
    last = write(last, {acts::kMade, {}, "spanwright " SPANWRIGHT_VERSION, false}, person, nowUtc);
  }
  for (const CoveredUnit& unit : coveredUnits()) {
    if (!chosen(unit.name)) {
      continue;
    }
    forEachUnit(connection_, site_, unit, [&](const UnitKey& key) {
      last = write(last, {act, key}, person, nowUtc);
      return true;
    });
  }
}

void forEachEntry(Connection& connection, std::string_view site, std::int64_t first,
                  const std::function<bool(const JournalEntry&)>& visit) {
  Query row =
      connection.query(fmt::format("{} WHERE site = $1 AND entry >= $2 ORDER BY entry", kSelectEntries));
  row.bind(site, first);
  while (row.step()) {
    if (!visit(entryOf(row))) {
      return;
    }
  }
}

std::vector<JournalEntry> entriesAbout(Connection& connection, std::string_view site, const UnitKey& key) {
  Query row = connection.query(
      fmt::format("{} WHERE site = $1 AND unit = $2 AND unit_key = $3 ORDER BY entry", kSelectEntries));
  row.bind(site, key.unit, keyText(key));
  std::vector<JournalEntry> entries;
  while (row.step()) {
    entries.push_back(entryOf(row));
  }
  return entries;
}

std::string changeDetail(std::string_view before, std::string_view after) {
  using Json = nlohmann::ordered_json;
  const Json was = before.empty() ? Json::object() : Json::parse(before);
  const Json is = after.empty() ? Json::object() : Json::parse(after);
  Json changes = Json::object();
  for (const auto& [table, rows] : is.items()) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
      for (const auto& [column, value] : rows[i].items()) {
        const bool known = was.contains(table) && i < was[table].size();
        const Json old = known ? was[table][i].value(column, Json()) : Json();
        if (old != value) {
          changes[rows.size() == 1 ? column : fmt::format("{} {} {}", table, i + 1, column)] = {old, value};
        }
      }
    }
  }
  return changes.dump();
}

std::string headText(const JournalHead& head) {
  return fmt::format("{}:{}", head.entry, hex(head.hash));
}

std::optional<JournalHead> parseHead(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos) {
    return std::nullopt;
  }
  JournalHead head;
  const auto [end, error] = std::from_chars(text.data(), text.data() + colon, head.entry);
  const auto hash = parseDigest(text.substr(colon + 1));
  if (error != std::errc() || end != text.data() + colon || head.entry < 1 || !hash) {
    return std::nullopt;
  }
  head.hash = *hash;
  return head;
}

}  // namespace spanwright
