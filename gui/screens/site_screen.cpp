// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/site_screen.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QMenu>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QToolButton>
#include <QTreeView>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/models/due_model.h"
#include "gui/models/found_model.h"
#include "gui/models/site_tree_model.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr std::size_t kPressingMost = 40;
constexpr std::size_t kFoundMost = 200;
constexpr std::size_t kOpenedMost = 2000;  // channels of a tree that is shown with everything open
constexpr DueState kStates[] = {DueState::unproven, DueState::overdue, DueState::inGrace, DueState::dueSoon,
                                DueState::ok};

QLabel* heading(const QString& text, QWidget* parent, double times = 1.08) {
  auto* label = new QLabel(text, parent);
  QFont font = label->font();
  font.setBold(true);
  font.setPointSizeF(font.pointSizeF() * times);
  label->setFont(font);
  return label;
}

/// Room for the longest state of a place in the language of the window, with its sign.
int widthOfStates(const QWidget& widget) {
  constexpr int kSignAndMargins = 34;
  int widest = 0;
  for (const DueState state : kStates) {
    widest = std::max(widest, widget.fontMetrics().horizontalAdvance(QStringLiteral("88 × ") + word(state)));
  }
  return widest + scaled(kSignAndMargins);
}

std::vector<ForecastModel::Column> forecastColumns() {
  using Row = ForecastRow;
  return {
      {ForecastModel::tr("Channel"), [](const Row& r) { return fromCore(r.channel); }},
      {ForecastModel::tr("Subject"), [](const Row& r) { return word(r.subject); }},
      {ForecastModel::tr("Point"), [](const Row& r) { return followedPointWord(r.point, r.pointPercent); }},
      {ForecastModel::tr("Drift per year"),
       [](const Row& r) {
         return r.band ? QStringLiteral("%1 %2").arg(shownRate(r.band->rate), shownUnit(r.unit)) : QString();
       },
       {},
       {},
       true},
      {ForecastModel::tr("95 % band leaves"),
       [](const Row& r) {
         return r.already ? ForecastModel::tr("already outside") : shownDate(*r.bandOutOn);
       },
       [](const Row& r) { return QVariant(fromCore(formatDate(*r.bandOutOn))); },
       [](const Row& r) {
         return r.already ? markIcon(Mark::triangle, Tone::attention) : markIcon(Mark::ring, Tone::quiet);
       }},
      {ForecastModel::tr("Fitted line"),
       [](const Row& r) {
         return r.lineOutOn ? shownDate(*r.lineOutOn) : ForecastModel::tr("stays inside");
       }},
  };
}

}  // namespace

ForecastModel::ForecastModel(QObject* parent) : RowsModel(forecastColumns(), parent) {}

void ForecastModel::setLeaving(const std::vector<DriftItem>& leaving, Date today) {
  std::vector<ForecastRow> rows;
  for (const DriftItem& item : leaving) {
    rows.push_back({item, *item.bandOutOn <= today});
  }
  setRows(std::move(rows));
}

SiteScreen::SiteScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      model_(new SiteTreeModel(this)),
      found_(new FoundModel(this)),
      pressing_(new DueModel(this)),
      forecast_(new ForecastModel(this)) {
  split_ = new QSplitter(this);
  split_->setChildrenCollapsible(false);
  split_->addWidget(makeTree());
  split_->addWidget(makeOverview());
  split_->setStretchFactor(0, 5);
  split_->setStretchFactor(1, 6);
  split_->setSizes({600, 660});
  split_->restoreState(kSiteSplit.get());
  split_->setOrientation(sideBySide());
  connect(split_, &QSplitter::splitterMoved, this, [this] { kSiteSplit.set(split_->saveState()); });
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(split_);
  connect(&session_, &Session::opened, this, [this] { shownRegister_.reset(); });
  // What is not seen takes what is known when it is shown.
  connect(&session_, &Session::dueChanged, this, [this] {
    if (isVisible()) {
      takeDue();
      look();
    }
  });
  connect(&session_, &Session::driftChanged, this, [this] {
    if (isVisible()) {
      takeDrift();
    }
  });
  connect(&session_, &Session::finderChanged, this, &SiteScreen::look);
}

