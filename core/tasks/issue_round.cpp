// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/issue_round.h"

namespace spanwright {

std::vector<RoundCertificate> certificatesOfRound(const Store& store, const Round& round) {
  std::vector<RoundCertificate> all;
  for (const StopProgress& stop : roundProgress(store, round)) {
    RoundCertificate& one = all.emplace_back();
    one.stop = stop.stop;
    one.calibration = stop.calibration;
    if (stop.calibration == 0) {
      continue;
    }
    one.state = store.state(stop.calibration);
    one.faults = issueFaults(store, stop.calibration);
    const auto issued = store.issuedCertificate(stop.calibration);
    if (issued) {
      one.number = issued->number;
      one.revision = issued->revision;
    }
    if (!one.faults.empty()) {
      continue;
    }
    if (!issued) {
      one.deed = CertificateDeed::first;
    } else if (signedSince(store, *issued)) {
      one.deed = CertificateDeed::revision;
      ++one.revision;
    } else {
      one.deed = CertificateDeed::again;
    }
  }
  return all;
}

std::optional<std::vector<Certificate>> issueTogether(Store& store,
                                                      const std::vector<CalibrationId>& calibrations,
                                                      const std::function<bool(const Certificate&)>& take) {
  Store::Transaction transaction(store);
  std::vector<Certificate> issued;
  for (const CalibrationId id : calibrations) {
    issued.push_back(issueCertificate(store, id));
    if (!take(issued.back())) {
      return std::nullopt;
    }
  }
  transaction.commit();
  return issued;
}

}  // namespace spanwright
