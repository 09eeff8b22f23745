// SPDX-License-Identifier: GPL-3.0-or-later
//
// The first page: open a record, make one, try the sample, or go on with a recent one.
#pragma once

#include <QWidget>

class QListWidget;
class QLabel;

namespace spanwright {

class StartScreen : public QWidget {
  Q_OBJECT
 public:
  explicit StartScreen(QWidget* parent = nullptr);
  /// Reads the recent records again.
  void refresh();

 signals:
  void openAsked();
  void siteAsked();
  void newAsked();
  void sampleAsked();
  void recordChosen(const QString& file);

 private:
  QListWidget* recent_;
  QLabel* noRecent_;
};

}  // namespace spanwright
