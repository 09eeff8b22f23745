// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/prompts/prompts.h"

#include <QMessageBox>
#include <QPushButton>
#include <utility>

namespace spanwright {
namespace {

Answerer& answerer() {
  static Answerer current;
  return current;
}

}  // namespace

bool ask(QWidget* parent, const Question& question) {
  if (answerer()) {
    return answerer()(parent, question);
  }
  QMessageBox box(QMessageBox::Question, question.title, question.text, QMessageBox::NoButton, parent);
  QPushButton* yes = box.addButton(question.yes, QMessageBox::DestructiveRole);
  QPushButton* no = box.addButton(question.no, QMessageBox::RejectRole);
  box.setDefaultButton(no);
  box.setEscapeButton(no);
  box.exec();
  return box.clickedButton() == yes;
}

void setAnswerer(Answerer next) {
  answerer() = std::move(next);
}

}  // namespace spanwright
