// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/rounds_screen.h"

#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSplitter>
#include <QVBoxLayout>
#include <algorithm>

#include "core/tasks/round_sheet.h"
#include "gui/models/rounds_model.h"
#include "gui/prompts/prompts.h"
#include "gui/screens/sheet_file.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/words/words.h"

namespace spanwright {

RoundsScreen::RoundsScreen(Session& session, QWidget* parent)
    : QWidget(parent), session_(session), model_(new RoundsModel(this)), stops_(new StopsModel(this)) {
  auto* split = new QSplitter(Qt::Vertical, this);
  split->setChildrenCollapsible(false);
  split->addWidget(makeList());
  stopsSide_ = makeStops();
  split->addWidget(stopsSide_);
  split->setStretchFactor(0, 2);
  split->setStretchFactor(1, 3);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(split);
  setFocusProxy(table_);
}

QWidget* RoundsScreen::makeList() {
  auto* side = new QWidget(this);
  count_ = new QLabel(side);
  new_ = new QPushButton(tr("&New round…"), side);
  close_ = new QPushButton(tr("&Close round"), side);
  close_->setToolTip(tr("What is recorded later counts for it no more"));
  table_ = new TableView(tr("Rounds"), side);
  table_->setModel(model_);
  nothing_ = new QLabel(tr("There is no round yet. A round is a list of channels in the order one walks past "
                           "them; make one from what is due."),
                        side);
  nothing_->setAlignment(Qt::AlignCenter);
  nothing_->setWordWrap(true);
  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(count_, 1);
  row->addWidget(new_);
  row->addWidget(close_);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(14, 12, 14, 4);
  column->setSpacing(10);
  column->addLayout(row);
  column->addWidget(table_, 1);
  column->addWidget(nothing_, 1);
  connect(new_, &QPushButton::clicked, this, &RoundsScreen::newAsked);
  connect(close_, &QPushButton::clicked, this, &RoundsScreen::closeRound);
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          &RoundsScreen::showCurrent);
  connect(table_, &TableView::chosen, this, [this] { stopsTable_->setFocus(); });
  return side;
}

QWidget* RoundsScreen::makeStops() {
  auto* side = new QWidget(this);
  heading_ = new QLabel(side);
  QFont font = heading_->font();
  font.setBold(true);
  font.setPointSizeF(font.pointSizeF() * 1.15);
  heading_->setFont(font);
  visit_ = new QPushButton(tr("&Enter visit"), side);
  sheet_ = new QPushButton(tr("Round &sheet…"), side);
  sheet_->setToolTip(tr("What is still to do, to be printed and taken along"));
  certificates_ = new QPushButton(tr("Certi&ficates…"), side);
  certificates_->setToolTip(tr("Issue all that can be issued of this round"));
  labels_ = new QPushButton(tr("&Labels…"), side);
  labels_->setToolTip(tr("To stick on the channels of this round"));
  stopsTable_ = new TableView(tr("Stops of the round"), side);
  stopsTable_->setModel(stops_);
  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(heading_, 1);
  row->addWidget(sheet_);
  row->addWidget(certificates_);
  row->addWidget(labels_);
  row->addWidget(visit_);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(14, 4, 14, 12);
  column->setSpacing(10);
  column->addLayout(row);
  column->addWidget(stopsTable_, 1);
  connect(stopsTable_, &TableView::chosen, this, &RoundsScreen::openStop);
  connect(stopsTable_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          [this] { visit_->setEnabled(stopsTable_->currentIndex().isValid()); });
  connect(visit_, &QPushButton::clicked, this, &RoundsScreen::visitStop);
  connect(sheet_, &QPushButton::clicked, this, &RoundsScreen::askSheet);
  connect(certificates_, &QPushButton::clicked, this,
          [this] { emit certificatesAsked(model_->row(table_->currentIndex().row()).round); });
  connect(labels_, &QPushButton::clicked, this,
          [this] { emit labelsAsked(model_->row(table_->currentIndex().row()).round.stops); });
  return side;
}

void RoundsScreen::refresh() {
  const std::int64_t before = currentRound();
  std::vector<RoundRow> rows;
  try {
    for (Round& round : session_.store().rounds()) {
      const Person* person = session_.site().person(round.person);
      const auto progress = roundProgress(session_.store(), round);
      const auto done = std::count_if(progress.begin(), progress.end(),
                                      [](const StopProgress& stop) { return stop.calibration != 0; });
      rows.push_back({std::move(round), fromCore(person != nullptr ? person->name : std::string()),
                      static_cast<std::size_t>(done)});
    }
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
    return;
  }
  {
    const QSignalBlocker quiet(table_->selectionModel());
    model_->setRows(std::move(rows));
  }
  table_->fitToContent();
  const auto open = std::count_if(model_->rows().begin(), model_->rows().end(),
                                  [](const RoundRow& row) { return !row.round.closedUtc; });
  count_->setText(
      tr("%1, %2 open").arg(counted(model_->rowCount(), tr("1 round"), tr("%1 rounds"))).arg(open));
  table_->setVisible(model_->rowCount() > 0);
  nothing_->setVisible(model_->rowCount() == 0);
  stopsSide_->setVisible(model_->rowCount() > 0);
  choose(before);
}

void RoundsScreen::choose(std::int64_t round) {
  const auto& rows = model_->rows();
  const auto found =
      std::find_if(rows.begin(), rows.end(), [round](const RoundRow& row) { return row.round.id == round; });
  table_->setCurrentIndex(model_->index(found != rows.end() ? static_cast<int>(found - rows.begin()) : 0, 0));
  showCurrent();
}

