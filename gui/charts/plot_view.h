// SPDX-License-Identifier: GPL-3.0-or-later
//
// A chart on the screen, with texts beside vertical lines; texts that would lie on one another are left out
// and told in a tool tip instead. A chart over time can be moved and zoomed along its time: by dragging and
// the wheel, by Left, Right, Plus and Minus; Home shows all of it again. Of long series only what can be told
// apart on the screen is handed to the chart, which would take a second for ten thousand points.
#pragma once

#include <QCategoryAxis>
#include <QChartView>
#include <QString>
#include <QXYSeries>
#include <optional>
#include <utility>
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
  /// First and last chart day in view; nothing when there is no time axis.
  std::optional<std::pair<double, double>> timesShown() const;

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void drawForeground(QPainter* painter, const QRectF& rect) override;
  bool viewportEvent(QEvent* event) override;

 private:
  /// A series with more points than can be told apart, and all of them.
  struct Long {
    QXYSeries* series = nullptr;
    QList<QPointF> all;
  };
  void takeTimes();
  /// As much of these times as the chart has; both ends move when one would leave it.
  void showTimesFrom(double first, double width);
  void move(double shareOfWidth);
  void zoom(double factor, double aroundShare);
  void thinOut();
  double width() const { return last_ - first_; }

  QCategoryAxis* times_ = nullptr;
  double wholeFirst_ = 0.0, wholeLast_ = 0.0;  // what the chart was made for
  double first_ = 0.0, last_ = 0.0;            // what is in view
  std::vector<Long> long_;
  std::optional<double> dragged_;  // where the pointer was last, in pixels
  std::vector<PlotNote> notes_;
  QString sentence_;
};

}  // namespace spanwright
