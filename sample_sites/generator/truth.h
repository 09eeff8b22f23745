// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is behind the readings, as tables. Columns: sample_sites/README.md, "The truth beside the histories".
#pragma once

#include <string>
#include <vector>

#include "sample_sites/generator/history.h"
#include "sample_sites/generator/sources.h"

namespace spanwright::sample {

std::string ratesCsv(const History& history);
std::string breaksCsv(const History& history);
std::string faultsCsv(const History& history);
std::string visitsCsv(const SiteSpec& site, const std::vector<SourceFile>& sources);
std::string sourcesCsv(const std::vector<SourceFile>& sources);
/// One row, or only the heading when no standard of the site was bad.
std::string faultyStandardCsv(const SiteSpec& site);

}  // namespace spanwright::sample