std::int64_t RoundsScreen::currentRound() const {
  const QModelIndex at = table_->currentIndex();
  return at.isValid() ? model_->row(at.row()).round.id : 0;
}

void RoundsScreen::showCurrent() {
  const QModelIndex at = table_->currentIndex();
  const QString was = currentChannel();
  std::vector<StopRow> rows;
  close_->setEnabled(at.isValid() && !model_->row(at.row()).round.closedUtc);
  for (QPushButton* each : {sheet_, certificates_, labels_}) {
    each->setEnabled(at.isValid());
  }
  if (at.isValid()) {
    const RoundRow& row = model_->row(at.row());
    heading_->setText(
        tr("%1: %2 of %3 done").arg(fromCore(row.round.name)).arg(row.done).arg(row.round.stops.size()));
    try {
      for (StopProgress& each : roundProgress(session_.store(), row.round)) {
        const Channel* channel = session_.site().channel(each.stop.channel);
        const QString title = channel != nullptr ? fromCore(channel->title) : QString();
        rows.push_back({std::move(each), static_cast<int>(rows.size()) + 1, title});
      }
    } catch (const std::exception& error) {
      emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
    }
  } else {
    heading_->clear();
  }
  stops_->setRows(std::move(rows));
  stopsTable_->fitToContent();
  const auto& shown = stops_->rows();
  auto current = std::find_if(shown.begin(), shown.end(), [&was](const StopRow& row) {
    return fromCore(row.progress.stop.channel) == was;
  });
  if (current == shown.end()) {
    current = std::find_if(shown.begin(), shown.end(),
                           [](const StopRow& row) { return row.progress.calibration == 0; });
  }
  stopsTable_->setCurrentIndex(
      stops_->index(current != shown.end() ? static_cast<int>(current - shown.begin()) : 0, 0));
  visit_->setEnabled(stopsTable_->currentIndex().isValid());
}

std::optional<RoundStop> RoundsScreen::goToNext() {
  refresh();
  const QModelIndex round = table_->currentIndex();
  if (!round.isValid() || model_->row(round.row()).round.closedUtc) {
    return std::nullopt;
  }
  std::vector<StopProgress> progress;
  for (const StopRow& row : stops_->rows()) {
    progress.push_back(row.progress);
  }
  const auto next = nextStop(progress, goneRound_ == currentRound() ? gone_ : std::nullopt);
  if (!next) {
    return std::nullopt;
  }
  stopsTable_->setCurrentIndex(stops_->index(static_cast<int>(*next), 0));
  noteGone(static_cast<int>(*next));
  return progress[*next].stop;
}

QString RoundsScreen::doneRound() const {
  const QModelIndex at = table_->currentIndex();
  const Round* round = at.isValid() ? &model_->row(at.row()).round : nullptr;
  const auto& rows = stops_->rows();
  const bool done =
      std::all_of(rows.begin(), rows.end(), [](const StopRow& row) { return row.progress.calibration != 0; });
  return round != nullptr && !round->closedUtc && done ? fromCore(round->name) : QString();
}

void RoundsScreen::noteGone(int stop) {
  goneRound_ = currentRound();
  gone_ = static_cast<std::size_t>(stop);
}

QString RoundsScreen::currentChannel() const {
  const QModelIndex at = stopsTable_->currentIndex();
  return at.isValid() ? fromCore(stops_->row(at.row()).progress.stop.channel) : QString();
}

void RoundsScreen::openStop() {
  const QModelIndex at = stopsTable_->currentIndex();
  if (!at.isValid()) {
    return;
  }
  const StopProgress& progress = stops_->row(at.row()).progress;
  const QString tag = fromCore(progress.stop.channel);
  if (progress.calibration != 0) {
    emit calibrationChosen(tag, progress.calibration);
  } else {
    visitStop();
  }
}

void RoundsScreen::visitStop() {
  const QModelIndex at = stopsTable_->currentIndex();
  if (at.isValid()) {
    noteGone(at.row());
    const RoundStop stop = stops_->row(at.row()).progress.stop;
    emit visitAsked(fromCore(stop.channel), stop.subject);
  }
}

void RoundsScreen::askSheet() {
  const QModelIndex at = table_->currentIndex();
  const QString file =
      at.isValid() ? askSheetFile(this, fromCore(model_->row(at.row()).round.name)) : QString();
  if (!file.isEmpty()) {
    writeSheetTo(file);
  }
}

void RoundsScreen::writeSheetTo(const QString& file) {
  const auto [written, sentence] =
      writeSheet([this] { return sheetOfRound(session_.store(), currentRound(), session_.today()); }, file);
  written ? emit sheetWritten(sentence) : emit session_.troubled(sentence);
}

void RoundsScreen::closeRound() {
  const QModelIndex at = table_->currentIndex();
  if (!at.isValid()) {
    return;
  }
  const RoundRow& row = model_->row(at.row());
  const std::size_t open = row.round.stops.size() - row.done;
  const QString name = fromCore(row.round.name);
  if (open > 0 && !ask(this, {tr("Close the round"),
                              counted(static_cast<int>(open),
                                      tr("1 stop of \"%2\" is not done; a closed round stays as it is."),
                                      tr("%1 stops of \"%2\" are not done; a closed round stays as it is."))
                                  .arg(name),
                              tr("Close it"), tr("Keep it open")})) {
    return;
  }
  try {
    session_.store().closeRound(row.round.id);
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
    return;
  }
  refresh();
  emit closed(tr("The round \"%1\" is closed.").arg(name));
}

}  // namespace spanwright
