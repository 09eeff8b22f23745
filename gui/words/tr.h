// SPDX-License-Identifier: GPL-3.0-or-later
//
// The translation of texts outside classes with Q_OBJECT.
#pragma once

#include <QCoreApplication>
#include <QString>

namespace spanwright {

/// The text in the window's language. The tool that collects texts files those of free functions under their
/// namespace, so that is where they are looked up.
inline QString tr(const char* text, const char* comment = nullptr) {
  return QCoreApplication::translate("spanwright", text, comment);
}

}  // namespace spanwright
