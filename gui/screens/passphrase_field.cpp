// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/passphrase_field.h"

#include <cstring>
#include <utility>

#include "core/tasks/signing.h"

namespace spanwright {

PassphraseField::PassphraseField(const QString& accessibleName, QWidget* parent) : QLineEdit(parent) {
  setEchoMode(QLineEdit::Password);
  setMaxLength(static_cast<int>(kLongestPassphrase) + 1);  // one more, so that core can say it is too long
  setInputMethodHints(Qt::ImhHiddenText | Qt::ImhSensitiveData | Qt::ImhNoPredictiveText |
                      Qt::ImhNoAutoUppercase);
  setContextMenuPolicy(Qt::NoContextMenu);
  setAccessibleName(accessibleName);
}

std::string PassphraseField::take() {
  QString typed = text();
  setText({});  // drops the field's share of the buffer and what undo would bring back
  QByteArray coded = typed.toUtf8();
  std::string taken(coded.constData(), static_cast<std::size_t>(coded.size()));
  ::explicit_bzero(coded.data(), static_cast<std::size_t>(coded.size()));
  ::explicit_bzero(typed.data(), static_cast<std::size_t>(typed.size()) * sizeof(QChar));
  return taken;
}

Wiped::~Wiped() {
  wipe(text_);
}

void wipe(std::string& text) {
  ::explicit_bzero(text.data(), text.size());
  text.clear();
}

}  // namespace spanwright
