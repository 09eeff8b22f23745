// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/certificate_layout.h"

#include <algorithm>

#include "gui/certificate/chart_layout.h"
#include "gui/certificate/page_flow.h"
#include "gui/certificate/table_layout.h"
#include "gui/certificate/type.h"

namespace spanwright {
namespace {

constexpr double kSide = 480.0;
constexpr double kTop = 450.0;
constexpr double kBottom = 640.0;     // footer included
constexpr double kLaterHead = 230.0;  // of the repeated header
constexpr int kBody = 82;
constexpr double kEndHeight = 180.0;  // of the end mark with the space above it

Pairs pairs(const std::vector<LabelledText>& texts) {
  Pairs list;
  for (const LabelledText& text : texts) {
    list.emplace_back(printed(text.label), printed(text.value));
  }
  return list;
}

QString shownNumber(const Certificate& certificate) {
  if (certificate.number.empty()) {
    return QStringLiteral("given out at issue");
  }
  const QString number = printed(certificate.number);
  return certificate.revision > 1 ? QStringLiteral("%1, revision %2").arg(number).arg(certificate.revision)
                                  : number;
}

/// A framed word at the right edge, its top at the current y.
double drawMark(PageFlow& flow, const Certificate& certificate) {
  if (certificate.mark.empty()) {
    return 0.0;
  }
  const QString mark = printed(certificate.mark);
  const QFont font = fitting(120, true, mark, 0.45 * flow.width());
  const double width = textWidth(font, mark) + 140.0;
  const double height = leading(font) + 60.0;
  PathItem frame;
  frame.path.addRect(QRectF(flow.right() - width, flow.y(), width, height));
  frame.width = 14.0;
  frame.color = QColor(0, 0, 0);
  flow.path(std::move(frame));
  flow.text(flow.right() - width / 2.0, flow.y() + 30.0 + 1.02 * rise(font), font, mark, Align::centre);
  return width;
}

void placeHead(PageFlow& flow, const Certificate& certificate) {
  const double mark = drawMark(flow, certificate);
  const double room = flow.width() - mark - 150.0;
  const QString title = printed(certificate.title);
  const QFont big = fitting(190, true, title, room);
  flow.text(flow.left(), flow.y() + rise(big), big, title);
  flow.skip(leading(big));
  const QString number = QStringLiteral("Number ") + shownNumber(certificate);
  const QFont medium = fitting(120, true, number, room);
  flow.text(flow.left(), flow.y() + rise(medium), medium, number);
  flow.skip(leading(medium) + 50.0);
  flow.rule(flow.left(), flow.right(), flow.y(), 16.0);
  flow.skip(30.0);
}

struct PartyLine {
  QFont font;
  QString text;
};
std::vector<PartyLine> partyLines(const std::vector<std::string>& lines, double width) {
  std::vector<PartyLine> list;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const QFont font = typeface(i == 0 ? 92 : kBody, i == 0);
    for (const QString& line : wrapped(font, printed(lines[i]), width)) {
      list.push_back({font, line});
    }
  }
  return list;
}

void placeParties(PageFlow& flow, const Certificate& certificate) {
  constexpr double kGap = 200.0;
  constexpr std::size_t kMostBeside = 20;
  const double half = (flow.width() - kGap) / 2.0;
  const QFont small = typeface(72);
  const auto issuer = partyLines(certificate.issuer, half);
  const auto customer = partyLines(certificate.customer, half);
  const bool beside = std::max(issuer.size(), customer.size()) <= kMostBeside;
  const double top = flow.y();
  double lowest = top;
  const auto block = [&](const QString& caption, const std::vector<PartyLine>& lines, double x) {
    flow.text(x, flow.y() + rise(small), small, caption);
    flow.skip(leading(small) + 10.0);
    for (const PartyLine& line : lines) {
      flow.ensure(leading(line.font));
      flow.text(x, flow.y() + rise(line.font), line.font, line.text);
      flow.skip(leading(line.font));
    }
    lowest = beside ? std::max(lowest, flow.y()) : flow.y();
  };
  block(QStringLiteral("Issued by"), issuer, flow.left());
  if (beside) {
    flow.moveTo(top);
  } else {
    flow.skip(40.0);
    flow.ensure(4.0 * leading(small));
  }
  block(QStringLiteral("For"), customer, beside ? flow.left() + half + kGap : flow.left());
  flow.moveTo(lowest + 60.0);
}

/// The answer first: one framed line for each phase.
void placeAnswer(PageFlow& flow, const Certificate& certificate) {
  const QFont font = typeface(92, true);
  QStringList lines;
  for (const std::string& sentence : {certificate.foundConclusion, certificate.leftConclusion}) {
    if (!sentence.empty()) {
      lines << wrapped(font, printed(sentence), flow.width() - 160.0);
    }
  }
  if (lines.isEmpty()) {
    return;
  }
  const double height = static_cast<double>(lines.size()) * leading(font) + 90.0;
  flow.ensure(height);
  PathItem frame;
  frame.path.addRect(QRectF(flow.left(), flow.y(), flow.width(), height));
  frame.width = 6.0;
  frame.color = QColor(0, 0, 0);
  flow.path(std::move(frame));
  double baseline = flow.y() + 45.0 + rise(font);
  for (const QString& line : lines) {
    flow.text(flow.left() + 80.0, baseline, font, line);
    baseline += leading(font);
  }
  flow.skip(height);
}

Grid gridOf(const CertificateTable& table, QStringList& notes) {
  Grid grid;
  grid.title = printed(table.title);
  const std::vector<CertificateColumn> columns = certificateColumns(table);
  for (const CertificateColumn& column : columns) {
    grid.columns.push_back({printed(column.heading), printed(column.unit), column.number});
  }
  for (const CertificateRow& row : table.rows) {
    GridRow line;
    line.strong = row.verdict == "fail";
    for (const CertificateColumn& column : columns) {
      line.cells.push_back(column.number ? printedNumber(row.*column.cell) : printed(row.*column.cell));
    }
    if (!row.note.empty() && !line.cells.empty()) {
      const QString note = printed(row.note);
      if (!notes.contains(note)) {
        notes << note;
      }
      // Held together so that a mark never begins a line of its own.
      line.cells.front() += QString(QChar(QChar::Nbsp)) + QStringLiteral("[%1]").arg(notes.indexOf(note) + 1);
    }
    grid.rows.push_back(std::move(line));
  }
  return grid;
}

void placeTable(PageFlow& flow, const CertificateTable& table) {
  QStringList notes;
  placeGrid(flow, gridOf(table, notes));
  const QFont small = typeface(72);
  for (qsizetype i = 0; i < notes.size(); ++i) {
    flow.paragraph(notes[i], small, QStringLiteral("[%1]").arg(i + 1));
  }
  flow.paragraph(printed(table.conclusion) + QLatin1Char('.'), typeface(kBody));
  flow.skip(60.0);
}

void placeResults(PageFlow& flow, const Certificate& certificate) {
  if (certificate.tables.empty()) {
    return;
  }
  QStringList ignored;
  flow.heading(QStringLiteral("Results"), openingHeight(flow, gridOf(certificate.tables.front(), ignored)));
  bool adjusted = false;
  const auto adjustment = [&] {
    flow.paragraph(printed(certificate.adjustment), typeface(kBody, true));
    flow.skip(40.0);
    adjusted = true;
  };
  for (const CertificateTable& table : certificate.tables) {
    if (table.phase == Phase::asLeft && !adjusted) {
      adjustment();
    }
    placeTable(flow, table);
  }
  if (!adjusted) {
    adjustment();
  }
}

void placeStandards(PageFlow& flow, const Certificate& certificate) {
  if (certificate.standards.empty()) {
    return;
  }
  Grid grid;
  for (const char* heading : {"Serial number", "Standard", "Certificate", "Issued by", "Valid from",
                              "Valid until", "Traceability"}) {
    grid.columns.push_back({QString::fromLatin1(heading), {}, false});
  }
  for (const CertificateStandard& standard : certificate.standards) {
    GridRow row;
    for (const std::string& cell :
         {standard.serial, standard.description, standard.certificate, standard.issuer, standard.validFrom,
          standard.validUntil, standard.traceability}) {
      row.cells.push_back(printed(cell));
    }
    grid.rows.push_back(std::move(row));
  }
  flow.heading(QStringLiteral("Reference standards and traceability"), openingHeight(flow, grid));
  placeGrid(flow, grid);
}

void placeSignatures(PageFlow& flow, const Certificate& certificate) {
  const QFont small = typeface(72);
  Pairs people = pairs(certificate.people);
  const double roomToSign = certificate.signatures.empty() ? 0.0 : 420.0;
  const double gap = 200.0;
  const auto lines = static_cast<double>(std::max<std::size_t>(1, certificate.signatures.size()));
  const double each = (flow.width() - gap * (lines - 1.0)) / lines;
  const double height =
      flow.pairsHeight(people, flow.width()) + roomToSign + 2.0 * leading(small) + 40.0 + kEndHeight;
  flow.heading(QStringLiteral("People"), height);
  flow.flowPairs(people);
  if (certificate.signatures.empty()) {
    return;
  }
  flow.skip(roomToSign);
  double x = flow.left();
  double lowest = 0.0;
  for (const std::string& caption : certificate.signatures) {
    flow.rule(x, x + each, flow.y(), 6.0);
    double baseline = flow.y() + 20.0 + rise(small);
    for (const QString& line : wrapped(small, printed(caption), each)) {
      flow.text(x, baseline, small, line);
      baseline += leading(small);
    }
    lowest = std::max(lowest, baseline);
    x += each + gap;
  }
  flow.moveTo(lowest);
}

void placeEnd(PageFlow& flow, const Certificate& certificate) {
  const QFont font = typeface(kBody, true);
  const QString end = certificate.number.empty()
                          ? QStringLiteral("End of certificate")
                          : QStringLiteral("End of certificate ") + shownNumber(certificate);
  flow.ensure(kEndHeight);
  flow.skip(60.0);
  const double middle = (flow.left() + flow.right()) / 2.0;
  const double beside = textWidth(font, end) / 2.0 + 120.0;
  const double height = flow.y() + 0.65 * rise(font);
  flow.text(middle, flow.y() + rise(font), font, end, Align::centre);
  flow.rule(flow.left(), middle - beside, height, 6.0);
  flow.rule(middle + beside, flow.right(), height, 6.0);
  flow.skip(leading(font));
}

void placeList(PageFlow& flow, const QString& title, const std::vector<std::string>& texts) {
  if (texts.empty()) {
    return;
  }
  flow.heading(title, 250.0);
  const QFont body = typeface(kBody);
  for (const std::string& text : texts) {
    flow.paragraph(printed(text), body, QStringLiteral("–"));
  }
}

/// Header of later pages and footer of all, when it is known how many there are.
void decorate(std::vector<Page>& pages, const Certificate& certificate, QSizeF paper) {
  const QFont small = typeface(72);
  const QFont bold = typeface(82, true);
  const double right = paper.width() - kSide;
  const auto put = [](Page& page, double x, double y, const QFont& font, const QString& text) {
    page.texts.push_back({{x, y}, font, text, QColor(0, 0, 0)});
  };
  const auto rule = [&](Page& page, double y, double width) {
    PathItem item;
    item.path.moveTo(kSide, y);
    item.path.lineTo(right, y);
    item.width = width;
    item.color = QColor(0, 0, 0);
    page.paths.push_back(std::move(item));
  };
  for (std::size_t i = 0; i < pages.size(); ++i) {
    Page& page = pages[i];
    if (i > 0) {
      const QString mark = printed(certificate.mark);
      const double markWidth = textWidth(bold, mark);
      const QString head =
          printed(certificate.title) + QStringLiteral(", number ") + shownNumber(certificate);
      put(page, kSide, kTop + rise(bold), fitting(82, true, head, right - kSide - markWidth - 150.0), head);
      put(page, right - markWidth, kTop + rise(bold), bold, mark);
      rule(page, kTop + leading(bold) + 20.0, 10.0);
    }
    const double foot = paper.height() - kBottom + 150.0;
    rule(page, foot, 5.0);
    const double baseline = foot + 25.0 + rise(small);
    const QString count = QStringLiteral("page %1 of %2").arg(i + 1).arg(pages.size());
    const double countWidth = textWidth(small, count);
    const QString left = QStringLiteral("Number ") + shownNumber(certificate);
    put(page, kSide, baseline, fitting(72, false, left, 0.38 * (right - kSide)), left);
    put(page, right - countWidth, baseline, small, count);
    const QString program = printed(certificate.programVersion);
    put(page, (paper.width() - textWidth(small, program)) / 2.0, baseline, small, program);
  }
}

}  // namespace

