// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <array>

#include "core/record/register.h"

namespace spanwright {
namespace {

constexpr std::array kActs{std::pair{StandardAct::outOfService, std::string_view("out of service")},
                           std::pair{StandardAct::backInService, std::string_view("back in service")},
                           std::pair{StandardAct::useAllowed, std::string_view("use allowed")}};

/// The event that takes the standard out of service on `day`, or nullptr. Of events of one day the later
/// counts.
const StandardEvent* outOn(const Standard& standard, Date day) {
  const StandardEvent* last = nullptr;
  for (const StandardEvent& event : standard.events) {
    const bool service = event.act != StandardAct::useAllowed;
    if (service && event.firstDay <= day && (last == nullptr || event.firstDay >= last->firstDay)) {
      last = &event;
    }
  }
  return last != nullptr && last->act == StandardAct::outOfService ? last : nullptr;
}

/// The last decision that allows its use on `day` without a valid certificate, or nullptr.
const StandardEvent* allowanceOn(const Standard& standard, Date day) {
  const StandardEvent* allowance = nullptr;
  for (const StandardEvent& event : standard.events) {
    if (event.act == StandardAct::useAllowed && event.firstDay <= day && day <= event.lastDay) {
      allowance = &event;
    }
  }
  return allowance;
}

}  // namespace

StandardUse standardUse(const Standard& standard, Date day) {
  if (const StandardEvent* out = outOn(standard, day)) {
    return {nullptr, false, out};
  }
  if (const StandardCertificate* valid = certificateOn(standard, day)) {
    return {valid, false, nullptr};
  }
  const StandardCertificate* last = vouchingCertificate(standard, day);
  return last != nullptr ? StandardUse{last, true, allowanceOn(standard, day)} : StandardUse{};
}

const StandardCertificate* vouchingCertificate(const Standard& standard, Date day) {
  if (const StandardCertificate* valid = certificateOn(standard, day)) {
    return valid;
  }
  const StandardCertificate* last = nullptr;
  for (const StandardCertificate& certificate : standard.certificates) {
    if (certificate.validUntil < day && (last == nullptr || certificate.validUntil >= last->validUntil)) {
      last = &certificate;
    }
  }
  return allowanceOn(standard, day) != nullptr ? last : nullptr;
}

std::string signedText(std::string_view site, const StandardEvent& event, std::string_view publicKey) {
  const auto line = [](std::string_view name, std::string_view value) {
    return fmt::format("{}:{}:{}\n", name, value.size(), value);
  };
  return "spanwright standard 1\n" + line("site", site) + line("standard", event.standard) +
         line("act", text(event.act)) + line("first day", formatDate(event.firstDay)) +
         line("last day", formatDate(event.lastDay)) + line("person", event.person) +
         line("at", formatMoment(event.atUtc) + "Z") + line("reason", event.reason) + line("key", publicKey);
}

std::string_view text(StandardAct act) {
  for (const auto& [value, word] : kActs) {
    if (value == act) {
      return word;
    }
  }
  return {};
}

std::optional<StandardAct> parseStandardAct(std::string_view text) {
  for (const auto& [value, word] : kActs) {
    if (word == text) {
      return value;
    }
  }
  return std::nullopt;
}

}  // namespace spanwright
