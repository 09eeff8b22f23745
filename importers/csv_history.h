// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads calibration histories from CSV files through a mapping file.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/record/problem.h"
#include "core/record/proposal.h"
#include "core/record/register.h"

namespace spanwright {

enum class Encoding { detect, utf8, utf16le, utf16be, latin1 };
enum class Layout { longRows, wideRows };

/// How one kind of CSV file is to be read. See sample_sites/README.md for the TOML form.
struct CsvMapping;
/// Throws InputError with every mistake in the mapping.
std::shared_ptr<const CsvMapping> readCsvMapping(const std::filesystem::path& file);

/// The decimal sign the mapping declares.
DecimalSign decimalSign(const CsvMapping& mapping);

/// Streams `file` through the mapping into `into`: understood rows are added, others rejected with line,
/// column and reason. Bounded memory whatever the file's size; a line longer than 1 MiB is rejected by its
/// number. StorageError when the file cannot be read; InputError when its head does not fit the mapping, or
/// on cancel.
void readCsvHistory(const std::filesystem::path& file, const CsvMapping& mapping, const Register& site,
                    HistorySink& into, const Progress& progress = {});

}  // namespace spanwright
