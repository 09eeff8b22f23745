// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/settings/text_size.h"

#include <QApplication>
#include <QFont>
#include <QScreen>
#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace spanwright {
namespace {

constexpr int kUsual = 100;

int& sizeInForce() {
  static int percent = kUsual;
  return percent;
}

}  // namespace

const std::vector<int>& allTextSizes() {
  static const std::vector<int> kAll{kUsual, 125, 150, 175, 200};
  return kAll;
}

int textSizeNear(int percent) {
  const auto farther = [percent](int one, int other) {
    return std::abs(one - percent) < std::abs(other - percent);
  };
  return *std::min_element(allTextSizes().begin(), allTextSizes().end(), farther);
}

void applyTextSize(QApplication& application, int percent) {
  static const QFont kMachines = QApplication::font();
  QFont font = kMachines;
  if (font.pointSizeF() > 0.0) {
    font.setPointSizeF(kMachines.pointSizeF() * percent / kUsual);
  } else {
    font.setPixelSize(kMachines.pixelSize() * percent / kUsual);
  }
  sizeInForce() = percent;
  application.setFont(font);
}

int currentTextSize() {
  return sizeInForce();
}

int scaled(int pixels) {
  return pixels * sizeInForce() / kUsual;
}

double scaled(double pixels) {
  return pixels * sizeInForce() / kUsual;
}

QSize scaled(const QSize& size) {
  return {scaled(size.width()), scaled(size.height())};
}

Qt::Orientation sideBySide() {
  constexpr int kLarge = 150;
  return sizeInForce() < kLarge ? Qt::Horizontal : Qt::Vertical;
}

QSize onScreen(const QSize& size) {
  constexpr double kPart = 0.92;
  const QScreen* screen = QGuiApplication::primaryScreen();
  return screen == nullptr ? size : size.boundedTo(screen->availableSize() * kPart);
}

}  // namespace spanwright
