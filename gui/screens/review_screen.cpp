// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/review_screen.h"

#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/models/review_model.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/words/words.h"

namespace spanwright {

ReviewScreen::ReviewScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      model_(new ReviewModel(this)),
      table_(new TableView(tr("Waiting for a signature"), this)),
      stack_(new QStackedWidget(this)),
      count_(new QLabel(this)),
      nothing_(new QLabel(this)),
      show_(new QPushButton(tr("Show calibration"), this)),
      sign_(new QPushButton(tr("Sign…"), this)) {
  nothing_->setText(
      tr("Nothing waits for a signature.\nA calibration comes here once its technician has signed it as "
         "performed."));
  nothing_->setAlignment(Qt::AlignCenter);
  nothing_->setWordWrap(true);
  table_->setModel(model_);
  stack_->addWidget(table_);
  stack_->addWidget(nothing_);
  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(count_, 1);
  row->addWidget(show_);
  row->addWidget(sign_);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 12, 14, 12);
  whole->setSpacing(10);
  whole->addLayout(row);
  whole->addWidget(stack_, 1);
  const auto showRow = [this] {
    const QModelIndex at = table_->currentIndex();
    if (at.isValid()) {
      const CalibrationSummary& chosen = model_->row(at.row()).summary;
      emit calibrationChosen(fromCore(chosen.channel), chosen.id);
    }
  };
  connect(table_, &TableView::chosen, this, showRow);
  connect(show_, &QPushButton::clicked, this, showRow);
  connect(sign_, &QPushButton::clicked, this, [this] {
    if (const auto id = currentCalibration()) {
      emit signAsked(*id);
    }
  });
}

void ReviewScreen::refresh() {
  const auto before = currentCalibration();
  try {
    model_->setRows(reviewRows(session_.store()));
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
    return;
  }
  table_->fitToContent();
  const auto& rows = model_->rows();
  const auto kept = std::find_if(rows.begin(), rows.end(),
                                 [&](const ReviewRow& each) { return each.summary.id == before; });
  choose(kept != rows.end() ? static_cast<int>(kept - rows.begin()) : 0);  // else the one that waits longest
  const auto many = [&rows](LifeState state) {
    return std::count_if(rows.begin(), rows.end(),
                         [state](const ReviewRow& each) { return each.summary.state == state; });
  };
  count_->setText(tr("%1 to review, %2 to approve, %3 sent back; oldest first")
                      .arg(many(LifeState::performed))
                      .arg(many(LifeState::reviewed))
                      .arg(many(LifeState::sentBack)));
}

void ReviewScreen::choose(int row) {
  const int last = model_->rowCount() - 1;
  stack_->setCurrentWidget(last >= 0 ? static_cast<QWidget*>(table_) : nothing_);
  for (QWidget* each : std::initializer_list<QWidget*>{show_, sign_}) {
    each->setEnabled(last >= 0);
  }
  if (last >= 0) {
    table_->setCurrentIndex(model_->index(std::min(row, last), 0));
    table_->setFocus();
  }
}

std::optional<CalibrationId> ReviewScreen::currentCalibration() const {
  const QModelIndex at = table_->currentIndex();
  return at.isValid() ? std::optional(model_->row(at.row()).summary.id) : std::nullopt;
}

int ReviewScreen::waiting() const {
  return model_->rowCount();
}

}  // namespace spanwright
