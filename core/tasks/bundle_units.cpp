// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/bundle_units.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <stdexcept>

#include "core/units/time.h"

namespace spanwright {
namespace {

using Json = BundleJson;

/// Columns of a table that name another unit by its key.
struct Reference {
  std::string_view table, columns, unit;
};
constexpr Reference kReferences[] = {
    {"place", "parent", "place"},
    {"standard_certificate", "standard", "standard"},
    {"standard_event", "standard", "standard"},
    {"standard_event", "person", "person"},
    {"standard_event", "person, key", "key"},
    {"accepted_interval", "channel", "channel"},
    {"accepted_interval", "interval_policy", "interval"},
    {"accepted_interval", "person", "person"},
    {"channel", "place", "place"},
    {"routine", "plan", "plan"},
    {"routine", "interval_policy", "interval"},
    {"channel_setup", "channel", "channel"},
    {"fitting", "channel", "channel"},
    {"fitting", "sensor", "sensor"},
    {"calibration", "channel", "channel"},
    {"calibration", "channel, setup_version", "setup"},
    {"calibration", "sensor", "sensor"},
    {"calibration", "plan", "plan"},
    {"calibration", "person", "person"},
    {"correction", "corrects", "calibration"},
    {"calibration_standard", "standard", "standard"},
    {"life_event", "calibration", "calibration"},
    {"life_event", "correction", "calibration"},
    {"life_event", "person", "person"},
    {"life_event", "person, key", "key"},
    {"issued_certificate", "calibration", "calibration"},
    {"person_key", "person", "person"},
    {"attachment", "standard, certificate", "standard certificate"},
    {"attachment", "calibration", "calibration"},
    {"attachment", "channel", "channel"},
    {"attachment", "person", "person"},
    {"round", "person", "person"},
    {"round_stop", "channel", "channel"},
};

std::string utcText(Moment moment) {
  return formatMoment(moment) + "Z";
}

Digest digestIn(const Json& json, const char* name) {
  const auto digest = parseDigest(json.at(name).get_ref<const std::string&>());
  if (!digest) {
    throw std::runtime_error(fmt::format("{} is no digest", name));
  }
  return *digest;
}

JournalEntry entryOf(const Json& json) {
  JournalEntry e;
  e.entry = json.at("entry").get<std::int64_t>();
  std::string when = json.at("at_utc").get<std::string>();
  const auto moment = when.ends_with('Z') ? parseMoment(when.substr(0, when.size() - 1)) : std::nullopt;
  if (!moment || utcText(*moment) != when) {
    throw std::runtime_error("at_utc is no moment");
  }
  e.atUtc = *moment;
  e.person = json.at("person").get<std::string>();
  e.act = json.at("act").get<std::string>();
  e.unit = json.at("unit").get<std::string>();
  e.unitKey = json.at("unit_key").get<std::string>();
  if (json.at("digest").is_null() != json.at("row_digests").is_null()) {
    throw std::runtime_error("digest and row_digests are not both there or both null");
  }
  if (!json.at("digest").is_null()) {
    e.digest = digestIn(json, "digest");
    const auto rows = parseHex(json.at("row_digests").get_ref<const std::string&>());
    if (!rows) {
      throw std::runtime_error("row_digests is not written in hexadecimal");
    }
    e.rowDigests = *rows;
  }
  e.detail = json.at("detail").get<std::string>();
  e.hash = digestIn(json, "hash");
  return e;
}

std::string compact(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

std::string unitFileName(const UnitKey& key) {
  std::string name = "record/" + key.unit;
  std::replace(name.begin(), name.end(), ' ', '-');
  for (const std::int64_t number : key.numbers) {
    name += fmt::format("-{}", number);
  }
  return name + ".json";
}

std::string unitFileText(const UnitKey& key, const Json& rows) {
  const Json file{{"unit", key.unit}, {"key", keyText(key)}, {"rows", rows}};
  return file.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

UnitFile parseUnitFile(std::string_view text) {
  Json file = parseStrictly(text);
  try {
    const auto numbers = parseKeyText(file.at("key").get_ref<const std::string&>());
    UnitKey key{file.at("unit").get<std::string>(), numbers.value_or(std::vector<std::int64_t>{})};
    const CoveredUnit* unit = coveredUnit(key.unit);
    if (file.size() != 3 || !numbers || unit == nullptr ||
        numbers->size() != columnNames(unit->tables.front().keys).size()) {
      throw std::runtime_error("it does not say which part of the record it is");
    }
    return {std::move(key), std::move(file.at("rows"))};
  } catch (const Json::exception&) {
    throw std::runtime_error("it does not say which part of the record it is");
  }
}

std::vector<UnitKey> referencesOf(const UnitKey& unit, const Json& rows) {
  std::vector<UnitKey> found;
  for (const Reference& reference : kReferences) {
    const auto table = rows.find(std::string(reference.table));
    if (table == rows.end()) {
      continue;
    }
    for (const Json& row : *table) {
      UnitKey key{std::string(reference.unit), {}};
      const auto columns = columnNames(reference.columns);
      for (const std::string& column : columns) {
        if (const auto value = row.find(column); value != row.end() && value->is_number_integer()) {
          key.numbers.push_back(value->get<std::int64_t>());
        }
      }
      if (key.numbers.size() == columns.size() && key != unit &&
          std::find(found.begin(), found.end(), key) == found.end()) {
        found.push_back(std::move(key));
      }
    }
  }
  return found;
}

std::string journalLine(std::string_view site, const JournalEntry& e, bool inFull) {
  if (!inFull) {
    return compact({{"entry", e.entry}, {"content", hex(contentDigest(site, e))}, {"hash", hex(e.hash)}});
  }
  return compact({{"entry", e.entry},
                  {"at_utc", utcText(e.atUtc)},
                  {"person", e.person},
                  {"act", e.act},
                  {"unit", e.unit},
                  {"unit_key", e.unitKey},
                  {"digest", e.digest ? Json(hex(*e.digest)) : Json(nullptr)},
                  {"row_digests", e.digest ? Json(hexOf(e.rowDigests)) : Json(nullptr)},
                  {"detail", e.detail},
                  {"hash", hex(e.hash)}});
}

JournalLine parseJournalLine(std::string_view site, std::string_view text) {
  const Json json = parseStrictly(text);
  JournalLine line;
  try {
    line.inFull = !json.contains("content");
    if (json.size() != (line.inFull ? 10U : 3U)) {
      throw std::runtime_error("it has more or less in it than an entry has");
    }
    if (line.inFull) {
      line.entry = entryOf(json);
      line.content = contentDigest(site, line.entry);
    } else {
      line.entry.entry = json.at("entry").get<std::int64_t>();
      line.entry.hash = digestIn(json, "hash");
      line.content = digestIn(json, "content");
    }
  } catch (const Json::exception&) {
    throw std::runtime_error("it is no entry of a journal");
  }
  return line;
}

Json parseStrictly(std::string_view text) {
  std::vector<std::set<std::string>> open;
  bool twice = false;
  const Json::parser_callback_t look = [&](int, Json::parse_event_t event, Json& parsed) {
    if (event == Json::parse_event_t::object_start) {
      open.emplace_back();
    } else if (event == Json::parse_event_t::object_end) {
      open.pop_back();
    } else if (event == Json::parse_event_t::key) {
      twice = !open.back().insert(parsed.get<std::string>()).second || twice;
    }
    return true;
  };
  Json json = Json::parse(text, look, false);
  if (json.is_discarded()) {
    throw std::runtime_error("it is not JSON");
  }
  if (twice) {
    throw std::runtime_error("it names the same thing twice");
  }
  return json;
}

}  // namespace spanwright
