// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/table_layout.h"

#include <algorithm>
#include <optional>

#include "gui/certificate/type.h"

namespace spanwright {
namespace {

constexpr int kLargest = 78;
constexpr int kSmallest = 56;
constexpr double kPadding = 34.0;  // either side of a cell
constexpr double kRowPadding = 16.0;

struct Need {
  double least = 0.0;    // nothing broken inside a word or number
  double natural = 0.0;  // nothing broken at all
};

/// Narrowest that keeps a heading on two lines, better than three.
double twoLines(const QFont& font, const QString& heading) {
  double best = textWidth(font, heading);
  for (qsizetype at = heading.indexOf(QLatin1Char(' ')); at > 0;
       at = heading.indexOf(QLatin1Char(' '), at + 1)) {
    best = std::min(best, std::max(textWidth(font, heading.left(at)), textWidth(font, heading.mid(at + 1))));
  }
  return best;
}

Need columnNeed(const Grid& grid, std::size_t index, int size, double width) {
  const GridColumn& column = grid.columns[index];
  const QFont bold = typeface(size, true);
  Need need;
  need.least = std::max(widestWord(bold, column.heading), textWidth(bold, column.unit));
  need.natural = std::max(need.least, twoLines(bold, column.heading));
  for (const GridRow& row : grid.rows) {
    const QFont font = row.strong ? bold : typeface(size);
    const double whole = textWidth(font, row.cells[index]);
    need.natural = std::max(need.natural, whole);
    need.least = std::max(need.least, column.number ? whole : widestWord(font, row.cells[index]));
  }
  if (!column.number) {
    // One endless word must not starve the other columns: it is broken instead. Nor may an endless text.
    const bool endless = need.least > width / 4.0;
    need.least = std::min(need.least, width / 4.0);
    need.natural = endless ? need.least : std::min(need.natural, width);
  }
  // Line breaking rounds up: a hair more than measured keeps a word that just fits on its line.
  need.least += 2.0 * kPadding + 4.0;
  need.natural += 2.0 * kPadding + 4.0;
  return need;
}

std::vector<double> shareOut(const std::vector<Need>& needs, double least, double natural, double width) {
  std::vector<double> widths;
  for (const Need& need : needs) {
    if (natural <= width) {
      widths.push_back(need.natural + (width - natural) / static_cast<double>(needs.size()));
    } else if (least <= width) {
      widths.push_back(need.least + (need.natural - need.least) * (width - least) / (natural - least));
    } else {
      widths.push_back(need.least * width / least);
    }
  }
  return widths;
}

/// Draws one grid; knows where its columns stand.
class GridPlacer {
 public:
  GridPlacer(PageFlow& flow, const Grid& grid)
      : flow_(flow), grid_(grid), fit_(fitColumns(grid, flow.width())), font_(typeface(fit_.size)) {}

  void place() {
    flow_.ensure(opening());
    startPage(false);
    for (std::size_t i = 0; i < grid_.rows.size(); ++i) {
      // The last row does not stand alone on a page.
      const bool withNext = i + 2 == grid_.rows.size();
      placeRow(grid_.rows[i], withNext ? rowHeight(wrapCells(grid_.rows[i + 1])) : 0.0);
    }
    flow_.rule(flow_.left(), flow_.right(), flow_.y(), 7.0);
    flow_.skip(40.0);
  }

  /// What must fit where the table begins: all of a short table, else its head and two rows.
  double opening() const {
    const double head = headHeight(wrapHeadings());
    double whole = head;
    double start = head;
    for (std::size_t i = 0; i < grid_.rows.size() && whole <= flow_.fullHeight(); ++i) {
      const double height = rowHeight(wrapCells(grid_.rows[i]));
      whole += height;
      start += i < 2 ? height : 0.0;
    }
    constexpr double kShort = 0.35;
    const double page = flow_.fullHeight();
    return whole <= kShort * page ? whole : start <= kShort * page ? start : head + 3.0 * leading(font_);
  }

 private:
  struct Cells {
    std::vector<QStringList> lines;
    qsizetype count = 1;
  };

  Cells wrapCells(const GridRow& row) const {
    Cells cells;
    const QFont font = row.strong ? typeface(fit_.size, true) : font_;
    for (std::size_t i = 0; i < grid_.columns.size(); ++i) {
      cells.lines.push_back(wrapped(font, row.cells[i], fit_.widths[i] - 2.0 * kPadding));
      cells.count = std::max(cells.count, cells.lines.back().size());
    }
    return cells;
  }

  Cells wrapHeadings() const {
    Cells cells;
    const QFont bold = typeface(fit_.size, true);
    for (std::size_t i = 0; i < grid_.columns.size(); ++i) {
      QStringList lines = wrapped(bold, grid_.columns[i].heading, fit_.widths[i] - 2.0 * kPadding);
      if (!grid_.columns[i].unit.isEmpty()) {
        lines << wrapped(bold, grid_.columns[i].unit, fit_.widths[i] - 2.0 * kPadding);
      }
      cells.count = std::max(cells.count, lines.size());
      cells.lines.push_back(std::move(lines));
    }
    return cells;
  }

