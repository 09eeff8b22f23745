// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/qr_code.h"

#include <qrencode.h>

#include <algorithm>
#include <cassert>
#include <memory>
#include <new>

namespace spanwright {

QrCode qrCode(const std::string& text) {
  assert(!text.empty());
  constexpr unsigned int kUtf8 = 26;  // its number among the extended channel interpretations
  const std::unique_ptr<QRinput, decltype(&QRinput_free)> input(QRinput_new2(0, QR_ECLEVEL_M), &QRinput_free);
  const bool plain =
      std::all_of(text.begin(), text.end(), [](char c) { return static_cast<signed char>(c) > 0; });
  // Without it a reader guesses what letters beyond ASCII are, and guesses wrong.
  const bool told = input && (plain || QRinput_appendECIheader(input.get(), kUtf8) == 0) &&
                    QRinput_append(input.get(), QR_MODE_8, static_cast<int>(text.size()),
                                   reinterpret_cast<const unsigned char*>(text.data())) == 0;
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> made(told ? QRcode_encodeInput(input.get()) : nullptr,
                                                             &QRcode_free);
  if (!made) {
    throw std::bad_alloc();  // the only way to fail with a text of this kind
  }
  QrCode code;
  code.modules = made->width;
  for (int i = 0; i < made->width * made->width; ++i) {
    code.dark += (made->data[i] & 1) != 0 ? '1' : '0';
  }
  return code;
}

QPainterPath qrPath(const QrCode& code, const QRectF& box) {
  const double module = box.width() / (code.modules + 2 * kQuietModules);
  const auto isDark = [&code](int row, int column) {
    return code.dark[static_cast<std::size_t>(row * code.modules + column)] == '1';
  };
  QPainterPath path;
  path.setFillRule(Qt::WindingFill);
  for (int row = 0; row < code.modules; ++row) {
    for (int first = 0; first < code.modules; ++first) {
      if (!isDark(row, first)) {
        continue;
      }
      int end = first;
      while (end < code.modules && isDark(row, end)) {
        ++end;
      }
      path.addRect(box.left() + (first + kQuietModules) * module, box.top() + (row + kQuietModules) * module,
                   (end - first) * module, module);
      first = end;
    }
  }
  return path;
}

}  // namespace spanwright
