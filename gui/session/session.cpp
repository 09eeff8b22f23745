// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/session/session.h"

#include "core/record/problem.h"
#include "gui/words/words.h"
#include "importers/csv_history.h"
#include "importers/site_file.h"

namespace spanwright {
namespace {

std::filesystem::path pathOf(const QString& file) {
  return {file.toStdU16String()};
}

}  // namespace

Session::Session(const Clock& clock, QObject* parent) : QObject(parent), clock_(clock) {
  connect(&worker_, &Worker::failed, this, &Session::troubled);
}

QString Session::file() const {
  return store_ ? QString::fromStdU16String(store_->file().u16string()) : QString();
}

void Session::open(const QString& file) {
  // Opening checks the whole file. The Store made there is handed over and used in this thread only from then
  // on.
  worker_.post(tr("Opening the record"), [this, path = pathOf(file)](const Progress&) -> Worker::Then {
    auto store = std::make_shared<std::unique_ptr<Store>>(
        std::make_unique<Store>(Store::open(path, Store::Mode::readWrite, clock_)));
    return [this, store] { take(std::move(*store)); };
  });
}

QString Session::openNow(const QString& file) {
  try {
    take(std::make_unique<Store>(Store::open(pathOf(file), Store::Mode::readWrite, clock_)));
  } catch (const std::exception& error) {
    return asSentence(QString::fromUtf8(error.what()));
  }
  return {};
}

void Session::create(const QString& siteFile, const QString& record) {
  worker_.post(tr("Making the record"),
               [this, from = pathOf(siteFile), to = pathOf(record)](const Progress&) -> Worker::Then {
                 const Register site = readSiteFile(from);
                 auto store = std::make_shared<std::unique_ptr<Store>>(
                     std::make_unique<Store>(Store::create(to, site, clock_)));
                 return [this, store] { take(std::move(*store)); };
               });
}

void Session::create(const Register& site, const QString& record) {
  worker_.post(tr("Making the record"), [this, site, to = pathOf(record)](const Progress&) -> Worker::Then {
    auto store =
        std::make_shared<std::unique_ptr<Store>>(std::make_unique<Store>(Store::create(to, site, clock_)));
    return [this, store] { take(std::move(*store)); };
  });
}

void Session::importHistory(const QString& mapping, const QStringList& files, bool keepGood, bool dryRun) {
  std::vector<std::filesystem::path> paths;
  for (const QString& file : files) {
    paths.push_back(pathOf(file));
  }
  const std::filesystem::path record = store_->file();
  worker_.post(dryRun ? tr("Looking at the histories") : tr("Importing"),
               [this, map = pathOf(mapping), paths, record, keepGood, dryRun](const Progress& progress) {
                 const auto form = readCsvMapping(map);
                 Store store = Store::open(record, Store::Mode::readWrite, clock_);
                 store.onWaiting([this](bool waits) { emit waiting(waits); });
                 HistoryImport import(store, clock_.localNow(), decimalSign(*form));
                 for (const auto& path : paths) {
                   readCsvHistory(path, *form, store.site(), import, progress);
                 }
                 auto outcome = std::make_shared<ImportOutcome>(import.finish(keepGood, dryRun, progress));
                 return Worker::Then([this, outcome, dryRun] { emit imported(*outcome, dryRun); });
               });
}

void Session::take(std::unique_ptr<Store> store) {
  store_ = std::move(store);
  store_->onWaiting([this](bool waits) { emit waiting(waits); });
  worker_.setFile(store_->file());
  due_.clear();
  dueByChannel_.clear();
  drift_.clear();
  dueKnown_ = false;
  driftKnown_ = false;
  lastSigner_.clear();
  emit opened();
  refresh();
}

void Session::close() {
  worker_.setFile({});
  due_.clear();
  dueByChannel_.clear();
  drift_.clear();
  dueKnown_ = false;
  driftKnown_ = false;
  store_.reset();
  emit closed();
}

const std::vector<DueItem>& Session::due(const std::string& channel) const {
  static const std::vector<DueItem> kNone;
  const auto found = dueByChannel_.find(channel);
  return found == dueByChannel_.end() ? kNone : found->second;
}

void Session::refresh() {
  if (!store_) {
    return;
  }
  try {
    store_->refresh();
  } catch (const StorageError& error) {
    emit troubled(asSentence(QString::fromUtf8(error.what())));
    return;
  }
  worker_.postWithStore(tr("Working out what is due"), [this, day = today()](Store& store, const Progress&) {
    auto items = std::make_shared<std::vector<DueItem>>(dueList(store, day));
    return Worker::Then([this, items] {
      due_ = std::move(*items);
      dueKnown_ = true;
      dueByChannel_.clear();
      for (const DueItem& item : due_) {
        dueByChannel_[item.channel].push_back(item);
      }
      emit dueChanged();
    });
  });
  worker_.postWithStore(tr("Looking at drift over the whole site"),
                        [this, day = today()](Store& store, const Progress&) {
                          auto items = std::make_shared<std::vector<DriftItem>>(driftReport(store, {}, day));
                          return Worker::Then([this, items] {
                            drift_ = std::move(*items);
                            driftKnown_ = true;
                            emit driftChanged();
                          });
                        });
}

void Session::lookAtChannel(const QString& channel) {
  worker_.postWithStore(tr("Looking at the drift of %1").arg(channel), [this, channel, day = today()](
                                                                           Store& store, const Progress&) {
    auto items = std::make_shared<std::vector<DriftItem>>(driftReport(store, toCore(channel), day));
    return Worker::Then([this, channel, items] { emit channelDrift(channel, *items); });
  });
}

}  // namespace spanwright
