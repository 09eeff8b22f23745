// SPDX-License-Identifier: GPL-3.0-or-later
//
// The open record and what is known of it: the due list, drift and where channels are found, worked out by
// core/tasks off the window's thread. What is large is held once and handed out whole.
#pragma once

#include <QObject>
#include <QString>
#include <array>
#include <filesystem>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/find_channels.h"
#include "core/tasks/fleet.h"
#include "core/tasks/history_import.h"
#include "core/tasks/status.h"
#include "gui/models/search_words.h"
#include "gui/session/worker.h"

namespace spanwright {

class Session : public QObject {
  Q_OBJECT
 public:
  explicit Session(const Clock& clock = systemClock(), QObject* parent = nullptr);

  /// Opens in the background; `opened` or `troubled` follows. Of the file only the head is checked before it
  /// is shown; the whole of it is checked at once afterwards, and if that finds damage, `troubled` says so
  /// and nothing is written any more.
  void open(const QString& file);
  /// Opens now; one sentence when that failed.
  QString openNow(const QString& file);
  /// Makes `record` from a site file in the background, then opens it.
  void create(const QString& siteFile, const QString& record);
  /// Makes `record` of this register in the background, then opens it.
  void create(const Register& site, const QString& record);
  /// Reads histories into the record in the background; `imported` follows.
  void importHistory(const QString& mapping, const QStringList& files, bool keepGood, bool dryRun);
  void close();

  bool isOpen() const { return store_ != nullptr; }
  /// Only while a record is open.
  Store& store() { return *store_; }
  const Register& site() const { return store_->site(); }
  QString file() const;
  const Clock& clock() const { return clock_; }
  Moment now() const { return clock_.localNow(); }
  Date today() const { return now().date(); }

  using DueRows = std::shared_ptr<const std::vector<DueItem>>;
  const std::vector<DueItem>& due() const { return *due_.rows; }
  const DueRows& dueRows() const { return due_.rows; }
  const SmallTexts& dueTexts() const { return due_.texts; }
  bool dueKnown() const { return due_.known; }
  /// Routines of one channel.
  const std::vector<DueItem>& due(const std::string& channel) const;

  /// All channels by drift, in one order; empty until `driftChanged`.
  struct Ranking {
    std::shared_ptr<const std::vector<FleetRow>> rows = std::make_shared<const std::vector<FleetRow>>();
    SmallTexts texts = std::make_shared<const std::vector<std::string>>();
  };
  const Ranking& fleet(FleetOrder order) const { return drift_.rankings[static_cast<std::size_t>(order)]; }
  /// Those whose band leaves their tolerance first.
  const std::vector<DriftItem>& leaving() const { return drift_.leaving; }
  bool driftKnown() const { return drift_.known; }

  /// Finds channels of the register as it was last read.
  FoundChannels find(const QString& typed, std::size_t most) const;

  /// Reads again after a change and computes due list and drift.
  void refresh();
  /// Drift of one channel; `channelDrift` follows twice: from its own readings at once, then leaning on those
  /// of like channels, which on a large site takes a while. Asking for another channel gives up on this one.
  void lookAtChannel(const QString& channel);

  /// Who signed last while the program runs; empty when nobody did.
  const QString& lastSigner() const { return lastSigner_; }
  void setLastSigner(const QString& login) { lastSigner_ = login; }

  Worker& worker() { return worker_; }

 signals:
  void opened();
  void closed();
  void dueChanged();
  /// Another register is looked through by `find`.
  void finderChanged();
  void driftChanged();
  void channelDrift(const QString& channel, const std::vector<spanwright::DriftItem>& items, bool ownOnly);
  void imported(const spanwright::ImportOutcome& outcome, bool dryRun);
  void troubled(const QString& sentence);
  /// Something has begun to wait for another program that writes to the record, or waits no longer. Comes out
  /// of the middle of a call to the store, which must not be used in answer.
  void waiting(bool waits);

 private:
  struct KnownDue {
    bool known = false;
    DueRows rows = std::make_shared<const std::vector<DueItem>>();
    SmallTexts texts;
    std::unordered_map<std::string, std::vector<DueItem>> byChannel;
  };
  struct KnownDrift {
    bool known = false;
    std::array<Ranking, 3> rankings;
    std::vector<DriftItem> leaving;
  };
  static KnownDue dueOf(const Store& store, Date day);
  static KnownDrift driftOf(const Store& store, Date day, const Progress& progress);

  void take(std::unique_ptr<Store> store);
  void forget();
  void checkFile();
  void findAnew();

  const Clock& clock_;
  std::unique_ptr<Store> store_;
  std::unique_ptr<const ChannelFinder> finder_;
  std::int64_t finderOf_ = 0;  ///< revision of the register it was made for, or is being made for
  KnownDue due_;
  KnownDrift drift_;
  int askedDrift_ = 0;     ///< counts lookAtChannel
  int answeredDrift_ = 0;  ///< the last one whose like channels are known
  QString lastSigner_;
  Worker worker_;  // last: its thread ends before what it reads goes
};

}  // namespace spanwright
