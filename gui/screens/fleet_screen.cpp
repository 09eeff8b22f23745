// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/fleet_screen.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/models/fleet_model.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/words/words.h"

namespace spanwright {
FleetScreen::FleetScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      model_(new FleetModel(this)),
      table_(new TableView(tr("Drift of all channels"), this)),
      order_(new QComboBox(this)),
      words_(new QLineEdit(this)),
      count_(new QLabel(this)),
      findings_(new QLabel(this)) {
  order_->addItem(tr("Soonest out of tolerance first"), static_cast<int>(FleetOrder::forecast));
  order_->addItem(tr("Most of the tolerance used first"), static_cast<int>(FleetOrder::toleranceUsed));
  order_->addItem(tr("What was found first"), static_cast<int>(FleetOrder::findings));
  order_->setAccessibleName(tr("Order"));
  words_->setPlaceholderText(tr("Narrow by channel, place or finding"));
  words_->setClearButtonEnabled(true);
  words_->setAccessibleName(tr("Narrow by words"));
  findings_->setWordWrap(true);
  findings_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  findings_->setAccessibleName(tr("What was found at the chosen channel"));
  table_->setModel(model_);
  table_->setSortingEnabled(true);
  table_->sortByColumn(-1, Qt::AscendingOrder);  // as core ranks them

  auto* top = new WrapRow;
  top->setSpacing(10);
  top->addWidget(order_);
  top->addWidget(words_, 1);
  top->addWidget(count_);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 12, 14, 12);
  whole->setSpacing(10);
  whole->addLayout(top);
  whole->addWidget(table_, 1);
  whole->addWidget(findings_);

  connect(order_, &QComboBox::currentIndexChanged, this, [this] {
    table_->sortByColumn(-1, Qt::AscendingOrder);
    takeRows();
  });
  connect(words_, &QLineEdit::textChanged, this, &FleetScreen::narrow);
  connect(table_, &TableView::chosen, this, [this] {
    if (const FleetRow* row = current()) {
      emit pointChosen(fromCore(row->channel), row->subject, fromCore(row->point));
    }
  });
  connect(table_->selectionModel(), &QItemSelectionModel::currentChanged, this, &FleetScreen::showFindings);
  connect(&session_, &Session::driftChanged, this, [this] {
    if (isVisible()) {
      refresh();
    }
  });
}

void FleetScreen::refresh() {
  takeRows();
  table_->fitToContent();
}

void FleetScreen::orderBy(FleetOrder order) {
  order_->setCurrentIndex(order_->findData(static_cast<int>(order)));
}

void FleetScreen::takeRows() {
  const auto order = static_cast<FleetOrder>(order_->currentData().toInt());
  const Session::Ranking& ranking = session_.fleet(order);
  if (model_->given() != ranking.rows) {
    model_->setFleet(ranking.rows, ranking.texts);
  }
  narrow();
  if (model_->rowCount() > 0) {
    table_->setCurrentIndex(model_->index(0, 0));
  }
  showFindings();
}

void FleetScreen::narrow() {
  model_->narrowTo(words_->text());
  count_->setText(session_.driftKnown()
                      ? tr("%1 of %2 shown").arg(model_->rowCount()).arg(model_->rows().size())
                      : tr("Reading the histories …"));
}

const FleetRow* FleetScreen::current() const {
  const QModelIndex at = table_->currentIndex();
  return at.isValid() ? &model_->row(at.row()) : nullptr;
}

void FleetScreen::showFindings() {
  const FleetRow* row = current();
  if (row == nullptr) {
    findings_->clear();
    return;
  }
  QStringList sentences;
  for (const DriftFinding& finding : row->findings) {
    sentences << asSentence(fromCore(finding.words));
  }
  sentences.removeDuplicates();
  findings_->setText(sentences.isEmpty()
                         ? tr("%1: nothing was found beyond ordinary drift at %2.")
                               .arg(fromCore(row->channel),
                                    counted(row->points, tr("its 1 point"), tr("any of its %1 points")))
                         : tr("%1: %2").arg(fromCore(row->channel), sentences.join(u' ')));
}

void FleetScreen::findChannel() {
  words_->setFocus(Qt::ShortcutFocusReason);
  words_->selectAll();
}

QString FleetScreen::currentChannel() const {
  const FleetRow* row = current();
  return row != nullptr ? fromCore(row->channel) : QString();
}

std::optional<Subject> FleetScreen::currentSubject() const {
  const FleetRow* row = current();
  return row != nullptr ? std::optional(row->subject) : std::nullopt;
}

}  // namespace spanwright
