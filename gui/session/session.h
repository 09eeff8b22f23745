// SPDX-License-Identifier: GPL-3.0-or-later
//
// The open record and what is known of it: the due list and drift, computed by core/tasks off the window's
// thread.
#pragma once

#include <QObject>
#include <QString>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/history_import.h"
#include "core/tasks/status.h"
#include "gui/session/worker.h"

namespace spanwright {

class Session : public QObject {
  Q_OBJECT
 public:
  explicit Session(const Clock& clock = systemClock(), QObject* parent = nullptr);

  /// Opens in the background; `opened` or `troubled` follows.
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

  const std::vector<DueItem>& due() const { return due_; }
  bool dueKnown() const { return dueKnown_; }
  /// Routines of one channel.
  const std::vector<DueItem>& due(const std::string& channel) const;
  /// Drift over the whole site, one item per subject and point; empty until `driftChanged`.
  const std::vector<DriftItem>& drift() const { return drift_; }
  bool driftKnown() const { return driftKnown_; }

  /// Reads again after a change and computes due list and drift.
  void refresh();
  /// Drift of one channel; `channelDrift` follows.
  void lookAtChannel(const QString& channel);

  /// Who signed last while the program runs; empty when nobody did.
  const QString& lastSigner() const { return lastSigner_; }
  void setLastSigner(const QString& login) { lastSigner_ = login; }

  Worker& worker() { return worker_; }

 signals:
  void opened();
  void closed();
  void dueChanged();
  void driftChanged();
  void channelDrift(const QString& channel, const std::vector<spanwright::DriftItem>& items);
  void imported(const spanwright::ImportOutcome& outcome, bool dryRun);
  void troubled(const QString& sentence);
  /// Something has begun to wait for another program that writes to the record, or waits no longer. Comes out
  /// of the middle of a call to the store, which must not be used in answer.
  void waiting(bool waits);

 private:
  void take(std::unique_ptr<Store> store);

  const Clock& clock_;
  std::unique_ptr<Store> store_;
  std::vector<DueItem> due_;
  std::map<std::string, std::vector<DueItem>, std::less<>> dueByChannel_;
  std::vector<DriftItem> drift_;
  bool dueKnown_ = false;
  bool driftKnown_ = false;
  QString lastSigner_;
  Worker worker_;  // last: its thread ends before what it reads goes
};

}  // namespace spanwright
