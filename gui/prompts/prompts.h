// SPDX-License-Identifier: GPL-3.0-or-later
//
// Questions before something is lost. All go through one function, so that a test can answer them.
#pragma once

#include <QString>
#include <functional>

class QWidget;

namespace spanwright {

struct Question {
  QString title;
  QString text;  ///< what will be lost, in plain words
  QString yes;   ///< what the button that goes on says
  QString no;    ///< what the button that changes nothing says; the default, and what Esc means
};

using Answerer = std::function<bool(QWidget* parent, const Question& question)>;

/// True when the person wants to go on.
bool ask(QWidget* parent, const Question& question);
/// Answers every question from now on; an empty function puts the message box back.
void setAnswerer(Answerer answerer);

}  // namespace spanwright
