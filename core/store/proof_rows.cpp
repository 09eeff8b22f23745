// SPDX-License-Identifier: GPL-3.0-or-later
//
// One pass over all calibrations for what each proves: in the order of the file, without their readings and
// without looking anything up for each.
#include <unordered_map>
#include <unordered_set>

#include "core/store/store_impl.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

/// Calibrations of which something became by which they prove nothing. From the events, which are few.
std::unordered_set<CalibrationId> proveNothing(Connection& connection, std::string_view site) {
  std::unordered_set<CalibrationId> all;
  Query row = connection.query("SELECT calibration, act FROM life_event WHERE site = $1 ORDER BY id");
  row.bind(site);
  while (row.step()) {
    const auto act = parseLifeAct(row.textView(1));
    if (!act) {
      row.damaged(fmt::format("\"{}\" becomes of no calibration", row.text(1)));
    }
    if (proves(stateAfter(*act))) {
      all.erase(row.integer(0));
    } else {
      all.insert(row.integer(0));
    }
  }
  return all;
}

}  // namespace

void Store::forEachProof(const std::function<bool(const ProofRow&)>& visit) const {
  Connection& connection = *impl_->connection;
  const Register& site = impl_->loaded.site;
  std::unordered_map<std::int64_t, std::size_t> channels;
  for (std::size_t i = 0; i < site.channels.size(); ++i) {
    channels.emplace(keyOrNone(impl_->loaded.keys.channels, site.channels[i].tag), i);
  }
  std::unordered_map<std::int64_t, std::string_view> sensors;
  for (const auto& [serial, key] : impl_->loaded.keys.sensors) {
    sensors.emplace(key, serial);
  }
  const auto without = proveNothing(connection, impl_->code());
  Query row = connection.query(
      "SELECT id, channel, subject, setup_version, sensor, performed, left_verdict FROM calibration NOT "
      "INDEXED WHERE site = $1");
  row.bind(impl_->code());
  while (row.step()) {
    ProofRow proof;
    proof.id = row.integer(0);
    const auto channel = channels.find(row.integer(1));
    if (channel == channels.end() || without.contains(proof.id)) {
      continue;  // of a channel described since this register was read, or without force
    }
    proof.channel = channel->second;
    proof.subject = subjectAt(row, 2);
    proof.setupVersion = row.smallInteger(3);
    if (const auto sensor = sensors.find(row.integer(4)); sensor != sensors.end()) {
      proof.sensor = sensor->second;
    }
    proof.performed = momentAt(row, 5);
    proof.leftVerdict = verdictAt(row, 6);
    if (!visit(proof)) {
      return;
    }
  }
}

}  // namespace spanwright
