// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/session/session.h"

#include "core/record/problem.h"
#include "core/store/verify.h"
#include "gui/models/due_model.h"
#include "gui/models/fleet_model.h"
#include "gui/words/words.h"
#include "importers/csv_history.h"
#include "importers/site_file.h"

namespace spanwright {
namespace {

constexpr std::size_t kLeavingMost = 40;

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
  // The Store made there is handed over and used in this thread only from then on.
  worker_.post(tr("Opening the record"), [this, path = pathOf(file)](const Progress&) -> Worker::Then {
    auto store = std::make_shared<std::unique_ptr<Store>>(
        std::make_unique<Store>(Store::open(path, Store::Mode::readWrite, clock_, Store::Check::head)));
    return [this, store] {
      take(std::move(*store));
      checkFile();
    };
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

void Session::checkFile() {
  worker_.post(
      tr("Checking the whole file"),
      [this, file = store_->file()](const Progress& progress) {
        QString found;
        try {
          checkWholeFile(file, [&progress] { return progress(-1.0); });
        } catch (const StorageError& damage) {
          found = asSentence(QString::fromUtf8(damage.what()));
        }
        return Worker::Then([this, found] {
          if (!found.isEmpty()) {
            store_->stopWriting(toCore(found));
            emit troubled(
                tr("%1 What is shown may be wrong, and nothing is saved into it any more.").arg(found));
          }
        });
      },
      Worker::Lane::file);
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
  forget();
  finderOf_ = -1;  // refresh() has one made, after what is shown first
  emit opened();
  refresh();
}

void Session::forget() {
  due_ = {};
  drift_ = {};
  finder_.reset();
  lastSigner_.clear();
}

void Session::close() {
  worker_.setFile({});
  forget();
  store_.reset();
  emit closed();
}

const std::vector<DueItem>& Session::due(const std::string& channel) const {
  static const std::vector<DueItem> kNone;
  const auto found = due_.byChannel.find(channel);
  return found == due_.byChannel.end() ? kNone : found->second;
}

FoundChannels Session::find(const QString& typed, std::size_t most) const {
  return finder_ ? finder_->find(toCore(typed), most) : FoundChannels();
}

Session::KnownDue Session::dueOf(const Store& store, Date day) {
  std::vector<DueItem> items = dueList(store, day);
  KnownDue due;
  due.known = true;
  std::vector<std::string> texts;
  texts.reserve(items.size());
  for (const DueItem& item : items) {
    texts.push_back(DueModel::smallText(item));
    due.byChannel[item.channel].push_back(item);
  }
  due.texts = std::make_shared<const std::vector<std::string>>(std::move(texts));
  due.rows = std::make_shared<const std::vector<DueItem>>(std::move(items));
  return due;
}

Session::KnownDrift Session::driftOf(const Store& store, Date day, const Progress& progress) {
  const std::vector<DriftItem> items = driftReport(store, {}, day, Pooling::likeSubjects, progress);
  KnownDrift drift;
  drift.known = true;
  drift.leaving = firstToLeave(items, kLeavingMost);
  for (const FleetOrder order : {FleetOrder::forecast, FleetOrder::toleranceUsed, FleetOrder::findings}) {
    std::vector<FleetRow> rows = fleetRanking(items, store.site(), day, order);
    std::vector<std::string> texts;
    texts.reserve(rows.size());
    for (const FleetRow& row : rows) {
      texts.push_back(FleetModel::smallText(row));
    }
    Ranking& ranking = drift.rankings[static_cast<std::size_t>(order)];
    ranking.texts = std::make_shared<const std::vector<std::string>>(std::move(texts));
    ranking.rows = std::make_shared<const std::vector<FleetRow>>(std::move(rows));
  }
  return drift;
}

void Session::findAnew() {
  worker_.postWithStore(tr("Looking at the register"), [this](Store& store, const Progress&) {
    auto finder = std::make_shared<std::unique_ptr<const ChannelFinder>>(
        std::make_unique<const ChannelFinder>(store.site()));
    return Worker::Then([this, finder] {
      finder_ = std::move(*finder);
      emit finderChanged();
    });
  });
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
  if (finderOf_ != store_->siteRevision()) {
    finderOf_ = store_->siteRevision();
    findAnew();
  }
  worker_.postWithStore(tr("Working out what is due"), [this, day = today()](Store& store, const Progress&) {
    auto due = std::make_shared<KnownDue>(dueOf(store, day));
    return Worker::Then([this, due] {
      due_ = std::move(*due);
      emit dueChanged();
    });
  });
  // A record that changes again before this is done is looked at anew from the start.
  worker_.cancel(Worker::Lane::site);
  worker_.postWithStore(
      tr("Looking at drift over the whole site"),
      [this, day = today()](Store& store, const Progress& progress) {
        auto drift = std::make_shared<KnownDrift>(driftOf(store, day, progress));
        return Worker::Then([this, drift] {
          drift_ = std::move(*drift);
          emit driftChanged();
        });
      },
      Worker::Lane::site);
}

void Session::lookAtChannel(const QString& channel) {
  worker_.cancel(Worker::Lane::like);
  ++askedDrift_;
  for (const bool ownOnly : {true, false}) {
    worker_.postWithStore(
        tr("Looking at the drift of %1").arg(channel),
        [this, channel, ownOnly, asked = askedDrift_, day = today()](Store& store, const Progress& progress) {
          auto items = std::make_shared<std::vector<DriftItem>>(driftReport(
              store, toCore(channel), day, ownOnly ? Pooling::none : Pooling::likeSubjects, progress));
          return Worker::Then([this, channel, ownOnly, asked, items] {
            // What was asked before, or comes after the better answer, is of no use any more.
            if (asked == askedDrift_ && asked != answeredDrift_) {
              answeredDrift_ = ownOnly ? answeredDrift_ : asked;
              emit channelDrift(channel, *items, ownOnly);
            }
          });
        },
        ownOnly ? Worker::Lane::soon : Worker::Lane::like);
  }
}

}  // namespace spanwright
