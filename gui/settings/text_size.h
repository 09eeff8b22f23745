// SPDX-License-Identifier: GPL-3.0-or-later
//
// How large the window writes, in percent of the machine's own text, and everything beside text that must
// grow with it.
#pragma once

#include <QSize>
#include <vector>

class QApplication;

namespace spanwright {

/// In the order of the menu, the usual one first.
const std::vector<int>& allTextSizes();
/// The nearest of them.
int textSizeNear(int percent);

/// For every window made from now on.
void applyTextSize(QApplication& application, int percent);
/// What was applied last.
int currentTextSize();
/// Pixels right for the usual text, as many as the size in force needs.
int scaled(int pixels);
double scaled(double pixels);
QSize scaled(const QSize& size);
/// No larger than a window of the screen can be.
QSize onScreen(const QSize& size);
/// How the parts of a page stand: beside each other, or above each other where the text is large.
Qt::Orientation sideBySide();

}  // namespace spanwright
