// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rounds with their progress, and the chosen one's stops in walking order.
#pragma once

#include <QWidget>
#include <optional>

#include "core/tasks/rounds.h"

class QLabel;
class QPushButton;

namespace spanwright {

class RoundsModel;
class Session;
class StopsModel;
class TableView;

class RoundsScreen : public QWidget {
  Q_OBJECT
 public:
  explicit RoundsScreen(Session& session, QWidget* parent = nullptr);
  /// Reads the record again; what was chosen stays chosen.
  void refresh();
  void choose(std::int64_t round);
  /// The next stop to do of the round chosen, after the one last gone to; it is the current one from then on.
  /// Nothing when all are done or none is open.
  std::optional<RoundStop> goToNext();
  /// Of the round chosen when it is open and every stop of it is done; else empty.
  QString doneRound() const;
  /// Of the stop chosen; empty when there is none.
  QString currentChannel() const;
  /// The sheet of what is still to do, to be printed and taken along.
  void writeSheetTo(const QString& file);

 signals:
  void visitAsked(const QString& tag, std::optional<spanwright::Subject> subject);
  void calibrationChosen(const QString& tag, spanwright::CalibrationId calibration);
  void newAsked();
  void certificatesAsked(const spanwright::Round& round);
  void labelsAsked(const std::vector<spanwright::RoundStop>& stops);
  void sheetWritten(const QString& sentence);
  void closed(const QString& sentence);

 private:
  QWidget* makeList();
  QWidget* makeStops();
  void showCurrent();
  void openStop();
  void visitStop();
  void noteGone(int stop);
  void closeRound();
  void askSheet();
  std::int64_t currentRound() const;

  Session& session_;
  RoundsModel* model_;
  StopsModel* stops_;
  QWidget* stopsSide_ = nullptr;
  TableView *table_ = nullptr, *stopsTable_ = nullptr;
  QLabel *count_ = nullptr, *heading_ = nullptr, *nothing_ = nullptr;
  std::optional<std::size_t> gone_;  // the stop last gone to, of goneRound_
  std::int64_t goneRound_ = 0;
  QPushButton *new_ = nullptr, *close_ = nullptr, *visit_ = nullptr, *sheet_ = nullptr,
              *certificates_ = nullptr, *labels_ = nullptr;
};

}  // namespace spanwright
