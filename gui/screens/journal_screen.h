// SPDX-License-Identifier: GPL-3.0-or-later
//
// The journal: what was done to the record, newest first, and of the chosen entry what it changed.
#pragma once

#include <QWidget>

#include "core/record/calibration.h"
#include "gui/models/rows_model.h"

class QLabel;
class QLineEdit;
class QPushButton;
class QTimer;

namespace spanwright {

class JournalModel;
class Session;
class TableView;

/// A value that the entry changed, or that stands in its rows now.
struct EntryField {
  QString field, before, now;
};
class EntryFieldsModel : public RowsModel<EntryField> {
  Q_OBJECT
 public:
  explicit EntryFieldsModel(QObject* parent = nullptr);
};

class JournalScreen : public QWidget {
  Q_OBJECT
 public:
  explicit JournalScreen(Session& session, QWidget* parent = nullptr);
  /// Reads to where the journal ends now.
  void refresh();
  /// The record is gone.
  void drop();
  int count() const;
  /// Goes to the box that narrows.
  void findWords();

 signals:
  void calibrationChosen(const QString& tag, spanwright::CalibrationId calibration);

 private:
  QWidget* makeList();
  QWidget* makeDetails();
  void narrow();
  void take(std::optional<std::vector<std::int64_t>> found);
  void showCurrent();
  void goToCalibration();

  Session& session_;
  JournalModel* model_;
  EntryFieldsModel* fields_;
  QLineEdit* words_ = nullptr;
  QLabel *count_ = nullptr, *head_ = nullptr, *heading_ = nullptr, *facts_ = nullptr;
  QPushButton *copy_ = nullptr, *show_ = nullptr;
  TableView *table_ = nullptr, *fieldsTable_ = nullptr;
  QTimer* pause_;  // between the last letter and the search
  std::int64_t last_ = 0;
  std::optional<CalibrationId> calibration_;  // of the entry chosen
  int search_ = 0;                            // only the latest search is shown
};

}  // namespace spanwright
