// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/label_layout.h"

#include <fmt/format.h>

#include <QRectF>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "gui/certificate/qr_code.h"
#include "gui/certificate/type.h"

namespace spanwright {
namespace {

constexpr double kMillimetre = kUnitsPerInch / 25.4;
constexpr double kAir = 2.0;  // mm, from the label's edge to what is printed
constexpr double kLeastModule =
    0.3;  // mm, that a phone still reads from a thermal or laser print (common practice)
constexpr double kLeastText = 18.0;            // mm, beside the code
constexpr int kTagSize = 130, kFactSize = 80;  // tenths of a point, where there is room

/// So many of `size` with `gap` between them go into `room`, all mm. Paper is told in whole points, so that
/// three labels of 70 mm need a little give.
int timesIn(double room, double size, double gap) {
  constexpr double kGive = 0.5;
  return room + kGive < size ? 0 : 1 + static_cast<int>(std::floor((room + kGive - size) / (size + gap)));
}

int across(const LabelSheet& sheet, QSizeF paper) {
  return timesIn(paper.width() / kMillimetre - sheet.left, sheet.width, sheet.gapAcross);
}
int down(const LabelSheet& sheet, QSizeF paper) {
  return timesIn(paper.height() / kMillimetre - sheet.top, sheet.height, sheet.gapDown);
}

/// Side of the code's box, mm. Its own blank margin may reach to the label's edge, not beyond.
double codeSide(const LabelSheet& sheet) {
  return sheet.height - kAir;
}

void write(Page& page, double x, double& y, const QFont& font, const QString& text) {
  y += leading(font);
  page.texts.push_back({QPointF(x, y), font, text, Qt::black});
}

void drawLabel(Page& page, const ChannelLabel& label, const QRectF& box, const LabelSheet& sheet) {
  const double side = codeSide(sheet) * kMillimetre;
  const QRectF code(box.left() + kAir / 2 * kMillimetre, box.center().y() - side / 2, side, side);
  page.paths.push_back({qrPath(qrCode(labelText(label)), code), 0.01, Qt::black, true, false});
  const double x = code.right() + kAir / 2 * kMillimetre;
  const double width = box.right() - kAir * kMillimetre - x;
  std::vector<std::pair<QFont, QString>> lines;
  const QFont bold = fitting(kTagSize, true, printed(label.tag), width);
  for (const QString& line : wrapped(bold, printed(label.tag), width)) {
    lines.emplace_back(bold, line);
  }
  for (const auto& [word, value] :
       {std::pair(std::string(), label.subject), std::pair(std::string("calibrated "), label.calibrated),
        std::pair(std::string("due "), label.due), std::pair(std::string(), label.certificate)}) {
    if (!value.empty()) {
      const QString text = printed(word + value);
      lines.emplace_back(fitting(kFactSize, false, text, width), text);
    }
  }
  double height = 0.0;
  for (const auto& [font, text] : lines) {
    height += leading(font);
  }
  double y = box.center().y() - height / 2 - 0.2 * leading(lines.back().first);
  for (const auto& [font, text] : lines) {
    write(page, x, y, font, text);
  }
}

}  // namespace

int labelsOnSheet(const LabelSheet& sheet, QSizeF paper) {
  return across(sheet, paper) * down(sheet, paper);
}

std::optional<std::string> labelSheetFault(const std::vector<ChannelLabel>& labels, const LabelSheet& sheet,
                                           QSizeF paper) {
  const int places = labelsOnSheet(sheet, paper);
  if (places == 0) {
    return "not even one label of this size stands on the paper";
  }
  if (sheet.firstFree < 1 || sheet.firstFree > places) {
    return fmt::format("the first free label must be between 1 and {}", places);
  }
  for (const ChannelLabel& label : labels) {
    const int modules = qrCode(labelText(label)).modules + 2 * kQuietModules;
    const double least = modules * kLeastModule + kAir;
    if (sheet.height < least) {
      return fmt::format("a label must be {:.0f} mm high for the code of {} to be read", std::ceil(least),
                         label.tag);
    }
  }
  const double wide = codeSide(sheet) + kLeastText + 2 * kAir;
  if (sheet.width < wide) {
    return fmt::format("a label of this height must be {:.0f} mm wide to hold code and text",
                       std::ceil(wide));
  }
  return std::nullopt;
}

std::vector<Page> layOutLabels(const std::vector<ChannelLabel>& labels, const LabelSheet& sheet,
                               QSizeF paper) {
  assert(!labelSheetFault(labels, sheet, paper));
  const int columns = across(sheet, paper);
  const int places = labelsOnSheet(sheet, paper);
  std::vector<Page> pages;
  int place = sheet.firstFree - 1;
  for (const ChannelLabel& label : labels) {
    if (pages.empty() || place == places) {
      pages.emplace_back();
      place = pages.size() == 1 ? place : 0;
    }
    const double x = sheet.left + (place % columns) * (sheet.width + sheet.gapAcross);
    const double y = sheet.top + (place / columns) * (sheet.height + sheet.gapDown);
    drawLabel(pages.back(), label,
              {x * kMillimetre, y * kMillimetre, sheet.width * kMillimetre, sheet.height * kMillimetre},
              sheet);
    ++place;
  }
  return pages;
}

}  // namespace spanwright
