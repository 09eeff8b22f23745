// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/store.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

#include "core/store/calibration_rows.h"
#include "core/store/draft_rows.h"
#include "core/store/record_file.h"
#include "core/store/store_impl.h"
#include "core/store/stored_forms.h"

namespace spanwright {

Store::Store(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Store Store::create(const std::filesystem::path& file, const Register& site, const Clock& clock) {
  if (const auto faults = registerFaults(site); !faults.empty()) {
    throw InputError(problemsOf(faults));
  }
  createRecordFile(file, [&](Connection& connection) {
    const Moment now = clock.utcNow();
    writeRegister(connection, site, now);
    Journal(connection, site.site.code)
        .cover(
            acts::kAdded, [](std::string_view) { return true; }, "", now);
  });
  return open(file, Mode::readWrite, clock);
}

Store Store::open(const std::filesystem::path& file, Mode mode, const Clock& clock, Check check) {
  auto impl = std::make_unique<Impl>();
  impl->file = file;
  impl->readOnly = mode == Mode::readOnly;
  impl->clock = &clock;
  impl->connection = openRecordFile(file, impl->readOnly, check == Check::whole);
  impl->loaded = loadRegister(*impl->connection);
  return Store(std::move(impl));
}

const std::filesystem::path& Store::file() const {
  return impl_->file;
}
void Store::onWaiting(std::function<void(bool waiting)> tell) {
  impl_->connection->onWaiting(std::move(tell));
}
const Clock& Store::clock() const {
  return *impl_->clock;
}
void Store::stopWriting(std::string why) {
  impl_->stopped = std::move(why);
}
const Register& Store::site() const {
  return impl_->loaded.site;
}
std::int64_t Store::siteRevision() const {
  return impl_->loaded.revision;
}
void Store::refresh() {
  impl_->reloadWhenChanged();
}

// --- Transaction ---

Store::Transaction::Transaction(Store& store) : store_(&store) {
  Impl& impl = *store.impl_;
  assert(!impl.transactionOpen);
  impl.refuseUnlessWritable();
  impl.connection->query("BEGIN IMMEDIATE").run();
  impl.transactionOpen = true;
}

Store::Snapshot::Snapshot(Store& store) : store_(&store) {
  assert(!store.impl_->transactionOpen);
  store.impl_->connection->query("BEGIN").run();
  store.refresh();  // the first reading fixes the moment
}

Store::Snapshot::~Snapshot() {
  store_->impl_->connection->rollback();
}

void Store::Transaction::commit() {
  assert(store_ != nullptr);
  Impl& impl = *store_->impl_;
  if (!impl.connection->inTransaction()) {
    impl.connection->refuse("could not be changed because a part of the change failed",
                            "nothing of it was saved");
  }
  impl.connection->query("COMMIT").run();
  impl.transactionOpen = false;
  impl.before.reset();
  store_ = nullptr;
}

Store::Transaction::~Transaction() {
  if (store_ != nullptr) {
    store_->impl_->undo();
  }
}

// --- Calibrations ---

CalibrationId Store::add(const Calibration& calibration) {
  Impl& impl = *impl_;
  return impl.write([&] {
    impl.reloadWhenChanged();
    const Channel* const channel = impl.loaded.site.channel(calibration.channel);
    if (channel == nullptr) {
      throw InputError(fmt::format("there is no channel \"{}\" in the record", calibration.channel),
                       "check the tag");
    }
    const auto sameVersion = [&](const SetupVersion& s) { return s.version == calibration.setupVersion; };
    if (calibration.setupVersion != 0 &&
        std::none_of(channel->setups.begin(), channel->setups.end(), sameVersion)) {
      throw InputError(
          fmt::format("channel {} has no setup of version {}", channel->tag, calibration.setupVersion),
          "name a setup of this channel");
    }
    if (calibration.performed.is_special()) {
      throw InputError("the calibration has no moment at which it was performed", "give date and time");
    }
    const CalibrationId id =
        writeCalibration(*impl.connection, impl.code(), impl.loaded.keys, calibration, impl.clock->utcNow());
    impl.enter({acts::kRecorded, {"calibration", {id}}, calibration.source}, calibration.person);
    return id;
  });
}

std::optional<Calibration> Store::calibration(CalibrationId id) const {
  std::optional<Calibration> found;
  readCalibrations(*impl_->connection, impl_->code(), "c.id = $2", id, [&found](Calibration&& c) {
    found = std::move(c);
    return false;
  });
  return found;
}

std::optional<CalibrationId> Store::findCalibration(std::string_view channel, Subject subject,
                                                    Moment performed) const {
  Query row = impl_->connection->query(
      "SELECT min(id) FROM calibration WHERE site = $1 AND channel = $2 AND performed = $3 AND subject = $4");
  row.bind(impl_->code(), keyOrNone(impl_->loaded.keys.channels, channel), stored(performed),
           stored(subject));
  return row.step() && !row.isNull(0) ? std::optional(row.integer(0)) : std::nullopt;
}

std::optional<CalibrationId> Store::standingCalibration(std::string_view channel, Subject subject,
                                                        Moment performed) const {
  Query row =
      impl_->connection->query(fmt::format("SELECT min(id) FROM calibration c WHERE site = $1 AND channel = "
                                           "$2 AND performed = $3 AND subject = $4 AND {}",
                                           kCounts));
  row.bind(impl_->code(), keyOrNone(impl_->loaded.keys.channels, channel), stored(performed),
           stored(subject));
  return row.step() && !row.isNull(0) ? std::optional(row.integer(0)) : std::nullopt;
}

std::vector<CalibrationSummary> Store::calibrations(std::string_view channel) const {
  return readSummaries(*impl_->connection, impl_->code(), keyOrNone(impl_->loaded.keys.channels, channel));
}

std::vector<Calibration> Store::history(std::string_view channel) const {
  std::vector<Calibration> all;
  readCalibrations(*impl_->connection, impl_->code(),
                   fmt::format("c.channel = $2 AND {} ORDER BY c.performed, c.id", kCounts),
                   keyOrNone(impl_->loaded.keys.channels, channel), [&all](Calibration&& c) {
                     all.push_back(std::move(c));
                     return true;
                   });
  return all;
}

void Store::forEachCalibration(const std::function<bool(const Calibration&)>& visit) const {
  // Walks the index calibration_by_channel, so nothing is sorted and the first row comes at once.
  readCalibrations(*impl_->connection, impl_->code(),
                   fmt::format("c.channel > $2 AND {} ORDER BY c.channel, c.performed, c.id", kCounts), 0,
                   [&visit](Calibration&& c) { return visit(c); });
}

std::vector<CalibrationSummary> Store::latestPassing() const {
  return readLatestPassing(*impl_->connection, impl_->code());
}

std::vector<CalibrationId> Store::calibrationsUsing(std::string_view standardSerial) const {
  Query row = impl_->connection->query(
      "SELECT DISTINCT calibration FROM calibration_standard WHERE site = $1 AND standard = $2 ORDER BY "
      "calibration");
  row.bind(impl_->code(), keyOrNone(impl_->loaded.keys.standards, standardSerial));
  std::vector<CalibrationId> ids;
  while (row.step()) {
    ids.push_back(row.integer(0));
  }
  return ids;
}

std::int64_t Store::calibrationCount() const {
  Query row = impl_->connection->query("SELECT count(*) FROM calibration WHERE site = $1");
  row.bind(impl_->code()).step();
  return row.integer(0);
}

std::int64_t Store::readingCount() const {
  // Each calibration keeps how many it has; counting the rows themselves would read the whole table.
  Query row = impl_->connection->query("SELECT coalesce(sum(readings), 0) FROM calibration WHERE site = $1");
  row.bind(impl_->code()).step();
  return row.integer(0);
}

// --- Drafts ---

std::int64_t Store::saveDraft(const Draft& draft) {
  return impl_->write(
      [&] { return writeDraft(*impl_->connection, impl_->code(), impl_->loaded.keys, draft); });
}

void Store::saveDraftValue(std::int64_t draft, const DraftValue& value) {
  impl_->write([&] { writeDraftValue(*impl_->connection, impl_->code(), draft, value); });
}

std::vector<Draft> Store::drafts() const {
  return readDrafts(*impl_->connection, impl_->code(), std::nullopt);
}

std::optional<Draft> Store::draft(std::int64_t id) const {
  auto found = readDrafts(*impl_->connection, impl_->code(), id);
  return found.empty() ? std::nullopt : std::optional(std::move(found.front()));
}

void Store::removeDraft(std::int64_t id) {
  impl_->write([&] { deleteDraft(*impl_->connection, impl_->code(), id); });
}

// --- Import staging ---

void Store::stage(const StagedRow& row) {
  if (!impl_->staging) {
    impl_->staging = std::make_unique<Staging>();
  }
  impl_->staging->add(row);
}

void Store::forEachStaged(const std::function<bool(const StagedRow&)>& visit) const {
  if (impl_->staging) {
    impl_->staging->forEach(visit);
  }
}

std::int64_t Store::stagedCount() const {
  return impl_->staging ? impl_->staging->count() : 0;
}
void Store::clearStaging() {
  impl_->staging.reset();
}

}  // namespace spanwright
