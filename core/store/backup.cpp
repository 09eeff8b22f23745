// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/backup.h"

#include <array>
#include <fstream>

#include "core/store/record_file.h"

namespace spanwright {
namespace {

std::string fileDigest(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  DigestOver over;
  std::array<char, 1 << 16> block{};
  while (in.read(block.data(), block.size()) || in.gcount() > 0) {
    over.add({block.data(), static_cast<std::size_t>(in.gcount())});
  }
  return hex(over.finish());
}

}  // namespace

RecordCopy copyRecord(const std::filesystem::path& record, const std::filesystem::path& copy,
                      const CheckProgress& progress) {
  constexpr double kCopying = 0.4;  // the rest is checking
  RecordCopy made;
  makeFile(copy, [&](const std::filesystem::path& half) {
    {
      const auto source = openForChecking(record);
      Connection target(half, Connection::Access::create, Connection::kBusyWait, copy);
      source->copyTo(target, [&](double share) { return !progress || progress(kCopying * share); });
    }
    made.check = verifyRecord(
        half, {}, [&](double share) { return !progress || progress(kCopying + (1.0 - kCopying) * share); });
    const auto counted = openForChecking(half);
    made.calibrations = counted->integer("SELECT count(*) FROM calibration");
    made.readings = counted->integer("SELECT coalesce(sum(readings), 0) FROM calibration");
  });
  made.bytes = std::filesystem::file_size(copy);
  made.sha256 = fileDigest(copy);
  return made;
}

}  // namespace spanwright
