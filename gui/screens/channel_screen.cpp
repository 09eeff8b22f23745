// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/channel_screen.h"

#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QSplitter>
#include <QTabWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/charts/drift_chart.h"
#include "gui/models/channel_tables.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

TableView* makeTable(QAbstractItemModel* model, const QString& name, QWidget* parent) {
  auto* table = new TableView(name, parent);
  table->setModel(model);
  return table;
}

}  // namespace

ChannelScreen::ChannelScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      calibrations_(new CalibrationsModel(this)),
      setups_(new SetupsModel(this)),
      fittings_(new FittingsModel(this)),
      routines_(new RoutinesModel(this)) {
  auto* right = new QSplitter(Qt::Vertical, this);
  right->setChildrenCollapsible(false);
  right->addWidget(makeTables());
  right->addWidget(makeCalibrations());
  right->setSizes({240, 360});
  auto* split = new QSplitter(sideBySide(), this);
  split->setChildrenCollapsible(false);
  split->addWidget(makeCharts());
  split->addWidget(right);
  split->setStretchFactor(0, 6);
  split->setStretchFactor(1, 5);
  split->setSizes({540, 710});
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 10, 14, 12);
  whole->setSpacing(8);
  whole->addWidget(makeHead());
  whole->addWidget(split, 1);
  connect(&session_, &Session::dueChanged, this, &ChannelScreen::takeRoutines);
  connect(&session_, &Session::channelDrift, this, &ChannelScreen::takeDrift);
}

QWidget* ChannelScreen::makeHead() {
  auto* head = new QWidget(this);
  title_ = new QLabel(head);
  QFont font = title_->font();
  font.setBold(true);
  font.setPointSizeF(font.pointSizeF() * 1.35);
  title_->setFont(font);
  place_ = new QLabel(head);
  stateSign_ = new QLabel(head);
  state_ = new QLabel(head);
  enter_ = new QPushButton(tr("Enter a visit"), head);
  sign_ = new QPushButton(tr("Sign…"), head);
  certificate_ = new QPushButton(tr("Certificate"), head);
  auto* row = new WrapRow(head);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(10);
  row->addWidget(title_);
  row->addWidget(place_);
  row->addStretch(1);
  row->addWidget(stateSign_);
  row->addWidget(state_);
  row->addSpacing(12);
  row->addWidget(enter_);
  row->addWidget(sign_);
  row->addWidget(certificate_);
  connect(enter_, &QPushButton::clicked, this, [this] { emit visitAsked(tag_, currentSubject()); });
  connect(sign_, &QPushButton::clicked, this, [this] {
    if (const auto id = currentCalibration()) {
      emit signAsked(*id);
    }
  });
  connect(certificate_, &QPushButton::clicked, this, [this] {
    if (const auto id = currentCalibration()) {
      emit certificateAsked(*id);
    }
  });
  return head;
}

QWidget* ChannelScreen::makeCharts() {
  auto* time = new QWidget(this);
  point_ = new QComboBox(time);
  point_->setAccessibleName(tr("Test point"));
  point_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
  auto* label = new QLabel(tr("Test &point"), time);
  label->setBuddy(point_);
  figures_ = new QLabel(time);
  figures_->setWordWrap(true);
  timePlot_ = new PlotView(time);
  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(label);
  row->addWidget(point_);
  row->addWidget(figures_, 1);
  auto* column = new QVBoxLayout(time);
  column->setContentsMargins(8, 8, 8, 8);
  column->addLayout(row);
  column->addWidget(timePlot_, 1);

  inputPlot_ = new PlotView(this);
  charts_ = new QTabWidget(this);
  charts_->addTab(time, tr("Error over &time"));
  charts_->addTab(inputPlot_, tr("Error over &input"));
  connect(point_, &QComboBox::currentIndexChanged, this, &ChannelScreen::drawTime);
  connect(point_, &QComboBox::activated, this, [this] {
    pointChosen_ = true;
    wanted_.reset();
    wantedPoint_.clear();
  });
  return charts_;
}

