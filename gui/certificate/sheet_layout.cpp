// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/sheet_layout.h"

#include <algorithm>
#include <iterator>
#include <numeric>

#include "gui/certificate/page_flow.h"
#include "gui/certificate/type.h"

namespace spanwright {
namespace {

constexpr double kSide = 480.0;
constexpr double kTop = 450.0;
constexpr double kBottom = 600.0;     // footer included
constexpr double kLaterHead = 230.0;  // of the repeated header
constexpr int kBody = 82;
constexpr int kSmall = 72;
/// 8 mm, in which a hand-written number has room (common practice, no source).
constexpr double kWriting = 227.0;
constexpr double kPadding = 40.0;

void frame(PageFlow& flow, double x, double y, double width, double height, double line) {
  PathItem item;
  item.path.addRect(QRectF(x, y, width, height));
  item.width = line;
  item.color = QColor(0, 0, 0);
  flow.path(std::move(item));
}

QStringList wrappedAll(const QFont& font, const std::vector<std::string>& texts, double width) {
  QStringList lines;
  for (const std::string& text : texts) {
    lines << wrapped(font, printed(text), width);
  }
  return lines;
}

/// Sentences in a frame, each begun by a dash. Kept on one page.
void placeBox(PageFlow& flow, const QString& title, const std::vector<std::string>& texts, double line) {
  const QFont bold = typeface(kBody, true), font = typeface(kBody);
  const double indent = 110.0;
  const double width = flow.width() - 2.0 * kPadding - indent;
  const double height = leading(bold) + 2.0 * kPadding +
                        static_cast<double>(wrappedAll(font, texts, width).size()) * leading(font);
  flow.ensure(height + 40.0);
  frame(flow, flow.left(), flow.y(), flow.width(), height, line);
  double y = flow.y() + kPadding;
  flow.text(flow.left() + kPadding, y + rise(bold), bold, title);
  y += leading(bold);
  for (const std::string& text : texts) {
    flow.text(flow.left() + kPadding, y + rise(font), font, QStringLiteral("–"));
    for (const QString& each : wrapped(font, printed(text), width)) {
      flow.text(flow.left() + kPadding + indent, y + rise(font), font, each);
      y += leading(font);
    }
  }
  flow.skip(height + 60.0);
}

/// A caption and a line to write on, side by side in shares of the width.
struct Blank {
  QString caption;
  double share = 1.0;
};
void placeBlanks(PageFlow& flow, const std::vector<Blank>& blanks) {
  const QFont font = typeface(kSmall);
  flow.ensure(kWriting);
  const double shares = std::accumulate(blanks.begin(), blanks.end(), 0.0,
                                        [](double sum, const Blank& each) { return sum + each.share; });
  const double baseline = flow.y() + kWriting - 40.0;
  double x = flow.left();
  for (const Blank& blank : blanks) {
    const double width = flow.width() * blank.share / shares;
    flow.text(x, baseline, font, blank.caption);
    flow.rule(x + textWidth(font, blank.caption) + 40.0, x + width - 60.0, baseline + 15.0, 4.0, true);
    x += width;
  }
  flow.skip(kWriting);
}

/// Expected values beside what is to be written.
class PointTable {
 public:
  PointTable(PageFlow& flow, const RoundSheetItem& item) : flow_(flow), item_(item) {
    const QString unit = printed(item.readingUnit);
    const auto withUnit = [&](const char* text) {
      return unit.isEmpty() ? QString::fromLatin1(text)
                            : QString::fromLatin1(text) + QStringLiteral(", ") + unit;
    };
    columns_ = {
        {QStringLiteral("Point"), 0.12, false}, {QStringLiteral("Apply"), 0.17, false},
        {withUnit("Expected"), 0.10, true},     {QStringLiteral("From"), 0.10, true},
        {QStringLiteral("To"), 0.10, true},     {QStringLiteral("Previous as left (error)"), 0.13, true},
        {withUnit("As found"), 0.14, false},    {withUnit("As left"), 0.14, false}};
  }

  static double leastHeight() { return kHead + 2.0 * kWriting; }

  void place() {
    startPage();
    for (const RoundSheetPoint& point : item_.points) {
      placeRow(point);
    }
    finishPage();
    flow_.skip(50.0);
  }

 private:
  static constexpr double kHead = 260.0;
  struct Column {
    QString heading;
    double share;
    bool number;
  };

  void startPage() {
    top_ = flow_.y();
    const QFont bold = typeface(kSmall, true);
    double x = flow_.left();
    for (const Column& column : columns_) {
      const double width = column.share * flow_.width();
      const QStringList lines = wrapped(bold, column.heading, width - 2.0 * kPadding);
      double baseline = flow_.y() + kHead - 40.0 - static_cast<double>(lines.size() - 1) * leading(bold);
      for (const QString& line : lines) {
        flow_.text(column.number ? x + width - kPadding : x + kPadding, baseline, bold, line,
                   column.number ? Align::right : Align::left);
        baseline += leading(bold);
      }
      x += width;
    }
    flow_.skip(kHead);
    flow_.rule(flow_.left(), flow_.right(), flow_.y(), 8.0);
  }

