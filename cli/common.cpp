// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/common.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
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

Date dayOf(const std::string& option, const Surroundings& surroundings) {
  if (option.empty()) {
    return surroundings.clock.localNow().date();
  }
  const std::optional<Date> day = parseDate(option);
  if (!day) {
    throw CLI::ValidationError("--on", fmt::format("\"{}\" is not a date; write it as 2026-03-01", option));
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