QWidget* ChannelScreen::makeTables() {
  tables_ = new QTabWidget(this);
  routineTable_ = makeTable(routines_, tr("Routines"), tables_);
  setupTable_ = makeTable(setups_, tr("Setups"), tables_);
  fittingTable_ = makeTable(fittings_, tr("Fittings"), tables_);
  tables_->addTab(setupTable_, tr("&Setups"));
  tables_->addTab(routineTable_, tr("R&outines"));
  tables_->addTab(fittingTable_, tr("&Fittings"));
  return tables_;
}

QString ChannelScreen::shownPoint() const {
  return point_->currentText();
}

void ChannelScreen::showChannel(const QString& tag, std::optional<Subject> subject) {
  if (tag != tag_) {  // another channel's choice says nothing of this one
    const QSignalBlocker quiet(point_);
    point_->clear();
  }
  pointChosen_ = false;
  tag_ = tag;
  wanted_ = subject;
  wantedPoint_.clear();
  drift_.clear();
  driftKnown_ = false;
  refresh();
  chooseCalibration(0);
}

void ChannelScreen::showPoint(const QString& tag, Subject subject, const QString& point) {
  showChannel(tag, subject);
  wantedPoint_ = point;
}

void ChannelScreen::refresh() {
  if (tag_.isEmpty() || !session_.isOpen()) {
    return;
  }
  try {
    takeRegister();
    takeRoutines();
    takeCalibrations();
    drawTime();
    session_.lookAtChannel(tag_);
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
  }
}

void ChannelScreen::takeRegister() {
  const Channel* channel = session_.site().channel(toCore(tag_));
  if (channel == nullptr) {
    return;
  }
  title_->setText(QStringLiteral("%1  %2").arg(tag_, fromCore(channel->title)));
  place_->setText(channel->terminal.empty()
                      ? fromCore(channel->place)
                      : tr("%1, terminal %2").arg(fromCore(channel->place), fromCore(channel->terminal)));
  place_->setForegroundRole(QPalette::PlaceholderText);
  const SetupVersion* now = setupInForce(*channel, session_.now());
  std::vector<SetupRow> setups;
  for (const SetupVersion& each : channel->setups) {
    setups.insert(setups.begin(), {each, &each == now});
  }
  setups_->setRows(std::move(setups));
  std::vector<FittingRow> fittings;
  for (const Fitting& each : channel->fittings) {
    const Sensor* sensor = session_.site().sensor(each.sensor);
    fittings.insert(fittings.begin(), {each, sensor != nullptr ? std::optional(*sensor) : std::nullopt});
  }
  fittings_->setRows(std::move(fittings));
  setupTable_->fitToContent();
  fittingTable_->fitToContent();
}

void ChannelScreen::takeRoutines() {
  const Channel* channel = session_.isOpen() ? session_.site().channel(toCore(tag_)) : nullptr;
  if (channel == nullptr) {
    return;
  }
  const std::vector<DueItem>& due = session_.due(channel->tag);
  std::vector<RoutineRow> rows;
  for (const Routine& routine : channel->routines) {
    const auto found =
        std::find_if(due.begin(), due.end(), [&](const DueItem& i) { return i.subject == routine.subject; });
    const Plan* plan = session_.site().plan(routine.plan);
    const QString name = plan != nullptr ? tr("%1 rev %2").arg(fromCore(plan->code), fromCore(plan->revision))
                                         : fromCore(routine.plan);
    rows.push_back({routine, name, found == due.end() ? std::nullopt : std::optional(*found)});
  }
  routines_->setRows(std::move(rows));
  routineTable_->fitToContent();
  const auto state = channelState(due, channel->tag);
  stateSign_->setPixmap(state ? iconOf(*state).pixmap(scaled(QSize(16, 16))) : QPixmap());
  state_->setText(channel->retired ? tr("Retired") : state ? word(*state) : QString());
}

