// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a power cut may leave of files.
#include <algorithm>
#include <fstream>
#include <stdexcept>
#include <string_view>

#include "tests/core/store/faults/fault_disk.h"

namespace spanwright::test {

namespace fs = std::filesystem;

namespace {

constexpr std::uint64_t kSector = 512;

void put(std::string& content, std::uint64_t offset, std::string_view bytes) {
  if (content.size() < offset + bytes.size()) {
    content.resize(offset + bytes.size(), '\0');
  }
  content.replace(offset, bytes.size(), bytes);
}

}  // namespace

void FaultDisk::Image::settle() {
  for (Change& change : changes) {
    change.settled = change.settled || !change.doubtful;
  }
  auto next = changes.begin();
  for (; next != changes.end() && next->settled; ++next) {
    if (next->truncation) {
      durable.resize(next->offset, '\0');
    } else {
      put(durable, next->offset, next->bytes);
    }
  }
  changes.erase(changes.begin(), next);
}

namespace {

/// How much of what was not synced reached the disk.
enum class Luck { nothing, everything, upToOne, scattered };
enum class Fate { lost, whole, torn };

/// One fate per change.
std::vector<Fate> fates(std::size_t count, Luck luck, std::mt19937_64& random) {
  std::vector<Fate> all(count, luck == Luck::everything ? Fate::whole : Fate::lost);
  if (luck == Luck::upToOne) {
    const auto torn = std::uniform_int_distribution<std::size_t>(0, count)(random);
    std::fill_n(all.begin(), torn, Fate::whole);
    if (torn < count) {
      all[torn] = Fate::torn;
    }
  } else if (luck == Luck::scattered) {
    std::discrete_distribution<int> any{1, 1, 1};
    std::generate(all.begin(), all.end(), [&] { return static_cast<Fate>(any(random)); });
  }
  return all;
}

}  // namespace

std::string FaultDisk::crashed(const Image& image, std::mt19937_64& random) {
  const auto luck = static_cast<Luck>(std::uniform_int_distribution(0, 3)(random));
  const std::vector<Fate> fate = fates(image.changes.size(), luck, random);
  std::bernoulli_distribution half(0.5);
  std::string content = image.durable;
  for (std::size_t i = 0; i < fate.size(); ++i) {
    const Change& change = image.changes[i];
    const Fate its = change.settled ? Fate::whole : fate[i];
    if (change.truncation) {
      if (its != Fate::lost) {
        content.resize(change.offset, '\0');
      }
      continue;
    }
    const std::string_view bytes = change.bytes;
    const std::uint64_t end = change.offset + bytes.size();
    for (std::uint64_t from = change.offset; from < end;) {
      const std::uint64_t to = std::min(end, (from / kSector + 1) * kSector);
      if (its == Fate::whole || (its == Fate::torn && half(random))) {
        put(content, from, bytes.substr(from - change.offset, to - from));
      }
      from = to;
    }
    // The file may have grown before its new part was written.
    if (luck == Luck::scattered && content.size() < end && half(random)) {
      content.resize(end, '\0');
    }
  }
  return content;
}

void FaultDisk::leaveCrashIn(const fs::path& folder, std::mt19937_64& random) const {
  for (const auto& [name, images] : names_) {
    const auto which = std::uniform_int_distribution<std::size_t>(0, images.size() - 1)(random);
    if (const ImagePtr& image = images[which]) {
      const std::string content = crashed(*image, random);
      std::ofstream out(folder / fs::path(name).filename(), std::ios::binary);
      out << content;
      if (!out.flush()) {
        throw std::runtime_error("the crash could not be written");
      }
    }
  }
}

}  // namespace spanwright::test
