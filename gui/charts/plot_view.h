// SPDX-License-Identifier: GPL-3.0-or-later
//
// A chart on the screen, with texts beside vertical lines; texts that would lie on one another are left out
// and told in a tool tip instead.
#pragma once

#include <QChartView>
#include <QString>
#include <vector>

namespace spanwright {

struct PlotNote {
  double x = 0.0;
  QString text;
  QColor colour;
};

class PlotView : public QChartView {
  Q_OBJECT
 public:
  explicit PlotView(QWidget* parent = nullptr);
  /// Takes the chart; the one before is deleted.
  void showChart(QChart* chart, std::vector<PlotNote> notes, const QString& spoken);
  /// A sentence in place of a chart.
  void showSentence(const QString& sentence);
  const std::vector<PlotNote>& notes() const { return notes_; }
  QString sentence() const { return sentence_; }

 protected:
  void drawForeground(QPainter* painter, const QRectF& rect) override;
  bool viewportEvent(QEvent* event) override;

 private:
  std::vector<PlotNote> notes_;
  QString sentence_;
};

}  // namespace spanwright
