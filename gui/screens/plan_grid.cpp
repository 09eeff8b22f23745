// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/plan_grid.h"

#include <QApplication>
#include <QDrag>
#include <QHeaderView>
#include <QMimeData>
#include <QMouseEvent>
#include <QPainter>
#include <QStyledItemDelegate>
#include <algorithm>

#include "gui/models/plan_models.h"
#include "gui/settings/text_size.h"
#include "gui/words/marks.h"

namespace spanwright {
namespace {

constexpr int kEdge = 4;
constexpr int kLeastDay = 88;
constexpr int kLinesOfStop = 2;

int lineHeight(const QWidget* of) {
  return of->fontMetrics().height() + 4;
}

/// The day of the month, and a line for each stop.
class DayDelegate : public QStyledItemDelegate {
 public:
  DayDelegate(const PlanWeeksModel* model, const PlanGrid* grid)
      : QStyledItemDelegate(const_cast<PlanGrid*>(grid)), model_(model), grid_(grid) {}

  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    const auto day = model_->dayAt(index);
    if (!day) {
      QStyledItemDelegate::paint(painter, option, index);
      return;
    }
    const QPalette& palette = option.palette;
    const bool current = (option.state & QStyle::State_Selected) != 0;
    painter->save();
    painter->fillRect(option.rect, model_->isClosed(index) ? palette.color(QPalette::AlternateBase)
                                                           : palette.color(QPalette::Base));
    const int line = lineHeight(grid_);
    QRect at = option.rect.adjusted(kEdge, 2, -kEdge, 0);
    at.setHeight(line);
    painter->setPen(palette.color(QPalette::PlaceholderText));
    painter->drawText(at, Qt::AlignRight | Qt::AlignVCenter, QString::number(static_cast<int>(day->day())));
    at.setHeight(kLinesOfStop * line);
    at.translate(0, line - kLinesOfStop * line);
    for (const int stop : model_->stopsAt(index)) {
      at.translate(0, kLinesOfStop * line);
      const bool chosen = current && grid_->currentStop() == stop;
      if (chosen) {
        painter->fillRect(at, palette.color(QPalette::Highlight));
      }
      painter->setPen(palette.color(chosen ? QPalette::HighlightedText : QPalette::Text));
      QRect words = at.adjusted(2, 0, -2, 0);
      if (model_->hasLate(stop)) {
        markIcon(Mark::exclaim, Tone::bad)
            .paint(painter, QRect(words.left(), words.top() + 2, line - 4, line - 4), Qt::AlignCenter,
                   chosen ? QIcon::Selected : QIcon::Normal);
        words.setLeft(words.left() + line);
      }
      words.setHeight(line);
      for (const QString& each : model_->shortLinesOf(stop)) {
        painter->drawText(words, Qt::AlignVCenter | Qt::AlignLeft,
                          painter->fontMetrics().elidedText(each, Qt::ElideRight, words.width()));
        words.translate(0, line);
      }
    }
    if ((option.state & QStyle::State_HasFocus) != 0 || current) {
      painter->setPen(QPen(palette.color(QPalette::Highlight), 2));
      painter->drawRect(option.rect.adjusted(1, 1, -1, -1));
    }
    painter->restore();
  }

 private:
  const PlanWeeksModel* model_;
  const PlanGrid* grid_;
};

}  // namespace

PlanGrid::PlanGrid(PlanWeeksModel* model, QWidget* parent) : QTableView(parent), model_(model) {
  setModel(model);
  setAccessibleName(tr("Weeks and days of the plan"));
  setItemDelegate(new DayDelegate(model, this));
  setSelectionMode(QAbstractItemView::SingleSelection);
  setEditTriggers(QAbstractItemView::NoEditTriggers);
  setTabKeyNavigation(false);
  setAcceptDrops(true);
  setWordWrap(true);
  verticalHeader()->hide();
  horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  horizontalHeader()->setMinimumSectionSize(scaled(kLeastDay));
  horizontalHeader()->setHighlightSections(false);
  setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
  setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
}

void PlanGrid::fitRows() {
  const int line = lineHeight(this);
  const QFontMetrics metrics = fontMetrics();
  for (const int column :
       {static_cast<int>(PlanWeeksModel::kWeek), static_cast<int>(PlanWeeksModel::kHours)}) {
    int width =
        metrics.horizontalAdvance(model_->headerData(column, Qt::Horizontal, Qt::DisplayRole).toString());
    for (int row = 0; row < model_->rowCount(); ++row) {
      for (const QString& each : model_->index(row, column).data().toString().split(u'\n')) {
        width = std::max(width, metrics.horizontalAdvance(each));
      }
    }
    horizontalHeader()->setSectionResizeMode(column, QHeaderView::Fixed);
    horizontalHeader()->resizeSection(column, width + 4 * kEdge);
  }
  for (int row = 0; row < model_->rowCount(); ++row) {
    int lines = 2;
    for (int column = 0; column < model_->columnCount(); ++column) {
      const QModelIndex index = model_->index(row, column);
      const int own = model_->dayAt(index)
                          ? kLinesOfStop * static_cast<int>(model_->stopsAt(index).size()) + 1
                          : static_cast<int>(index.data().toString().count(u'\n')) + 1;
      lines = std::max(lines, own);
    }
    setRowHeight(row, lines * line + 8);
  }
}

