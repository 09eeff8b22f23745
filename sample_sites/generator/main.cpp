// SPDX-License-Identifier: GPL-3.0-or-later
//
// sample_generator OUTDIR: writes the sample sites into OUTDIR/larkmead and OUTDIR/tiny, the same bytes every
// time.
#include <exception>
#include <filesystem>
#include <iostream>

#include "sample_sites/generator/mistakes.h"
#include "sample_sites/generator/sources.h"
#include "sample_sites/generator/text.h"
#include "sample_sites/generator/truth.h"

namespace {

using namespace spanwright::sample;

void write(const std::string& folder, const std::string& siteFile, const SiteSpec& site,
           const History& history, const std::vector<SourceFile>& sources) {
  std::filesystem::create_directories(folder + "/truth");
  writeFile(folder + "/" + siteFile, siteToml(site));
  for (const SourceFile& source : sources) {
    writeFile(folder + "/" + source.name, source.content);
  }
  if (history.next) {
    writeFile(folder + "/visit.toml", visitToml(*history.next));
  }
  writeFile(folder + "/truth/rates.csv", ratesCsv(history));
  writeFile(folder + "/truth/breaks.csv", breaksCsv(history));
  writeFile(folder + "/truth/faults.csv", faultsCsv(history));
  writeFile(folder + "/truth/visits.csv", visitsCsv(site, sources));
  writeFile(folder + "/truth/sources.csv", sourcesCsv(sources));
  writeFile(folder + "/truth/faulty-standard.csv", faultyStandardCsv(site));
}

void writeAll(const std::string& out) {
  const SiteSpec creamery = larkmead();
  const History years = simulate(creamery);
  write(out + "/larkmead", "larkmead.toml", creamery, years, larkmeadSources(years));
  writeFile(out + "/larkmead/found.toml", foundToml(creamery));
  const MistakeSheet mistakes = larkmeadMistakes(years);
  writeFile(out + "/larkmead/mistakes.csv", mistakes.csv);
  writeFile(out + "/larkmead/mistakes-expected.csv", mistakes.expected);
  const SiteSpec brewHouse = tiny();
  const History fewYears = simulate(brewHouse);
  write(out + "/tiny", "tiny.toml", brewHouse, fewYears, tinySources(fewYears));
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) {
    std::cerr << "usage: sample_generator OUTDIR\n";
    return 2;
  }
  try {
    writeAll(arguments[1]);
  } catch (const std::exception& error) {
    std::cerr << "sample_generator: " << error.what() << "\n";
    return 1;
  }
  return 0;
}