QWidget* SiteScreen::makeTree() {
  auto* side = new QWidget(this);
  words_ = new QLineEdit(side);
  words_->setPlaceholderText(tr("Find by tag, serial number, place or words"));
  words_->setClearButtonEnabled(true);
  words_->setAccessibleName(tr("Find a channel"));
  tree_ = new QTreeView(side);
  tree_->setModel(model_);
  tree_->setAccessibleName(tr("Places and channels"));
  tree_->setUniformRowHeights(true);
  tree_->setAlternatingRowColors(true);
  tree_->setIndentation(16);
  tree_->header()->setStretchLastSection(false);
  tree_->setMinimumHeight(scaled(150));
  tree_->header()->setFixedHeight(scaled(28));
  tree_->header()->setSectionResizeMode(SiteTreeModel::kTitle, QHeaderView::Stretch);
  tree_->setColumnWidth(SiteTreeModel::kName, scaled(165));
  tree_->setColumnWidth(SiteTreeModel::kState, widthOfStates(*tree_));
  tree_->setColumnWidth(SiteTreeModel::kDueOn, scaled(92));
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(14, 12, 6, 12);
  column->setSpacing(10);
  edit_ = new QPushButton(tr("Add or change"), side);
  auto* top = new QHBoxLayout;
  top->addWidget(words_, 1);
  top->addWidget(edit_);
  column->addLayout(top);
  left_ = new QStackedWidget(side);
  left_->addWidget(tree_);
  left_->addWidget(makeFound());
  column->addWidget(left_, 1);
  words_->installEventFilter(this);
  connect(words_, &QLineEdit::textChanged, this, &SiteScreen::look);
  connect(words_, &QLineEdit::returnPressed, this, &SiteScreen::takeFound);
  connect(tree_, &QTreeView::activated, this, [this](const QModelIndex& index) {
    const QString tag = index.siblingAtColumn(0).data(SiteTreeModel::kTagRole).toString();
    if (!tag.isEmpty()) {
      emit channelChosen(tag);
    }
  });
  return side;
}

QWidget* SiteScreen::makeFound() {
  auto* side = new QWidget(this);
  foundCount_ = new QLabel(side);
  foundCount_->setWordWrap(true);
  foundTable_ = new TableView(tr("Channels found"), side);
  foundTable_->setModel(found_);
  foundTable_->setColumnWidth(FoundModel::kTag, 110);
  foundTable_->setColumnWidth(FoundModel::kTitle, 190);
  foundTable_->setColumnWidth(FoundModel::kState, widthOfStates(*foundTable_));
  foundTable_->setColumnWidth(FoundModel::kPlace, 170);
  foundTable_->setColumnWidth(FoundModel::kSensors, 110);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(foundCount_);
  column->addWidget(foundTable_, 1);
  connect(foundTable_, &TableView::chosen, this,
          [this](const QModelIndex& index) { emit channelChosen(fromCore(found_->row(index.row()).tag)); });
  return side;
}

