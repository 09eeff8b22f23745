// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/common.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <memory>
#include <ostream>

#include "core/record/problem.h"

namespace spanwright {

Json orNull(std::optional<double> value) {
  return value && std::isfinite(*value) ? Json(*value) : Json(nullptr);
}

Json orNull(std::optional<Date> value) {
  return value && !value->is_special() ? Json(formatDate(*value)) : Json(nullptr);
}

void printJson(const Surroundings& surroundings, const Json& document) {
  // Replace rather than throw: a text imported from elsewhere must not keep a whole list from being printed.
  surroundings.out << document.dump(2, ' ', false, Json::error_handler_t::replace) << '\n';
}

Date dayOf(const std::string& text, const Surroundings& surroundings, const char* option) {
  if (text.empty()) {
    return surroundings.clock.localNow().date();
  }
  const std::optional<Date> day = parseDate(text);
  if (!day) {
    throw CLI::ValidationError(option, fmt::format("\"{}\" is not a date; write it as 2026-03-01", text));
  }
  return *day;
}

std::vector<JournalHead> headsOf(const std::vector<std::string>& options) {
  std::vector<JournalHead> heads;
  for (const std::string& option : options) {
    const std::optional<JournalHead> head = parseHead(option);
    if (!head) {
      throw InputError(fmt::format("\"{}\" is no head of a journal", option),
                       "write the number of the entry, a colon and its hash of 64 digits");
    }
    heads.push_back(*head);
  }
  return heads;
}

void writeWhole(const std::string& file, const std::string& text) {
  const std::filesystem::path path(file);
  const std::filesystem::path part = path.string() + ".part";
  std::ofstream out(part, std::ios::binary);
  out << text;
  out.close();
  std::error_code failed;
  if (out) {
    std::filesystem::rename(part, path, failed);
  }
  if (!out || failed) {
    std::error_code ignored;
    std::filesystem::remove(part, ignored);
    throw StorageError(
        fmt::format("The file {} cannot be written; choose another place or make room.", file));
  }
}

Store openRecord(const std::string& record, Store::Mode mode, const Surroundings& surroundings) {
  Store store = Store::open(record, mode, surroundings.clock);
  store.onWaiting([&err = surroundings.err](bool waiting) {
    if (waiting) {
      err << "Another program is writing to the record; waiting." << std::endl;
    }
  });
  return store;
}

Progress progressBar(const Surroundings& surroundings, const std::string& what) {
  if (!surroundings.errIsTerminal) {
    return [](double) { return true; };
  }
  constexpr int kCells = 40;
  auto shown = std::make_shared<int>(-1);
  return [&err = surroundings.err, what, shown](double done) {
    const int percent = static_cast<int>(std::floor(std::clamp(done, 0.0, 1.0) * 100.0));
    if (percent != *shown) {
      *shown = percent;
      const auto filled = static_cast<std::size_t>(percent * kCells / 100);
      err << fmt::format("\r{} [{}{}] {:3} %", what, std::string(filled, '#'),
                         std::string(kCells - filled, '.'), percent)
          << (percent == 100 ? "\n" : "") << std::flush;
    }
    return true;
  };
}

}  // namespace spanwright
