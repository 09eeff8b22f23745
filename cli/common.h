// SPDX-License-Identifier: GPL-3.0-or-later
//
// What several commands share: printing of JSON, dates from options, progress.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cli/command.h"
#include "core/record/proposal.h"
#include "core/store/journal.h"
#include "core/store/store.h"
#include "core/units/time.h"

namespace spanwright {

using Json = nlohmann::ordered_json;

/// A number, or null for nothing and for what JSON cannot hold (infinities).
Json orNull(std::optional<double> value);
/// "2026-03-01", or null.
Json orNull(std::optional<Date> value);

void printJson(const Surroundings& surroundings, const Json& document);

/// The day that `text` of the option names (called wrongly when it is not a date), or today when it is empty.
Date dayOf(const std::string& text, const Surroundings& surroundings, const char* option = "--on");

/// Writes the file whole or, with a StorageError, not at all.
void writeWhole(const std::string& file, const std::string& text);

/// What --head gave, each written as "journal --head" prints it; InputError for one that is not.
std::vector<JournalHead> headsOf(const std::vector<std::string>& options);

/// The record for a command that may write; a wait for another program is told on standard error.
Store openRecord(const std::string& record, Store::Mode mode, const Surroundings& surroundings);

/// A bar on a terminal, silent otherwise.
Progress progressBar(const Surroundings& surroundings, const std::string& what);

}  // namespace spanwright
