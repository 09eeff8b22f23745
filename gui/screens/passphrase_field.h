// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where a passphrase is typed: never shown, never copied, gone from the field once it was taken.
#pragma once

#include <QLineEdit>
#include <string>

namespace spanwright {

class PassphraseField : public QLineEdit {
  Q_OBJECT
 public:
  explicit PassphraseField(const QString& accessibleName, QWidget* parent = nullptr);
  /// What was typed, in UTF-8, and the field is empty. The field's own buffer is overwritten; the keys
  /// themselves went through Qt's events, which nobody can wipe.
  std::string take();
};

/// Text that is overwritten when it goes.
class Wiped {
 public:
  explicit Wiped(std::string text) : text_(std::move(text)) {}
  ~Wiped();
  Wiped(const Wiped&) = delete;
  Wiped& operator=(const Wiped&) = delete;
  std::string& text() { return text_; }

 private:
  std::string text_;
};

/// Overwrites what stands there, which no compiler leaves out.
void wipe(std::string& text);

}  // namespace spanwright