std::optional<Subject> ChannelScreen::currentSubject() const {
  const auto& rows = routines_->rows();
  // The most pressing routine; the table's own choice goes before it.
  const QModelIndex at = routineTable_->currentIndex();
  if (at.isValid()) {
    return routines_->row(at.row()).routine.subject;
  }
  const auto first = std::min_element(rows.begin(), rows.end(), [](const RoutineRow& a, const RoutineRow& b) {
    return a.due && b.due && a.due->due.state < b.due->due.state;
  });
  return first == rows.end() ? std::nullopt : std::optional(first->routine.subject);
}

void ChannelScreen::takeDrift(const QString& tag, const std::vector<DriftItem>& items, bool ownOnly) {
  if (tag != tag_ || (ownOnly && driftKnown_)) {
    return;
  }
  // Of a channel that was shown before, the combo still has its points.
  const bool keep = driftKnown_ ? !ownOnly_ || pointChosen_ : point_->count() > 0;
  pointChosen_ = pointChosen_ || keep;
  drift_.clear();
  std::copy_if(items.begin(), items.end(), std::back_inserter(drift_),
               [](const DriftItem& item) { return !item.segments.empty(); });
  driftKnown_ = true;
  ownOnly_ = ownOnly;
  fillPoints(keep);
  drawTime();
}

void ChannelScreen::fillPoints(bool keep) {
  const QString before = point_->currentText();
  const QSignalBlocker quiet(point_);
  point_->clear();
  int worst = 0;
  for (std::size_t i = 0; i < drift_.size(); ++i) {
    const DriftItem& item = drift_[i];
    point_->addItem(tr("%1, %2").arg(word(item.subject), followedPointWord(item.point, item.pointPercent)));
    const auto& first = drift_[static_cast<std::size_t>(worst)];
    if (item.bandOutOn && (!first.bandOutOn || *item.bandOutOn < *first.bandOutOn)) {
      worst = static_cast<int>(i);
    }
  }
  const int again = keep ? point_->findText(before) : -1;
  const auto first = std::find_if(drift_.begin(), drift_.end(), [this](const DriftItem& item) {
    return item.subject == wanted_ && (wantedPoint_.isEmpty() || fromCore(item.point) == wantedPoint_);
  });
  point_->setCurrentIndex(first != drift_.end() ? static_cast<int>(first - drift_.begin())
                          : again >= 0          ? again
                                                : worst);
  if (!ownOnly_ || pointChosen_) {
    wanted_.reset();
    wantedPoint_.clear();
  }
}

/// Setups and sensors that came after the last reading.
std::vector<LaterBreak> ChannelScreen::laterBreaks(const DriftItem& item) const {
  std::vector<LaterBreak> later;
  const Channel* channel = session_.site().channel(item.channel);
  if (channel == nullptr) {
    return later;
  }
  const double last = item.segments.back().readings.back().time;
  const auto after = [&](Moment at) { return yearsBetween(item.origin, at) > last && at <= session_.now(); };
  for (const SetupVersion& setup : channel->setups) {
    if (item.subject != Subject::sensor && after(setup.inForceFrom)) {
      later.push_back({setup.inForceFrom, BreakCause::newSetup});
    }
  }
  for (const Fitting& fitting : channel->fittings) {
    if (item.subject != Subject::channel && after(fitting.from)) {
      later.push_back({fitting.from, BreakCause::otherSensor});
    }
  }
  return later;
}

void ChannelScreen::drawTime() {
  const int at = point_->currentIndex();
  if (!driftKnown_ || drift_.empty() || at < 0 || at >= static_cast<int>(drift_.size())) {
    figures_->clear();
    timePlot_->showSentence(!driftKnown_
                                ? tr("Reading the history …")
                                : tr("There are no calibrations yet, so nothing can be drawn over time."));
    return;
  }
  const DriftItem& item = drift_[static_cast<std::size_t>(at)];
  DriftChart made = makeDriftChart(item, session_.today(), chartLook(), laterBreaks(item));
  timePlot_->showChart(made.chart, std::move(made.notes), made.spoken);
  figures_->setText(made.spoken);
}

}  // namespace spanwright
