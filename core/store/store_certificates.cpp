// SPDX-License-Identifier: GPL-3.0-or-later
//
// The Store's part about issued certificates.
#include <fmt/format.h>

#include "core/store/store_impl.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

constexpr std::string_view kSelectIssued =
    "SELECT i.number, i.calibration, i.issued_utc, i.revision, i.year, i.running FROM issued_certificate i "
    "WHERE i.site = $1 AND i.calibration = $2";

UnitKey unitOf(const Query& row) {
  return {"certificate", {row.integer(4), row.integer(5)}};
}

/// The certificate as its `revision` was issued, or as the newest (0); nothing when there was no such
/// revision.
std::optional<IssuedCertificate> certificateOf(Connection& connection, std::string_view site,
                                               const Query& row, int revision) {
  // One entry for each revision, the newest last. A record from before there was a journal has one for all
  // until then.
  const auto entries = entriesAbout(connection, site, unitOf(row));
  if (entries.empty()) {
    row.damaged(fmt::format("the journal does not know of certificate {}", row.text(0)));
  }
  const int newest = row.smallInteger(3);
  const int back = revision == 0 ? 0 : newest - revision;
  if (back < 0 || back >= std::ssize(entries)) {
    return std::nullopt;
  }
  const JournalEntry& entry = entries[entries.size() - 1 - static_cast<std::size_t>(back)];
  const Moment revised = entry.act == acts::kIssued ? entry.atUtc : utcAt(row, 2);
  return IssuedCertificate{
      row.text(0), row.integer(1), utcAt(row, 2), newest - back, {entry.entry, entry.hash}, revised};
}

/// Did anything become of the calibration since the present revision was issued?
bool outdated(Connection& connection, std::string_view site, CalibrationId calibration,
              std::int64_t issueEntry) {
  Query last = connection.query(
      "SELECT max(j.entry) FROM life_event l JOIN journal j ON j.site = l.site AND j.unit = 'life' AND "
      "j.unit_key = CAST(l.id AS TEXT) WHERE l.site = $1 AND l.calibration = $2");
  return last.bind(site, calibration).step() && last.integer(0) > issueEntry;
}

}  // namespace

IssuedCertificate Store::issueCertificate(CalibrationId calibration) {
  static const std::string kIssued =
      insertInto("issued_certificate", "site, year, running, number, calibration, issued_utc, revision");
  Impl& impl = *impl_;
  return impl.write([&] {
    Query known = impl.connection->query("SELECT 1 FROM calibration WHERE site = $1 AND id = $2");
    if (!known.bind(impl.code(), calibration).step()) {
      throw InputError(fmt::format("there is no calibration {} in the record", calibration),
                       "check its number");
    }
    {
      Query row = impl.connection->query(kSelectIssued);
      if (row.bind(impl.code(), calibration).step()) {
        const IssuedCertificate issued = *certificateOf(*impl.connection, impl.code(), row, 0);
        if (!outdated(*impl.connection, impl.code(), calibration, issued.journal.entry)) {
          return issued;
        }
        const UnitKey unit = unitOf(row);
        impl.connection
            ->query(
                "UPDATE issued_certificate SET revision = revision + 1 WHERE site = $1 AND calibration = $2")
            .run(impl.code(), calibration);
        impl.enter({acts::kIssued, unit, fmt::format("{}, revision {}", issued.number, issued.revision + 1)});
        return *issuedCertificate(calibration);
      }
    }
    const int year = impl.clock->localNow().date().year();  // the year on the wall where it is issued
    Query next = impl.connection->query(
        "SELECT coalesce(max(running), 0) + 1 FROM issued_certificate WHERE site = $1 AND year = $2");
    next.bind(impl.code(), year).step();
    const std::int64_t running = next.integer(0);
    const std::string number = fmt::format("{}-{}-{:04}", impl.code(), year, running);
    impl.connection->query(kIssued).run(impl.code(), year, running, number, calibration,
                                        storedUtc(impl.clock->utcNow()), 1);
    impl.enter({acts::kIssued, {"certificate", {year, running}}, number});
    return *issuedCertificate(calibration);
  });
}

std::optional<IssuedCertificate> Store::issuedCertificate(CalibrationId calibration) const {
  return issuedRevision(calibration, 0);
}

std::optional<IssuedCertificate> Store::issuedRevision(CalibrationId calibration, int revision) const {
  Query row = impl_->connection->query(kSelectIssued);
  if (!row.bind(impl_->code(), calibration).step()) {
    return std::nullopt;
  }
  return certificateOf(*impl_->connection, impl_->code(), row, revision);
}

}  // namespace spanwright