QWidget* SiteScreen::makeOverview() {
  auto* side = new QWidget(this);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(8, 12, 14, 12);
  column->setSpacing(8);
  heading_ = heading({}, side, 1.25);
  column->addWidget(heading_);

  auto* row = new WrapRow;
  row->setSpacing(8);
  for (const DueState state : kStates) {
    auto* tile = new QToolButton(side);
    tile->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    tile->setIcon(iconOf(state));
    tile->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    tile->setMinimumHeight(scaled(40));
    tile->setFocusPolicy(Qt::StrongFocus);
    connect(tile, &QToolButton::clicked, this, [this, state] { emit stateChosen(state); });
    tiles_[state] = tile;
    row->addWidget(tile, 1);
  }
  column->addLayout(row);

  drafts_ = new QWidget(side);
  draftRows_ = new QVBoxLayout(drafts_);
  draftRows_->setContentsMargins(0, 0, 0, 0);
  column->addWidget(drafts_);

  column->addWidget(heading(tr("Most pressing"), side));
  pressingTable_ = new TableView(tr("Most pressing"), side);
  pressingTable_->setModel(pressing_);
  for (const int hidden : {DueModel::kPlace, DueModel::kProvenOn, DueModel::kInterval}) {
    pressingTable_->hideColumn(hidden);
  }
  column->addWidget(pressingTable_, 3);
  connect(pressingTable_, &TableView::chosen, this, [this](const QModelIndex& index) {
    emit channelChosen(fromCore(pressing_->row(index.row()).channel));
  });

  column->addWidget(heading(tr("Drifting out of tolerance"), side));
  forecastNote_ = new QLabel(side);
  forecastNote_->setWordWrap(true);
  column->addWidget(forecastNote_);
  forecastTable_ = new TableView(tr("Drifting out of tolerance"), side);
  forecastTable_->setModel(forecast_);
  column->addWidget(forecastTable_, 2);
  connect(forecastTable_, &TableView::chosen, this, [this](const QModelIndex& index) {
    emit channelChosen(fromCore(forecast_->row(index.row()).channel));
  });
  return side;
}

void SiteScreen::refresh() {
  if (!session_.isOpen()) {
    return;
  }
  takeRegister();
  takeDue();
  takeDrift();
  takeDrafts();
  look();
}

void SiteScreen::takeRegister() {
  if (shownRegister_ == session_.store().siteRevision()) {
    return;
  }
  shownRegister_ = session_.store().siteRevision();
  shownDue_.reset();
  const QString tag = tree_->currentIndex().siblingAtColumn(0).data(SiteTreeModel::kTagRole).toString();
  heading_->setText(fromCore(session_.site().site.name));
  model_->setSite(session_.site());
  session_.site().channels.size() <= kOpenedMost ? tree_->expandAll() : tree_->expandToDepth(0);
  const QModelIndex again = model_->indexOfChannel(tag);
  tree_->setCurrentIndex(again.isValid() ? again : model_->index(0, 0));
}

void SiteScreen::takeDue() {
  if (shownDue_ == session_.dueRows()) {
    return;
  }
  shownDue_ = session_.dueRows();
  model_->setDue(session_.due());
  std::map<DueState, int> counts;
  std::vector<DueItem> pressing;
  for (const DueItem& item : session_.due()) {
    ++counts[item.due.state];
    if (item.due.state != DueState::ok && pressing.size() < kPressingMost) {
      pressing.push_back(item);
    }
  }
  for (const auto& [state, tile] : tiles_) {
    tile->setText(QStringLiteral("%1  %2").arg(counts[state]).arg(word(state)));
    tile->setAccessibleName(tr("%1 %2, show them").arg(counts[state]).arg(word(state)));
    tile->setToolTip(tr("Show what is in this state in the due list"));
  }
  pressing_->setRows(std::move(pressing));
  pressingTable_->fitToContent();
}

void SiteScreen::takeDrift() {
  forecast_->setLeaving(session_.leaving(), session_.today());
  forecastNote_->setVisible(forecast_->rowCount() == 0);
  forecastNote_->setText(session_.driftKnown() ? tr("No 95 % band leaves its tolerance within ten years.")
                                               : tr("Looking at the histories …"));
  forecastTable_->setVisible(forecast_->rowCount() > 0);
  forecastTable_->fitToContent();
}

