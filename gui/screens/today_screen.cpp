// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/today_screen.h"

#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QSignalBlocker>
#include <QStyledItemDelegate>
#include <QTreeView>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr std::size_t kMost = 8;  // lines of a group of due work or steps; other pages have the rest
constexpr int kWidest = 330;
constexpr int kAir = 18;
constexpr int kRowHeight = 24;

/// A little more room than a tree's lines have.
class RoomyLines : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    return QStyledItemDelegate::sizeHint(option, index).expandedTo({0, scaled(kRowHeight)});
  }
};

}  // namespace

TodayScreen::TodayScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      model_(new TodayModel(this)),
      heading_(new QLabel(this)),
      person_(new QComboBox(this)),
      tree_(new QTreeView(this)) {
  QFont font = heading_->font();
  font.setBold(true);
  font.setPointSizeF(font.pointSizeF() * 1.25);
  heading_->setFont(font);
  setFocusProxy(tree_);
  person_->setAccessibleName(tr("Who works"));
  person_->setToolTip(tr("Who you are: what concerns you is told here, and a visit begins with your name"));
  auto* label = new QLabel(tr("F&or"), this);
  label->setBuddy(person_);
  tree_->setModel(model_);
  tree_->setAccessibleName(tr("What needs doing today"));
  tree_->setRootIsDecorated(false);
  tree_->setItemsExpandable(false);
  tree_->setItemDelegate(new RoomyLines(tree_));
  tree_->setUniformRowHeights(true);
  tree_->setIndentation(22);
  tree_->header()->setFixedHeight(scaled(28));
  tree_->header()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);

  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(heading_, 1);
  row->addWidget(label);
  row->addWidget(person_);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 12, 14, 12);
  whole->setSpacing(10);
  whole->addLayout(row);
  whole->addWidget(tree_, 1);

  connect(person_, &QComboBox::currentIndexChanged, this, [this] {
    kLastPerson.set(person());
    refresh();
  });
  connect(tree_, &QTreeView::clicked, this, &TodayScreen::choose);
  connect(tree_, &QTreeView::activated, this, &TodayScreen::choose);
  for (const auto changed : {&Session::dueChanged, &Session::driftChanged}) {
    connect(&session_, changed, this, [this] {
      if (isVisible()) {
        refresh();
      }
    });
  }
}

void TodayScreen::takePeople() {
  const QSignalBlocker quiet(person_);
  person_->clear();
  person_->addItem(tr("everybody"), QString());
  for (const Person& each : session_.site().people) {
    if (!each.leftOn || *each.leftOn > session_.today()) {
      person_->addItem(tr("%1 (%2)").arg(fromCore(each.name), fromCore(each.login)), fromCore(each.login));
    }
  }
  person_->setCurrentIndex(std::max(0, person_->findData(kLastPerson.get())));
}

QString TodayScreen::person() const {
  return person_->currentData().toString();
}

QString TodayScreen::currentChannel() const {
  const TodayTarget target = model_->target(tree_->currentIndex());
  const auto* channel = std::get_if<ToChannel>(&target);
  return channel != nullptr ? channel->channel : QString();
}

void TodayScreen::refresh() {
  if (!session_.isOpen()) {
    return;
  }
  const QModelIndex was = tree_->currentIndex();
  const int group = was.parent().isValid() ? was.parent().row() : std::max(0, was.row());
  const int line = was.parent().isValid() ? was.row() : -1;
  heading_->setText(tr("What needs doing on %1").arg(shownDate(session_.today())));
  try {
    model_->setToday(todayFor(session_.store(), session_.due(), *session_.fleet(FleetOrder::findings).rows,
                              toCore(person()), session_.today(), kMost),
                     session_.site(), {session_.dueKnown(), session_.driftKnown()});
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
    return;
  }
  for (int row = 0; row < model_->rowCount(); ++row) {
    tree_->setFirstColumnSpanned(row, {}, true);
  }
  tree_->expandAll();
  for (int column = 0; column + 1 < model_->columnCount(); ++column) {
    tree_->resizeColumnToContents(column);
    tree_->setColumnWidth(column, std::min(tree_->columnWidth(column) + kAir, scaled(kWidest)));
  }
  const QModelIndex parent = model_->index(std::min(group, model_->rowCount() - 1), 0);
  const QModelIndex kept = model_->index(std::min(line, model_->rowCount(parent) - 1), 0, parent);
  tree_->setCurrentIndex(kept.isValid() ? kept : parent);
}

void TodayScreen::choose(const QModelIndex& index) {
  emit targetChosen(model_->target(index));
}

}  // namespace spanwright
