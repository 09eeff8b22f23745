// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/qr_code.h"

#include <qrencode.h>

#include <cassert>
#include <memory>
#include <new>

namespace spanwright {

QrCode qrCode(const std::string& text) {
  assert(!text.empty());
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> made(
      QRcode_encodeData(static_cast<int>(text.size()), reinterpret_cast<const unsigned char*>(text.data()), 0,
                        QR_ECLEVEL_M),
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
