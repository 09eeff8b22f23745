// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/stored_sheet.h"

#include <fmt/format.h>

#include <algorithm>

namespace spanwright {
namespace {

Problem gone(std::string what) {
  return {{}, std::move(what), "enter it in the register, or judge the readings by hand"};
}

std::optional<Problem> addParts(VisitSheet& sheet, const Register& site, const Calibration& calibration) {
  sheet.channel = site.channel(calibration.channel);
  if (sheet.channel == nullptr) {
    return gone(fmt::format("channel {} is not in the register", calibration.channel));
  }
  const auto& setups = sheet.channel->setups;
  const auto setup = std::find_if(setups.begin(), setups.end(), [&](const SetupVersion& each) {
    return each.version == calibration.setupVersion;
  });
  if (setup == setups.end()) {
    return gone(
        fmt::format("setup {} of {} is not in the register", calibration.setupVersion, calibration.channel));
  }
  sheet.setup = &*setup;
  sheet.plan = site.plan(calibration.plan);
  if (sheet.plan == nullptr || sheet.plan->revision != calibration.planRevision) {
    return gone(fmt::format("plan {} in revision {} is not in the register", calibration.plan,
                            calibration.planRevision));
  }
  if (calibration.subject != Subject::channel) {
    sheet.sensor = site.sensor(calibration.sensor);
    if (sheet.sensor == nullptr) {
      return gone(fmt::format("sensor {} is not in the register", calibration.sensor));
    }
  }
  return std::nullopt;
}

/// What the model would refuse to be made from.
std::optional<Problem> faultOf(const VisitSheet& sheet) {
  if (sheet.subject != Subject::sensor) {
    if (const auto faults = setupFaults(sheet.setup->setup); !faults.empty()) {
      return gone(fmt::format("setup {} of {} cannot be used: {}", sheet.setup->version, sheet.channel->tag,
                              faults.front()));
    }
  }
  if (sheet.sensor != nullptr) {
    if (const auto faults = sensorFaults(sheet.sensor->range); !faults.empty()) {
      return gone(fmt::format("sensor {} cannot be used: {}", sheet.sensor->serial, faults.front()));
    }
  }
  return std::nullopt;
}

}  // namespace

std::variant<VisitSheet, Problem> storedSheet(const Register& site, const Calibration& calibration) {
  VisitSheet sheet;
  sheet.site = &site;
  sheet.subject = calibration.subject;
  sheet.when = calibration.performed;
  sheet.referenceJunction = calibration.conditions.referenceJunction;
  if (auto missing = addParts(sheet, site, calibration)) {
    return std::move(*missing);
  }
  if (auto fault = faultOf(sheet)) {
    return std::move(*fault);
  }
  switch (sheet.subject) {
    case Subject::channel:
      sheet.model = channelModel(sheet.setup->setup);
      break;
    case Subject::sensor:
      sheet.model = sensorModel(sheet.sensor->range);
      break;
    case Subject::loop:
      sheet.model = loopModel(sheet.setup->setup, sheet.sensor->range);
      break;
  }
  return sheet;
}

std::vector<const Standard*> standardsOf(const Register& site, const Calibration& calibration) {
  std::vector<const Standard*> found;
  for (const UsedStandard& used : calibration.standards) {
    if (const Standard* standard = site.standard(used.serial)) {
      found.push_back(standard);
    }
  }
  return found;
}

const StandardCertificate* certificateNumbered(const Standard& standard, std::string_view number) {
  const auto at =
      std::find_if(standard.certificates.begin(), standard.certificates.end(),
                   [&](const StandardCertificate& certificate) { return certificate.number == number; });
  return at == standard.certificates.end() ? nullptr : &*at;
}

}  // namespace spanwright
