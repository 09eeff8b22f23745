// SPDX-License-Identifier: GPL-3.0-or-later
//
// What went wrong in a dialog, one sentence with its sign; nothing while nothing did.
#pragma once

#include <QWidget>

class QLabel;

namespace spanwright {

class RefusalLine : public QWidget {
  Q_OBJECT
 public:
  explicit RefusalLine(QWidget* parent = nullptr);
  /// An empty sentence takes the line away.
  void say(const QString& sentence);
  QString sentence() const;

 private:
  QLabel* text_;
};

}  // namespace spanwright
