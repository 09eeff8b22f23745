// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/evidence_units.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/tasks/attachments.h"

namespace spanwright {
namespace {

std::string belowName(std::string_view unit, std::int64_t number) {
  return fmt::format("{} {}", unit, number);
}

}  // namespace

std::string attachmentFile(const Attachment& attachment) {
  return (attachment.standard.empty() ? "attachments/" : "standards/") + fileNameOf(attachment);
}

EvidenceUnits::EvidenceUnits(const Store& store) : store_(store), all_(store.attachments()) {
  std::set<std::string> seen;
  // The journal names every unit there is.
  store.forEachEntry(1, [&](const JournalEntry& entry) {
    const bool ofChannel = entry.unit == "setup" || entry.unit == "fitting";
    const auto numbers = parseKeyText(entry.unitKey);
    if (!numbers || numbers->empty()) {
      return true;
    }
    UnitKey unit{entry.unit, *numbers};
    if (entry.unit == "certificate") {
      certificateOf_[entry.entry] = std::move(unit);
    } else if ((ofChannel || entry.unit == "standard certificate" || entry.unit == "standard event") &&
               seen.insert(unitFileName(unit)).second) {
      auto& list =
          entry.unit == "standard event" ? standardEvents_ : below_[belowName(entry.unit, numbers->front())];
      list.push_back(std::move(unit));
    }
    return true;
  });
}

void EvidenceUnits::want(UnitKey unit) {
  if (known_.insert(unitFileName(unit)).second) {
    open_.push_back(std::move(unit));
  }
}

void EvidenceUnits::gather(const std::vector<UnitKey>& from, const Take& take) {
  for (const UnitKey& unit : from) {
    want(unit);
  }
  follow(take);
  // Only now is it known which certificates of the standards the calibrations name.
  attach([&](const Attachment& a) {
    return std::any_of(usedCertificates_.begin(), usedCertificates_.end(), [&](const auto& used) {
      return serials_[used.first] == a.standard && used.second == a.certificate;
    });
  });
  follow(take);
}

void EvidenceUnits::follow(const Take& take) {
  while (!open_.empty()) {
    const UnitKey unit = std::move(open_.front());
    open_.pop_front();
    BundleJson rows = BundleJson::parse(store_.unitRows(unit), nullptr, false);
    if (!rows.is_object()) {
      continue;  // referred to, but not there: the check of the finished bundle names it
    }
    for (UnitKey& referred : referencesOf(unit, rows)) {
      want(std::move(referred));
    }
    belongings(unit, rows);
    take(unit, std::move(rows));
  }
}

void EvidenceUnits::belongings(const UnitKey& unit, const BundleJson& rows) {
  const std::int64_t number = unit.numbers.empty() ? 0 : unit.numbers.front();
  if (unit.unit == "calibration") {
    ofCalibration(number, rows);
  } else if (unit.unit == "standard") {
    ofStandard(number, rows);
  } else if (unit.unit == "channel") {
    for (const char* kind : {"setup", "fitting"}) {
      for (const UnitKey& below : below_[belowName(kind, number)]) {
        want(below);
      }
    }
    const std::string tag = rows["channel"][0]["tag"].get<std::string>();
    if (const Channel* const channel = store_.site().channel(tag)) {
      for (const AcceptedInterval& accepted : channel->acceptedIntervals) {
        want({"accepted interval", {accepted.id}});
      }
    }
    attach([&](const Attachment& a) { return a.channel == tag; });
  }
}

void EvidenceUnits::ofCalibration(CalibrationId id, const BundleJson& rows) {
  calibrations_.insert(id);
  for (const LifeEvent& event : store_.life(id)) {
    want({"life", {event.id}});
  }
  if (const auto issued = store_.issuedCertificate(id)) {
    want(certificateOf_.at(issued->journal.entry));
  }
  if (const auto used = rows.find("calibration_standard"); used != rows.end()) {
    for (const BundleJson& row : *used) {
      usedCertificates_.emplace(row["standard"].get<std::int64_t>(), row["certificate"].get<std::string>());
    }
  }
  attach([&](const Attachment& a) { return a.calibration == id; });
}

void EvidenceUnits::ofStandard(std::int64_t standard, const BundleJson& rows) {
  serials_[standard] = rows["standard"][0]["serial"].get<std::string>();
  for (const UnitKey& certificate : below_[belowName("standard certificate", standard)]) {
    want(certificate);
  }
  for (const UnitKey& event : standardEvents_) {
    const auto eventRows = BundleJson::parse(store_.unitRows(event), nullptr, false);
    if (eventRows.is_object() && eventRows["standard_event"][0]["standard"] == standard) {
      want(event);
    }
  }
}

void EvidenceUnits::attach(const std::function<bool(const Attachment&)>& belongs) {
  for (const Attachment& attachment : all_) {
    const UnitKey unit{"attachment", {attachment.id}};
    if (belongs(attachment) && !has(unit)) {
      attached_.push_back(attachment);
      want(unit);
    }
  }
}

}  // namespace spanwright