  /// The lines between the columns; those of the blanks frame them.
  void finishPage() {
    double x = flow_.left();
    flow_.rule(flow_.left(), flow_.right(), flow_.y(), 8.0);
    for (std::size_t i = 0; i <= columns_.size(); ++i) {
      PathItem item;
      item.path.moveTo(x, top_);
      item.path.lineTo(x, flow_.y());
      item.width = i + 2 >= columns_.size() ? 8.0 : 3.0;
      item.color = i + 2 >= columns_.size() ? QColor(0, 0, 0) : QColor(150, 150, 150);
      flow_.path(std::move(item));
      x += i < columns_.size() ? columns_[i].share * flow_.width() : 0.0;
    }
    flow_.rule(flow_.left(), flow_.right(), top_, 8.0);
  }

  void placeRow(const RoundSheetPoint& point) {
    const QFont font = typeface(kSmall);
    const std::string cells[] = {point.label, point.applied, point.expected,
                                 point.low,   point.high,    point.previous};
    std::vector<QStringList> lines;
    qsizetype most = 1;
    for (std::size_t i = 0; i < std::size(cells); ++i) {
      const QString text = columns_[i].number ? printedNumber(cells[i]) : printed(cells[i]);
      lines.push_back(wrapped(font, text, columns_[i].share * flow_.width() - 2.0 * kPadding));
      most = std::max(most, lines.back().size());
    }
    const double height = std::max(kWriting, static_cast<double>(most) * leading(font) + 60.0);
    if (!flow_.fits(height)) {
      finishPage();
      flow_.newPage();
      startPage();
    }
    double x = flow_.left();
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const double width = columns_[i].share * flow_.width();
      const double block = static_cast<double>(lines[i].size()) * leading(font);
      double baseline = flow_.y() + (height - block) / 2.0 + rise(font);
      for (const QString& line : lines[i]) {
        flow_.text(columns_[i].number ? x + width - kPadding : x + kPadding, baseline, font, line,
                   columns_[i].number ? Align::right : Align::left);
        baseline += leading(font);
      }
      x += width;
    }
    flow_.skip(height);
    flow_.rule(flow_.left(), flow_.right(), flow_.y(), 3.0, true);
  }

