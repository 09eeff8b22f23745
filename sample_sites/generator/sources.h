// SPDX-License-Identifier: GPL-3.0-or-later
//
// The histories as files, each in the form its years were kept in.
#pragma once

#include <string>
#include <vector>

#include "sample_sites/generator/history.h"

namespace spanwright::sample {

struct SourceFile {
  std::string name;     ///< "history-2022-2026.csv"
  std::string mapping;  ///< "history-2022-2026.map.toml", written by hand
  std::string content;
  std::vector<const Visit*> visits = {};
  bool tellsSkipped = false;  ///< has rows for points left out; else they are simply missing
};

/// Larkmead: the workshop's sheets (wide) and the other visits (long) up to 2021, everything since in one
/// long file.
std::vector<SourceFile> larkmeadSources(const History& history);
/// One long file.
std::vector<SourceFile> tinySources(const History& history);

/// Heading and rows of the long form in use since 2022; also that of the mistakes.
std::string longHeading();
std::string longRows(const Visit& visit);

/// The visit file for `visit`.
std::string visitToml(const Visit& visit);

}  // namespace spanwright::sample
