// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is seen in a picture of a window: the contrast of each text with the ground around it.
#pragma once

#include <QString>
#include <vector>

class QWidget;

namespace spanwright {

struct MeasuredText {
  QString text;
  double ratio = 1.0;
  bool large = false;  ///< 18 points, or 14 and bold: W3C, WCAG 2.2, "large scale"
};

/// The visible and enabled texts of labels, buttons, boxes, tabs, headings of tables, cells and charts.
std::vector<MeasuredText> measureTexts(QWidget& window);

}  // namespace spanwright
