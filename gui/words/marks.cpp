// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/marks.h"

#include <QApplication>
#include <QPalette>
#include <QPixmap>

#include "gui/settings/text_size.h"

namespace spanwright {
namespace {

void paintLines(QPainter& painter, const QPolygonF& line) {
  painter.drawPolyline(line);
}

QPointF at(const QRectF& box, double x, double y) {
  return {box.left() + x * box.width(), box.top() + y * box.height()};
}

void paintTriangle(QPainter& painter, const QRectF& box, const QColor& colour) {
  painter.setBrush(colour);
  painter.drawPolygon(QPolygonF{{at(box, 0.5, 0.1), at(box, 0.95, 0.9), at(box, 0.05, 0.9)}});
  const bool light = colour.lightnessF() > 0.5F;
  painter.setPen(QPen(light ? Qt::black : Qt::white, box.width() * 0.12, Qt::SolidLine, Qt::RoundCap));
  painter.drawLine(at(box, 0.5, 0.42), at(box, 0.5, 0.62));
  painter.drawPoint(at(box, 0.5, 0.78));
}

void paintHalfDisc(QPainter& painter, const QRectF& box, const QColor& colour) {
  const QRectF disc(at(box, 0.12, 0.12), at(box, 0.88, 0.88));
  painter.drawEllipse(disc);
  painter.setBrush(colour);
  painter.drawPie(disc, 90 * 16, 180 * 16);
}

QPixmap markPixmap(Mark mark, const QColor& colour) {
  constexpr int kScale = 3;  // drawn large, so that dense screens stay crisp
  const int size = scaled(16);
  QPixmap pixmap(size * kScale, size * kScale);
  pixmap.fill(Qt::transparent);
  QPainter painter(&pixmap);
  paintMark(painter, QRectF(kScale, kScale, (size - 2) * kScale, (size - 2) * kScale), mark, colour);
  painter.end();
  pixmap.setDevicePixelRatio(kScale);
  return pixmap;
}

}  // namespace

void paintMark(QPainter& painter, const QRectF& box, Mark mark, const QColor& colour) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(colour, box.width() * 0.13, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.setBrush(Qt::NoBrush);
  switch (mark) {
    case Mark::none:
      break;
    case Mark::check:
      paintLines(painter, {{at(box, 0.12, 0.55), at(box, 0.4, 0.84), at(box, 0.9, 0.18)}});
      break;
    case Mark::cross:
      painter.drawLine(at(box, 0.18, 0.18), at(box, 0.82, 0.82));
      painter.drawLine(at(box, 0.82, 0.18), at(box, 0.18, 0.82));
      break;
    case Mark::dash:
      painter.drawLine(at(box, 0.2, 0.5), at(box, 0.8, 0.5));
      break;
    case Mark::exclaim:
    case Mark::triangle:
      paintTriangle(painter, box, colour);
      break;
    case Mark::diamond:
      painter.drawPolygon(
          QPolygonF{{at(box, 0.5, 0.06), at(box, 0.94, 0.5), at(box, 0.5, 0.94), at(box, 0.06, 0.5)}});
      painter.drawPoint(at(box, 0.5, 0.5));
      break;
    case Mark::halfDisc:
      paintHalfDisc(painter, box, colour);
      break;
    case Mark::ring:
      painter.drawEllipse(QRectF(at(box, 0.14, 0.14), at(box, 0.86, 0.86)));
      break;
    case Mark::slash:
      painter.drawEllipse(QRectF(at(box, 0.14, 0.14), at(box, 0.86, 0.86)));
      painter.drawLine(at(box, 0.27, 0.73), at(box, 0.73, 0.27));
      break;
  }
  painter.restore();
}

QIcon markIcon(Mark mark, Tone tone) {
  QIcon icon(markPixmap(mark, toneColour(tone)));
  icon.addPixmap(markPixmap(mark, QApplication::palette().color(QPalette::HighlightedText)), QIcon::Selected);
  return icon;
}

Mark markOf(DueState state) {
  switch (state) {
    case DueState::unproven:
      return Mark::diamond;
    case DueState::overdue:
      return Mark::triangle;
    case DueState::inGrace:
      return Mark::halfDisc;
    case DueState::dueSoon:
      return Mark::ring;
    case DueState::ok:
      return Mark::check;
  }
  return Mark::none;
}

Mark markOf(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass:
      return Mark::check;
    case Verdict::fail:
      return Mark::cross;
    case Verdict::notJudged:
      return Mark::dash;
  }
  return Mark::none;
}

Mark markOf(LifeState state) {
  switch (state) {
    case LifeState::recorded:
      return Mark::ring;
    case LifeState::performed:
      return Mark::halfDisc;
    case LifeState::reviewed:
      return Mark::diamond;
    case LifeState::approved:
      return Mark::check;
    case LifeState::sentBack:
      return Mark::exclaim;
    case LifeState::withdrawn:
      return Mark::cross;
    case LifeState::superseded:
      return Mark::slash;
  }
  return Mark::none;
}

Tone toneOf(DueState state) {
  switch (state) {
    case DueState::unproven:
    case DueState::overdue:
      return Tone::bad;
    case DueState::inGrace:
    case DueState::dueSoon:
      return Tone::attention;
    case DueState::ok:
      return Tone::good;
  }
  return Tone::quiet;
}

Tone toneOf(Verdict verdict) {
  return verdict == Verdict::pass ? Tone::good : verdict == Verdict::fail ? Tone::bad : Tone::quiet;
}

Tone toneOf(LifeState state) {
  switch (state) {
    case LifeState::performed:
    case LifeState::reviewed:
      return Tone::accent;
    case LifeState::approved:
      return Tone::good;
    case LifeState::sentBack:
      return Tone::attention;
    case LifeState::recorded:
    case LifeState::withdrawn:
    case LifeState::superseded:
      break;
  }
  return Tone::quiet;
}

QIcon iconOf(DueState state) {
  return markIcon(markOf(state), toneOf(state));
}
QIcon iconOf(Verdict verdict) {
  return markIcon(markOf(verdict), toneOf(verdict));
}
QIcon iconOf(LifeState state) {
  return markIcon(markOf(state), toneOf(state));
}

}  // namespace spanwright
