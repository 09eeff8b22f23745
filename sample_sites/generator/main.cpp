// SPDX-License-Identifier: GPL-3.0-or-later
//
// sample_generator OUTDIR: writes the sample sites into OUTDIR/larkmead and OUTDIR/tiny, the same bytes every
// time.
#include <exception>
#include <filesystem>
#include <iostream>

#include "sample_sites/generator/site.h"
#include "sample_sites/generator/text.h"

namespace {

using namespace spanwright::sample;

void write(const SiteSpec& site, const std::string& folder, const std::string& name) {
  std::filesystem::create_directories(folder);
  writeFile(folder + "/" + name + ".toml", siteToml(site));
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) {
    std::cerr << "usage: sample_generator OUTDIR\n";
    return 2;
  }
  try {
    const std::string out = arguments[1];
    write(larkmead(), out + "/larkmead", "larkmead");
    write(tiny(), out + "/tiny", "tiny");
  } catch (const std::exception& error) {
    std::cerr << "sample_generator: " << error.what() << "\n";
    return 1;
  }
  return 0;
}