void SiteScreen::takeDrafts() {
  while (QLayoutItem* item = draftRows_->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  std::vector<Draft> drafts;
  try {
    drafts = session_.store().drafts();
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
  }
  for (const Draft& draft : drafts) {
    auto* button = new QPushButton(
        tr("Go on with the unfinished visit to %1 (%2, begun %3)")
            .arg(fromCore(draft.channel), wordInside(draft.subject), shownMoment(draft.started)),
        drafts_);
    connect(button, &QPushButton::clicked, this, [this, id = draft.id] { emit draftChosen(id); });
    draftRows_->addWidget(button);
  }
  drafts_->setVisible(!drafts.empty());
}

void SiteScreen::findChannel() {
  words_->setFocus(Qt::ShortcutFocusReason);
  words_->selectAll();
}

void SiteScreen::setEditMenu(QMenu* menu) {
  edit_->setMenu(menu);
  tree_->setContextMenuPolicy(Qt::CustomContextMenu);
  connect(tree_, &QWidget::customContextMenuRequested, this,
          [this, menu](const QPoint& at) { menu->popup(tree_->viewport()->mapToGlobal(at)); });
}

bool SiteScreen::placeChosen() const {
  return tree_->currentIndex().isValid() && chosenChannel().isEmpty();
}

QString SiteScreen::currentPlace() const {
  if (const Channel* channel = session_.site().channel(toCore(chosenChannel()))) {
    return fromCore(channel->place);
  }
  QStringList parts;
  for (QModelIndex at = tree_->currentIndex().siblingAtColumn(SiteTreeModel::kName); at.isValid();
       at = at.parent()) {
    parts.prepend(at.data().toString());
  }
  return parts.join(QStringLiteral(" / "));
}

bool SiteScreen::looking() const {
  return !words_->text().trimmed().isEmpty();
}

void SiteScreen::look() {
  if (!session_.isOpen()) {
    return;
  }
  const QString before = chosenChannel();
  left_->setCurrentIndex(looking() ? 1 : 0);
  if (!looking()) {
    choose(before);
    return;
  }
  const FoundChannels found = session_.find(words_->text(), kFoundMost);
  std::vector<FoundRow> rows;
  for (const std::string& tag : found.tags) {
    if (const Channel* const channel = session_.site().channel(tag)) {
      rows.push_back(foundRow(*channel, session_.due(tag)));
    }
  }
  const bool only = rows.size() == 1;
  const std::size_t shown = rows.size();
  found_->setRows(std::move(rows));
  // Of several none is chosen that nobody chose.
  choose(only ? fromCore(found.tags.front()) : before);
  foundCount_->setText(
      shown == found.matched
          ? counted(static_cast<int>(found.matched), tr("1 channel found"), tr("%1 channels found"))
          : tr("%1 channels found; the first %2 are shown, type more to tell them apart")
                .arg(QLocale().toString(qulonglong{found.matched}), QLocale().toString(qulonglong{shown})));
}

void SiteScreen::choose(const QString& tag) {
  if (looking()) {
    const auto row = found_->rowOf(tag);
    foundTable_->setCurrentIndex(row ? found_->index(*row, 0) : QModelIndex());
  } else if (const QModelIndex at = model_->indexOfChannel(tag); at.isValid()) {
    tree_->setCurrentIndex(at);
  }
}

void SiteScreen::takeFound() {
  if (looking() && found_->rowCount() == 1) {
    emit channelChosen(fromCore(found_->row(0).tag));
  } else {
    goIntoList();
  }
}

void SiteScreen::goIntoList() {
  if (looking() && chosenChannel().isEmpty() && found_->rowCount() > 0) {
    foundTable_->setCurrentIndex(found_->index(0, 0));
  }
  (looking() ? static_cast<QWidget*>(foundTable_) : tree_)->setFocus(Qt::OtherFocusReason);
}

bool SiteScreen::eventFilter(QObject* watched, QEvent* event) {
  if (watched == words_ && event->type() == QEvent::KeyPress &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_Down) {
    goIntoList();
    return true;
  }
  return QWidget::eventFilter(watched, event);
}

QString SiteScreen::currentChannel() const {
  return looking() && found_->rowCount() == 1 ? fromCore(found_->row(0).tag) : chosenChannel();
}

QString SiteScreen::chosenChannel() const {
  if (left_->currentIndex() == 0) {
    return tree_->currentIndex().siblingAtColumn(0).data(SiteTreeModel::kTagRole).toString();
  }
  const QModelIndex at = foundTable_->currentIndex();
  return at.isValid() ? fromCore(found_->row(at.row()).tag) : QString();
}

}  // namespace spanwright
