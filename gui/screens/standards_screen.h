// SPDX-License-Identifier: GPL-3.0-or-later
//
// The standards and how long each may be used; of the chosen one its certificates, its control chart and
// what was decided about it.
#pragma once

#include <QWidget>

#include "core/tasks/standards.h"

class QComboBox;
class QLabel;
class QPushButton;
class QSortFilterProxyModel;
class QSplitter;

namespace spanwright {

class PlotView;
class Session;
class StandardCertificatesModel;
class StandardEventsModel;
class StandardsModel;
class TableView;

class StandardsScreen : public QWidget {
  Q_OBJECT
 public:
  explicit StandardsScreen(Session& session, QWidget* parent = nullptr);
  /// Reads the register again; the standard chosen stays chosen.
  void refresh();
  void choose(const QString& serial);
  /// Serial of the one chosen; empty when there is none.
  QString currentStandard() const;
  /// Asks for the files of the certificate chosen.
  void askFiles();
  PlotView* plot() const { return plot_; }

 signals:
  void decisionAsked(const QString& serial);
  void certificateAsked(const QString& serial);
  /// What it reached, found out of tolerance.
  void reachAsked(const QString& serial);
  /// Files about this certificate of the standard.
  void filesAsked(const QString& serial, const QString& certificate);

 private:
  QWidget* makeList();
  QWidget* makeDetails();
  void showCurrent();
  void showChart();

  Session& session_;
  StandardsModel* model_;
  QSortFilterProxyModel* sorted_;
  StandardCertificatesModel* certificates_;
  StandardEventsModel* events_;
  TableView *table_ = nullptr, *certificateTable_ = nullptr, *eventTable_ = nullptr;
  QLabel *heading_ = nullptr, *count_ = nullptr, *noEvents_ = nullptr, *chartNote_ = nullptr;
  QPushButton *decide_ = nullptr, *add_ = nullptr, *files_ = nullptr, *reach_ = nullptr;
  QComboBox* values_ = nullptr;
  PlotView* plot_ = nullptr;
  std::vector<ChartedValue> charts_;  // of the row chosen in model_
};

}  // namespace spanwright
