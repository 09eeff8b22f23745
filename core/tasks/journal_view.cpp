// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/journal_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

namespace spanwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::int64_t kProgressEvery = 4096;

std::string lower(std::string_view text) {
  std::string small(text);
  std::transform(small.begin(), small.end(), small.begin(), [](unsigned char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : static_cast<char>(c);
  });
  return small;
}

std::vector<std::string> wordsOf(std::string_view text) {
  std::vector<std::string> words;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = std::min(text.find_first_of(" \t\r\n", from), text.size());
    if (to > from) {
      words.emplace_back(text.substr(from, to - from));
    }
    from = to + 1;
  }
  return words;
}

std::optional<std::int64_t> leadingNumber(std::string_view text) {
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc() ? std::optional(number) : std::nullopt;
}

/// What the entry says itself, without a look at the rows.
std::optional<CalibrationId> calibrationNamed(const JournalEntry& entry) {
  constexpr std::string_view kBefore = "calibration ";
  if (entry.unit == "calibration") {
    return leadingNumber(entry.unitKey);
  }
  if (entry.unit == "life" && entry.detail.starts_with(kBefore)) {
    return leadingNumber(std::string_view(entry.detail).substr(kBefore.size()));
  }
  return std::nullopt;
}

struct Wanted {
  std::string word;                      ///< in small letters
  std::set<CalibrationId> calibrations;  ///< of the channel whose tag the word is
};

std::vector<Wanted> wantedOf(const Store& store, std::string_view words) {
  std::vector<Wanted> all;
  for (const std::string& word : wordsOf(words)) {
    Wanted& wanted = all.emplace_back(Wanted{lower(word), {}});
    for (const Channel& channel : store.site().channels) {
      if (lower(channel.tag) == wanted.word) {
        for (const CalibrationSummary& each : store.calibrations(channel.tag)) {
          wanted.calibrations.insert(each.id);
        }
      }
    }
  }
  return all;
}

bool holds(const JournalEntry& entry, const std::string& text, const Wanted& wanted) {
  if (text.find(wanted.word) != std::string::npos) {
    return true;
  }
  if (wanted.calibrations.empty()) {
    return false;
  }
  const auto calibration = calibrationNamed(entry);
  return calibration && wanted.calibrations.contains(*calibration);
}

std::optional<UnitKey> keyOf(const JournalEntry& entry) {
  auto numbers = parseKeyText(entry.unitKey);
  if (entry.unit.empty() || !numbers) {
    return std::nullopt;
  }
  return UnitKey{entry.unit, *std::move(numbers)};
}

Json rowsOf(const Store& store, const JournalEntry& entry) {
  const auto key = keyOf(entry);
  const std::string rows = key ? store.unitRows(*key) : std::string();
  return rows.empty() ? Json::object() : Json::parse(rows);
}

std::string shown(const Json& value) {
  return value.is_null() ? std::string() : value.is_string() ? value.get<std::string>() : value.dump();
}

}  // namespace

std::vector<JournalEntry> journalEntries(const Store& store, std::int64_t first, std::int64_t last) {
  std::vector<JournalEntry> entries;
  if (last < first) {
    return entries;
  }
  store.forEachEntry(first, [&](const JournalEntry& entry) {
    if (entry.entry <= last) {
      entries.push_back(entry);
    }
    return entry.entry < last;
  });
  return entries;
}

std::vector<std::int64_t> findEntries(const Store& store, std::string_view words, const Progress& progress) {
  const std::vector<Wanted> wanted = wantedOf(store, words);
  const auto all = static_cast<double>(std::max<std::int64_t>(1, store.journalHead().entry));
  std::vector<std::int64_t> found;
  store.forEachEntry(1, [&](const JournalEntry& entry) {
    const std::string text = lower(fmt::format("{}\n{}\n{} {}\n{}\n{}", entry.person, entry.act, entry.unit,
                                               entry.unitKey, entry.detail, formatMoment(entry.atUtc)));
    if (std::all_of(wanted.begin(), wanted.end(),
                    [&](const Wanted& each) { return holds(entry, text, each); })) {
      found.push_back(entry.entry);
    }
    return !progress || entry.entry % kProgressEvery != 0 || progress(static_cast<double>(entry.entry) / all);
  });
  std::reverse(found.begin(), found.end());
  return found;
}

std::vector<FieldChange> changesOf(const JournalEntry& entry) {
  std::vector<FieldChange> changes;
  if (entry.act != acts::kChanged) {
    return changes;
  }
  const Json detail = Json::parse(entry.detail, nullptr, false);
  if (!detail.is_object()) {
    return changes;
  }
  for (const auto& [field, pair] : detail.items()) {
    if (pair.is_array() && pair.size() == 2) {
      changes.push_back({field, shown(pair[0]), shown(pair[1])});
    }
  }
  return changes;
}

std::vector<UnitField> fieldsOf(const Store& store, const JournalEntry& entry) {
  std::vector<UnitField> fields;
  const Json all = rowsOf(store, entry);
  for (const auto& [table, rows] : all.items()) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const std::string part = rows.size() == 1 ? table : fmt::format("{} {}", table, i + 1);
      for (const auto& [column, value] : rows[i].items()) {
        fields.push_back({part, column, shown(value)});
      }
    }
  }
  return fields;
}

std::optional<CalibrationId> calibrationOf(const Store& store, const JournalEntry& entry) {
  if (const auto named = calibrationNamed(entry)) {
    return named;
  }
  if (entry.unit != "certificate" && entry.unit != "attachment") {
    return std::nullopt;
  }
  const Json all = rowsOf(store, entry);
  for (const auto& [table, rows] : all.items()) {
    if (!rows.empty() && rows[0].contains("calibration") && rows[0]["calibration"].is_number_integer()) {
      return rows[0]["calibration"].get<CalibrationId>();
    }
  }
  return std::nullopt;
}

std::string aboutText(const Store& store, const JournalEntry& entry) {
  if (entry.unit.empty()) {
    return "the record";
  }
  if (const auto calibration =
          calibrationNamed(entry)) {  // what is signed, rather than the signature's number
    const auto found = store.calibration(*calibration);
    return found ? fmt::format("calibration {}, {}", *calibration, found->channel)
                 : fmt::format("calibration {}", *calibration);
  }
  return entry.unitKey.empty() ? entry.unit : fmt::format("{} {}", entry.unit, entry.unitKey);
}

}  // namespace spanwright
