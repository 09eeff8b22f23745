// SPDX-License-Identifier: GPL-3.0-or-later
//
// One sentence across the window, never in the way: trouble, news, a notice, or an offer with a button.
#pragma once

#include <QFrame>
#include <functional>

#include "gui/settings/look.h"

class QLabel;
class QPushButton;

namespace spanwright {

class MessageBar : public QFrame {
  Q_OBJECT
 public:
  explicit MessageBar(QWidget* parent = nullptr);
  void showTrouble(const QString& sentence);
  /// Trouble that concerns the record as a whole.
  void showAlarm(const QString& sentence);
  void showNews(const QString& sentence);
  void showNotice(const QString& sentence);
  /// A sentence with up to two things that can be done about it.
  void showOffer(const QString& sentence, const QString& first, std::function<void()> doFirst,
                 const QString& second = {}, std::function<void()> doSecond = {});
  QString sentence() const;
  /// What was said about a page is known by the time another one is shown; offers and alarms stay.
  void passNews();

 private:
  void say(Tone tone, const QString& sentence);

  bool passes_ = false;  ///< with the page it was said on
  QLabel* sign_;
  QLabel* text_;
  QPushButton* first_;
  QPushButton* second_;
  QPushButton* close_;
  std::function<void()> doFirst_, doSecond_;
};

}  // namespace spanwright