  /// Lines [first, first + count) of the cells at the current y; headings stand on the bottom line.
  void drawLines(const Cells& cells, qsizetype first, qsizetype count, const QFont& font, bool bottom) {
    double x = flow_.left();
    for (std::size_t column = 0; column < cells.lines.size(); ++column) {
      const QStringList& lines = cells.lines[column];
      const qsizetype shift = bottom ? count - lines.size() : 0;
      const bool number = grid_.columns[column].number;
      const double at = number ? x + fit_.widths[column] - kPadding : x + kPadding;
      for (qsizetype i = 0; i < count; ++i) {
        const qsizetype from = first + i - shift;
        if (from >= 0 && from < lines.size() && !lines[from].isEmpty()) {
          flow_.text(at, flow_.y() + static_cast<double>(i) * leading(font) + rise(font), font, lines[from],
                     number ? Align::right : Align::left);
        }
      }
      x += fit_.widths[column];
    }
    flow_.skip(static_cast<double>(count) * leading(font));
  }

  double headHeight(const Cells& headings) const {
    return leading(titleFont()) + 30.0 + static_cast<double>(headings.count) * leading(font_) + 50.0;
  }
  static QFont titleFont() { return typeface(86, true); }

  void startPage(bool continued) {
    const Cells headings = wrapHeadings();
    if (continued) {
      flow_.newPage();
    }
    if (!grid_.title.isEmpty()) {
      const QFont title = titleFont();
      const QString shown = continued ? grid_.title + QStringLiteral(" (continued)") : grid_.title;
      flow_.text(flow_.left(), flow_.y() + rise(title), title, shown);
      flow_.skip(leading(title) + 12.0);
    }
    if (continued || !grid_.title.isEmpty()) {
      // A table without a title stands under a section's rule already.
      flow_.rule(flow_.left(), flow_.right(), flow_.y(), 7.0);
    }
    flow_.skip(14.0);
    drawLines(headings, 0, headings.count, typeface(fit_.size, true), true);
    flow_.skip(16.0);
    flow_.rule(flow_.left(), flow_.right(), flow_.y(), 5.0);
    first_ = true;
  }

  double rowHeight(const Cells& cells) const {
    return static_cast<double>(cells.count) * leading(font_) + kRowPadding;
  }

  void placeRow(const GridRow& row, double next) {
    const Cells cells = wrapCells(row);
    const double line = leading(font_);
    const double height = rowHeight(cells) + next;
    const double emptyPage = flow_.fullHeight() - headHeight(wrapHeadings());
    if (!flow_.fits(height) && height <= emptyPage && !first_) {
      breakHere();
    }
    qsizetype done = 0;
    while (done < cells.count) {
      const auto room = static_cast<qsizetype>((flow_.remaining() - kRowPadding) / line);
      if (room < 1) {
        breakHere();
        continue;
      }
      if (!first_ && done == 0) {
        flow_.rule(flow_.left(), flow_.right(), flow_.y(), 3.0, true);
      }
      const qsizetype now = std::min(room, cells.count - done);
      flow_.skip(kRowPadding / 2.0);
      drawLines(cells, done, now, row.strong ? typeface(fit_.size, true) : font_, false);
      flow_.skip(kRowPadding / 2.0);
      done += now;
      first_ = false;
    }
  }

  void breakHere() {
    flow_.rule(flow_.left(), flow_.right(), flow_.y(), 5.0);
    startPage(true);
  }

  PageFlow& flow_;
  const Grid& grid_;
  ColumnFit fit_;
  QFont font_;
  bool first_ = true;
};

}  // namespace

ColumnFit fitColumns(const Grid& grid, double width) {
  // Smaller type is better than broken lines only down to kReadable.
  constexpr int kReadable = 68;
  std::optional<ColumnFit> broken;
  for (int size = kLargest;; size -= 2) {
    std::vector<Need> needs;
    Need total;
    for (std::size_t i = 0; i < grid.columns.size(); ++i) {
      needs.push_back(columnNeed(grid, i, size, width));
      total.least += needs.back().least;
      total.natural += needs.back().natural;
    }
    const ColumnFit fit{shareOut(needs, total.least, total.natural, width), size};
    if (total.natural <= width || size <= kSmallest) {
      return broken && size < kReadable ? *broken : fit;
    }
    if (total.least <= width && !broken) {
      broken = fit;
    }
    if (broken && size <= kReadable) {
      return *broken;
    }
  }
}

double openingHeight(const PageFlow& flow, const Grid& grid) {
  PageFlow measured = flow;
  return GridPlacer(measured, grid).opening();
}

void placeGrid(PageFlow& flow, const Grid& grid) {
  GridPlacer(flow, grid).place();
}

}  // namespace spanwright