  PageFlow& flow_;
  const RoundSheetItem& item_;
  std::vector<Column> columns_;
  double top_ = 0.0;
};

void placeItemHead(PageFlow& flow, const RoundSheetItem& item) {
  const QFont big = typeface(140, true), font = typeface(kBody);
  const QString tag =
      printed(item.tag) + (item.subject == "channel"
                               ? QString()
                               : QStringLiteral(" (") + printed(item.subject) + QLatin1Char(')'));
  flow.rule(flow.left(), flow.right(), flow.y(), 16.0);
  flow.skip(30.0);
  const QFont fitted = fitting(140, true, tag, 0.5 * flow.width());
  flow.text(flow.left(), flow.y() + rise(big), fitted, tag);
  const double beside = flow.left() + textWidth(fitted, tag) + 120.0;
  const QString title = printed(item.title);
  const bool fits = textWidth(typeface(100), title) <= flow.right() - beside;
  if (fits) {
    flow.text(beside, flow.y() + rise(big), typeface(100), title);
  }
  flow.skip(leading(big) + 20.0);
  if (!fits) {
    flow.paragraph(title, typeface(100));
  }
  if (!item.cautions.empty()) {
    placeBox(flow, QStringLiteral("Cautions of the plan"), item.cautions, 10.0);
  }
  Pairs facts;
  for (const LabelledText& fact : item.facts) {
    if (!fact.value.empty()) {
      facts.emplace_back(printed(fact.label), printed(fact.value));
    }
  }
  facts.emplace_back(QStringLiteral("Previous values"),
                     printed(item.previous.empty() ? "none" : item.previous));
  flow.flowPairs(facts);
  flow.skip(50.0);
}

void placeItem(PageFlow& flow, const RoundSheetItem& item) {
  placeItemHead(flow, item);
  if (!item.problem.empty()) {
    flow.paragraph(QStringLiteral("There is nothing to fill in: ") + printed(item.problem),
                   typeface(kBody, true));
    return;
  }
  placeBlanks(flow, {{QStringLiteral("Cautions read, conditions met (initials)"), 3.0},
                     {QStringLiteral("Date, time"), 2.0},
                     {QStringLiteral("By"), 1.4}});
  placeBlanks(flow, {{QStringLiteral("Standards used"), 3.0},
                     {QStringLiteral("Temperature, °C"), 1.7},
                     {QStringLiteral("Humidity, %"), 1.7}});
  if (item.junction) {
    placeBlanks(
        flow,
        {{QStringLiteral("Only where mV were fed through copper leads: temperature of the terminals, °C"),
          1.0}});
  }
  flow.skip(40.0);
  flow.ensure(PointTable::leastHeight());
  PointTable(flow, item).place();
  placeBlanks(flow, {{QStringLiteral("Adjusted or repaired, what was done"), 1.0}});
  placeBlanks(flow, {{QStringLiteral("Points left out and why; remarks"), 1.0}});
  placeBlanks(flow, {{QString(), 1.0}});
}

void placeHead(PageFlow& flow, const RoundSheet& sheet) {
  const QString title = printed(sheet.title);
  const QFont big = fitting(170, true, title, flow.width());
  flow.text(flow.left(), flow.y() + rise(big), big, title);
  flow.skip(leading(big) + 20.0);
  placeBox(flow, QStringLiteral("Before anything else"), sheetCautions(), 16.0);
  Pairs pairs{{QStringLiteral("Site"), printed(sheet.site)}};
  if (!sheet.note.empty()) {
    pairs.emplace_back(QString(), printed(sheet.note));
  }
  for (const auto& [label, value] :
       {std::pair("Day", sheet.day), std::pair("Technician", sheet.technician)}) {
    if (!value.empty()) {
      pairs.emplace_back(QString::fromLatin1(label), printed(value));
    }
  }
  for (std::size_t i = 0; i < sheet.take.size(); ++i) {
    pairs.emplace_back(i == 0 ? QStringLiteral("Standards") : QString(), printed(sheet.take[i]));
  }
  QStringList way;
  for (const RoundSheetItem& item : sheet.items) {
    const QString tag = printed(item.tag);
    if (way.isEmpty() || way.last() != tag) {
      way << tag;
    }
  }
  pairs.emplace_back(QStringLiteral("On the way"), way.join(QStringLiteral(", ")));
  flow.flowPairs(pairs);
  if (sheet.day.empty()) {
    placeBlanks(flow, {{QStringLiteral("Day"), 1.0}, {QStringLiteral("Technician"), 2.0}});
  }
  flow.skip(80.0);
}

/// Header of later pages and footer of all, when it is known how many there are.
void decorate(std::vector<Page>& pages, const RoundSheet& sheet, QSizeF paper) {
  const QFont small = typeface(kSmall);
  const double right = paper.width() - kSide;
  const auto put = [](Page& page, double x, double y, const QFont& font, const QString& text) {
    page.texts.push_back({{x, y}, font, text, QColor(0, 0, 0)});
  };
  const auto rule = [&](Page& page, double y) {
    PathItem item;
    item.path.moveTo(kSide, y);
    item.path.lineTo(right, y);
    item.width = 5.0;
    item.color = QColor(0, 0, 0);
    page.paths.push_back(std::move(item));
  };
  QStringList who;
  for (const std::string& text : {sheet.site, sheet.day, sheet.technician}) {
    if (!text.empty()) {
      who << printed(text);
    }
  }
  const QString head = printed(sheet.title) + QStringLiteral("; ") + who.join(QStringLiteral(", "));
  for (std::size_t i = 0; i < pages.size(); ++i) {
    Page& page = pages[i];
    if (i > 0) {
      const QFont font = fitting(kBody, true, head, right - kSide);
      put(page, kSide, kTop + rise(font), font, head);
      rule(page, kTop + 130.0);
    }
    const double foot = paper.height() - kBottom + 150.0;
    rule(page, foot);
    const double baseline = foot + 25.0 + rise(small);
    const QString count = QStringLiteral("page %1 of %2").arg(i + 1).arg(pages.size());
    put(page, kSide, baseline, small, QStringLiteral("This sheet does not say that work is safe."));
    put(page, right - textWidth(small, count), baseline, small, count);
    const QString program = printed(sheet.programVersion);
    put(page, (paper.width() - textWidth(small, program)) / 2.0, baseline, small, program);
  }
}

/// Does the item fit on what is left of the page?
double heightOf(const RoundSheetItem& item, QRectF area, double laterTop) {
  PageFlow trial(area, laterTop);
  trial.moveTo(laterTop);
  placeItem(trial, item);
  return trial.pages().size() > 1 ? area.bottom() : trial.y() - laterTop;
}

}  // namespace

std::vector<Page> layOutRoundSheets(const std::vector<RoundSheet>& sheets, QSizeF paper) {
  const QRectF area(kSide, kTop, paper.width() - 2.0 * kSide, paper.height() - kTop - kBottom);
  const double laterTop = kTop + kLaterHead;
  std::vector<Page> all;
  for (const RoundSheet& sheet : sheets) {
    PageFlow flow(area, laterTop);
    placeHead(flow, sheet);
    for (const RoundSheetItem& item : sheet.items) {
      // A channel's numbers stay together: two on a page or one, not one and a half.
      flow.ensure(std::min(heightOf(item, area, laterTop), flow.fullHeight()));
      placeItem(flow, item);
      flow.skip(100.0);
    }
    decorate(flow.pages(), sheet, paper);
    std::move(flow.pages().begin(), flow.pages().end(), std::back_inserter(all));
  }
  return all;
}

}  // namespace spanwright
