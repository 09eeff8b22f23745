// SPDX-License-Identifier: GPL-3.0-or-later
//
// The points of a standard's certificate, typed cell by cell or pasted as a table.
#pragma once

#include <QTableWidget>
#include <vector>

#include "core/tasks/standard_certificate.h"

namespace spanwright {

class PointTable : public QTableWidget {
  Q_OBJECT
 public:
  explicit PointTable(QWidget* parent = nullptr);
  /// Line for line as they stand, empty ones too, so that a line's number is the one seen.
  std::vector<TypedPoint> points() const;
  /// In the place of everything typed.
  void setPoints(const std::vector<TypedPoint>& points);
  /// From the current line on; lines are added as needed.
  void paste(const QString& text);

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void growTo(int rows);
  /// Along the line, then to the next one's value: unit and resolution stand for those below.
  void goOn();
  void write(int row, const TypedPoint& point);
};

}  // namespace spanwright
