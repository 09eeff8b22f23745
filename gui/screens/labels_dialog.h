// SPDX-License-Identifier: GPL-3.0-or-later
//
// Labels for channels: which, on what sheet, from which place on.
#pragma once

#include <QDialog>

#include "core/tasks/labels.h"
#include "gui/certificate/label_layout.h"
#include "gui/models/rows_model.h"

class QDoubleSpinBox;
class QFormLayout;
class QLabel;
class QPushButton;
class QSpinBox;

namespace spanwright {

class RefusalLine;
class Session;
class TableView;

class LabelsModel : public RowsModel<LabelProposal> {
  Q_OBJECT
 public:
  enum Columns { kChannel, kSubject, kCalibrated, kDue, kCertificate, kWhy };
  explicit LabelsModel(QObject* parent = nullptr);
};

class LabelsDialog : public QDialog {
  Q_OBJECT
 public:
  LabelsDialog(Session& session, const std::vector<RoundStop>& stops, QWidget* parent = nullptr);
  /// Writes the sheet; one sentence in the dialog when that failed.
  void writeTo(const QString& file);
  /// What went wrong last; empty when nothing did.
  QString trouble() const;

 signals:
  void written(const QString& sentence);

 private:
  QDoubleSpinBox* measure(const QString& name, double value, QFormLayout* form);
  LabelSheet sheet() const;
  std::vector<ChannelLabel> labels() const;
  void showPlaces();
  void ask();

  Session& session_;
  LabelsModel* model_;
  TableView* table_;
  QLabel *summary_, *places_;
  QDoubleSpinBox *width_ = nullptr, *height_ = nullptr, *left_ = nullptr, *top_ = nullptr, *across_ = nullptr,
                 *down_ = nullptr;
  QSpinBox* first_;
  QPushButton* write_;
  RefusalLine* refusal_;
};

}  // namespace spanwright