void PlanGrid::resizeEvent(QResizeEvent* event) {
  QTableView::resizeEvent(event);
  viewport()->update();
}

std::optional<int> PlanGrid::stopUnder(const QPoint& place) const {
  const QModelIndex index = indexAt(place);
  const std::vector<int> stops = model_->stopsAt(index);
  const int line = (place.y() - visualRect(index).top() - 2) / lineHeight(this) - 1;
  const int at = line / kLinesOfStop;
  return line >= 0 && at < static_cast<int>(stops.size()) ? std::optional(stops[static_cast<std::size_t>(at)])
                                                          : std::nullopt;
}

std::optional<int> PlanGrid::currentStop() const {
  const std::vector<int> stops = model_->stopsAt(currentIndex());
  if (stops.empty()) {
    return std::nullopt;
  }
  const bool here = chosen_ && std::find(stops.begin(), stops.end(), *chosen_) != stops.end();
  return here ? *chosen_ : stops.front();
}

void PlanGrid::chooseStop(int stop) {
  for (int row = 0; row < model_->rowCount(); ++row) {
    for (int column = PlanWeeksModel::kMonday; column <= PlanWeeksModel::kSunday; ++column) {
      const QModelIndex index = model_->index(row, column);
      const std::vector<int> stops = model_->stopsAt(index);
      if (std::find(stops.begin(), stops.end(), stop) != stops.end()) {
        chosen_ = stop;
        setCurrentIndex(index);
        scrollTo(index);
        viewport()->update();
        return;
      }
    }
  }
}

void PlanGrid::currentChanged(const QModelIndex& current, const QModelIndex& before) {
  QTableView::currentChanged(current, before);
  if (const auto stop = currentStop()) {
    emit stopChosen(*stop);
  }
}

void PlanGrid::mousePressEvent(QMouseEvent* event) {
  pressed_ = event->pos();
  dragged_ = event->button() == Qt::LeftButton ? stopUnder(event->pos()) : std::nullopt;
  if (dragged_) {
    chosen_ = dragged_;
  }
  QTableView::mousePressEvent(event);
  if (dragged_) {
    emit stopChosen(*dragged_);
    viewport()->update();
  }
}

void PlanGrid::mouseMoveEvent(QMouseEvent* event) {
  if (!dragged_ || (event->pos() - pressed_).manhattanLength() < QApplication::startDragDistance()) {
    return;
  }
  auto* drag = new QDrag(this);
  auto* mime = new QMimeData;
  mime->setData(QLatin1String(kStopMime), QByteArray::number(*dragged_));
  mime->setText(model_->lineOf(*dragged_));
  drag->setMimeData(mime);
  dragged_.reset();
  drag->exec(Qt::MoveAction);
}

void PlanGrid::mouseDoubleClickEvent(QMouseEvent* event) {
  if (const auto stop = stopUnder(event->pos())) {
    emit stopOpened(*stop);
  }
}

void PlanGrid::keyPressEvent(QKeyEvent* event) {
  const auto stop = currentStop();
  if (stop && (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)) {
    emit stopOpened(*stop);
    return;
  }
  if (stop && event->key() == Qt::Key_Space) {  // the next one of the day
    const std::vector<int> stops = model_->stopsAt(currentIndex());
    const auto at = std::find(stops.begin(), stops.end(), *stop);
    chosen_ = std::next(at) == stops.end() ? stops.front() : *std::next(at);
    emit stopChosen(*chosen_);
    viewport()->update();
    return;
  }
  QTableView::keyPressEvent(event);
}

void PlanGrid::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasFormat(QLatin1String(kStopMime))) {
    event->acceptProposedAction();
  }
}

std::optional<Date> PlanGrid::dayFor(const QDropEvent& event) const {
  const QModelIndex index = indexAt(event.position().toPoint());
  return event.mimeData()->hasFormat(QLatin1String(kStopMime)) && !model_->isClosed(index)
             ? model_->dayAt(index)
             : std::nullopt;
}

void PlanGrid::dragMoveEvent(QDragMoveEvent* event) {
  event->setAccepted(dayFor(*event).has_value());
}

void PlanGrid::dropEvent(QDropEvent* event) {
  const auto day = dayFor(*event);
  if (!day) {
    event->ignore();
    return;
  }
  event->acceptProposedAction();
  emit stopMoved(event->mimeData()->data(QLatin1String(kStopMime)).toInt(), *day);
}

}  // namespace spanwright