std::vector<Page> layOutCertificate(const Certificate& certificate, QSizeF paper) {
  const QRectF area(kSide, kTop, paper.width() - 2.0 * kSide, paper.height() - kTop - kBottom);
  PageFlow flow(area, kTop + kLaterHead);
  placeHead(flow, certificate);
  placeParties(flow, certificate);
  placeAnswer(flow, certificate);
  flow.pairColumns(QStringLiteral("Item"), pairs(certificate.item), QStringLiteral("Setup it holds for"),
                   pairs(certificate.setup));
  Pairs where = pairs(certificate.work);
  where.emplace_back(QStringLiteral("Place of work"), printed(certificate.placeOfWork));
  for (const auto& pair : pairs(certificate.conditions)) {
    where.push_back(pair);
  }
  flow.pairColumns(QStringLiteral("Method"), pairs(certificate.method),
                   QStringLiteral("Dates, place and conditions"), where);
  placeResults(flow, certificate);
  if (!certificate.decision.empty()) {
    flow.heading(QStringLiteral("Statement of conformity"), 300.0);
    flow.flowPairs(pairs(certificate.decision));
  }
  for (const CertificateChart& chart : certificate.charts) {
    placeChart(flow, chart);
  }
  placeStandards(flow, certificate);
  placeList(flow, QStringLiteral("Deviations and remarks"), certificate.deviations);
  placeList(flow, QStringLiteral("What this certificate covers"), certificate.statements);
  placeSignatures(flow, certificate);
  if (!certificate.record.empty()) {
    flow.heading(QStringLiteral("In the record"), 300.0 + kEndHeight);
    flow.flowPairs(pairs(certificate.record));
  }
  placeEnd(flow, certificate);
  std::vector<Page> pages = std::move(flow.pages());
  decorate(pages, certificate, paper);
  return pages;
}

}  // namespace spanwright
