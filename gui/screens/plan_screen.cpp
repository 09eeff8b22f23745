// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/plan_screen.h"

#include <QComboBox>
#include <QDateEdit>
#include <QFileDialog>
#include <QLabel>
#include <QPushButton>
#include <QSaveFile>
#include <QShortcut>
#include <QSpinBox>
#include <QTabWidget>
#include <QVBoxLayout>
#include <algorithm>
#include <memory>

#include "core/record/problem.h"
#include "core/tasks/round_sheet.h"
#include "core/tasks/rounds.h"
#include "core/tasks/site_calendar.h"
#include "gui/models/plan_models.h"
#include "gui/screens/plan_grid.h"
#include "gui/screens/sheet_file.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/words/days.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kUsualWeeks = 8;
constexpr int kMostWeeks = 104;

QDateEdit* dateBox(const QString& name, QWidget* parent) {
  auto* box = new QDateEdit(parent);
  box->setCalendarPopup(true);
  box->setDisplayFormat(typedDateForm());
  box->setAccessibleName(name);
  return box;
}

}  // namespace

PlanScreen::PlanScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      weeksModel_(new PlanWeeksModel(this)),
      stopsModel_(new PlanStopsModel(this)),
      notModel_(new NotPlannedModel(this)) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 12, 14, 12);
  whole->setSpacing(8);
  whole->addWidget(makeControls());
  summary_ = new QLabel(this);
  summary_->setWordWrap(true);
  summary_->setAccessibleName(tr("The plan in a sentence"));
  whole->addWidget(summary_);
  whole->addWidget(makeTabs(), 1);
  about_ = new QLabel(this);
  about_->setWordWrap(true);
  about_->setAccessibleName(tr("The chosen stop"));
  earlier_ = new QPushButton(tr("A day &earlier"), this);
  later_ = new QPushButton(tr("A day la&ter"), this);
  round_ = new QPushButton(tr("Make a ro&und"), this);
  round_->setToolTip(tr("Keeps the chosen stop as a round of its person"));
  sheet_ = new QPushButton(tr("Round &sheet…"), this);
  sheet_->setToolTip(tr("The chosen stop's sheet, to be printed and taken along"));
  connect(round_, &QPushButton::clicked, this, &PlanScreen::makeRoundOfChosen);
  connect(sheet_, &QPushButton::clicked, this, &PlanScreen::askSheet);
  auto* foot = new WrapRow;
  foot->setSpacing(10);
  foot->addWidget(about_, 1);
  foot->addWidget(sheet_);
  foot->addWidget(round_);
  foot->addWidget(earlier_);
  foot->addWidget(later_);
  whole->addLayout(foot);
  connect(earlier_, &QPushButton::clicked, this, [this] { moveChosen(-1); });
  connect(later_, &QPushButton::clicked, this, [this] { moveChosen(+1); });
  for (const auto& [keys, direction] : {std::pair(QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Left), -1),
                                        std::pair(QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Right), +1)}) {
    auto* shortcut = new QShortcut(keys, this, nullptr, nullptr, Qt::WidgetWithChildrenShortcut);
    connect(shortcut, &QShortcut::activated, this, [this, by = direction] { moveChosen(by); });
  }
  showStop(-1);
}

QWidget* PlanScreen::makeControls() {
  auto* bar = new QWidget(this);
  from_ = dateBox(tr("First day"), bar);
  weeks_ = new QSpinBox(bar);
  weeks_->setRange(1, kMostWeeks);
  weeks_->setValue(kUsualWeeks);
  weeks_->setAccessibleName(tr("Weeks"));
  hours_ = new QSpinBox(bar);
  hours_->setRange(0, 400);
  hours_->setValue(100);
  hours_->setSingleStep(10);
  hours_->setSuffix(tr(" %"));
  hours_->setAccessibleName(tr("Share of everybody's hours"));
  away_ = new QComboBox(bar);
  away_->setAccessibleName(tr("Standard that is away"));
  awayFrom_ = dateBox(tr("Away from"), bar);
  awayUntil_ = dateBox(tr("Away until"), bar);
  afresh_ = new QPushButton(tr("Start &afresh"), bar);
  afresh_->setToolTip(tr("Lets go of what was supposed and of what was moved"));
  calendar_ = new QPushButton(tr("&Calendar file…"), bar);
  auto* row = new WrapRow(bar);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  const auto add = [&](const QString& text, QWidget* box) {
    auto* label = new QLabel(text, bar);
    label->setBuddy(box);
    row->addWidget(label);
    row->addWidget(box);
  };
  add(tr("&From"), from_);
  add(tr("Wee&ks"), weeks_);
  row->addSpacing(14);
  add(tr("What if: h&ours"), hours_);
  add(tr("awa&y"), away_);
  row->addWidget(awayFrom_);
  row->addWidget(awayUntil_);
  row->addStretch(1);
  row->addWidget(afresh_);
  row->addWidget(calendar_);
  for (QSpinBox* each : {weeks_, hours_}) {
    each->setKeyboardTracking(false);
    connect(each, &QSpinBox::valueChanged, this, &PlanScreen::refresh);
  }
  for (QDateEdit* each : {from_, awayFrom_, awayUntil_}) {
    each->setKeyboardTracking(false);
    connect(each, &QDateEdit::dateChanged, this, &PlanScreen::refresh);
  }
  connect(away_, &QComboBox::currentIndexChanged, this, &PlanScreen::refresh);
  connect(afresh_, &QPushButton::clicked, this, &PlanScreen::startAfresh);
  connect(calendar_, &QPushButton::clicked, this, &PlanScreen::askCalendar);
  return bar;
}

QWidget* PlanScreen::makeTabs() {
  tabs_ = new QTabWidget(this);
  grid_ = new PlanGrid(weeksModel_, tabs_);
  stopTable_ = new TableView(tr("Stops"), tabs_);
  stopTable_->setModel(stopsModel_);
  notTable_ = new TableView(tr("What does not fit"), tabs_);
  notTable_->setModel(notModel_);
  tabs_->addTab(grid_, tr("&Days"));
  tabs_->addTab(stopTable_, tr("&List"));
  tabs_->addTab(notTable_, tr("Does &not fit"));
  connect(grid_, &PlanGrid::stopChosen, this, &PlanScreen::showStop);
  connect(grid_, &PlanGrid::stopMoved, this, &PlanScreen::moveStop);
  connect(grid_, &PlanGrid::stopOpened, this, [this](int stop) {
    emit channelChosen(fromCore(plan_.stops.at(static_cast<std::size_t>(stop)).visits.front().channel));
  });
  connect(stopTable_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          [this](const QModelIndex& at) { showStop(at.row()); });
  connect(stopTable_, &TableView::chosen, this, [this](const QModelIndex& at) {
    emit channelChosen(fromCore(stopsModel_->row(at.row()).visits.front().channel));
  });
  connect(notTable_, &TableView::chosen, this,
          [this](const QModelIndex& at) { emit channelChosen(fromCore(notModel_->row(at.row()).channel)); });
  return tabs_;
}

void PlanScreen::takeRecord() {
  const QSignalBlocker quiet[] = {QSignalBlocker(from_), QSignalBlocker(away_), QSignalBlocker(awayFrom_),
                                  QSignalBlocker(awayUntil_), QSignalBlocker(hours_)};
  moved_.clear();
  from_->setDate(toQt(session_.today()));
  awayFrom_->setDate(toQt(session_.today()));
  awayUntil_->setDate(toQt(session_.today()).addDays(30));
  hours_->setValue(100);
  away_->clear();
  away_->addItem(tr("no standard"), QString());
  for (const Standard& standard : session_.site().standards) {
    away_->addItem(fromCore(standard.serial), fromCore(standard.serial));
  }
}

PlanQuestion PlanScreen::question() const {
  PlanQuestion question;
  question.from = fromQt(from_->date());
  question.weeks = weeks_->value();
  question.hoursFactor = hours_->value() / 100.0;
  const std::string serial = toCore(away_->currentData().toString());
  if (!serial.empty() && awayFrom_->date() <= awayUntil_->date()) {
    question.standardsAway[serial] = {{fromQt(awayFrom_->date()), fromQt(awayUntil_->date())}};
  }
  for (const auto& [tag, day] : moved_) {
    question.onlyOn[tag] = {{day, day}};
  }
  return question;
}

void PlanScreen::refresh() {
  if (!session_.isOpen()) {
    return;
  }
  const bool away = !away_->currentData().toString().isEmpty();
  awayFrom_->setEnabled(away);
  awayUntil_->setEnabled(away);
  session_.worker().postWithStore(tr("Fitting visits into weeks"),
                                  [this, asked = ++asked_, what = question()](Store& store, const Progress&) {
                                    auto plan = std::make_shared<SitePlan>(sitePlan(store, what));
                                    return Worker::Then([this, asked, plan] {
                                      if (asked == asked_) {
                                        takePlan(*plan);
                                      }
                                    });
                                  });
}

void PlanScreen::takePlan(const SitePlan& plan) {
  plan_ = plan;
  weeksModel_->setPlan(plan, session_.site(), workCalendar(session_.site().calendar));
  stopsModel_->setRows(plan.stops);
  notModel_->setRows(plan.notPlanned);
  grid_->fitRows();
  stopTable_->fitToContent();
  notTable_->fitToContent();
  tabs_->setTabText(2, plan.notPlanned.empty() ? tr("Does &not fit")
                                               : tr("Does &not fit (%1)").arg(plan.notPlanned.size()));
  const auto late = std::count_if(plan.stops.begin(), plan.stops.end(), [](const PlannedStop& stop) {
    return std::any_of(stop.visits.begin(), stop.visits.end(),
                       [](const PlannedSubject& visit) { return visit.time == PlanTime::late; });
  });
  QString text = tr("%1 to %2: %3 at %4")
                     .arg(shownDate(plan.from), shownDate(plan.until),
                          counted(static_cast<int>(plan.visits()), tr("1 visit"), tr("%1 visits")),
                          counted(static_cast<int>(plan.stops.size()), tr("1 stop"), tr("%1 stops")));
  text += late == 0 ? tr("; none is late") : tr("; %1 with late visits").arg(late);
  text +=
      plan.notPlanned.empty() ? tr("; everything fits") : tr("; %1 do not fit").arg(plan.notPlanned.size());
  if (plan.weeks.empty()) {
    text += tr("; no technician has hours for calibrations");
  }
  if (!moved_.empty()) {
    text += tr("; %1 moved by hand").arg(moved_.size());
  }
  summary_->setText(asSentence(text));
  chosen_ = -1;
  if (!plan.stops.empty()) {
    grid_->chooseStop(0);
  }
  showStop(plan.stops.empty() ? -1 : 0);
}

void PlanScreen::showStop(int stop) {
  const bool there = stop >= 0 && stop < static_cast<int>(plan_.stops.size());
  chosen_ = there ? stop : -1;
  earlier_->setEnabled(there);
  later_->setEnabled(there);
  round_->setEnabled(there);
  sheet_->setEnabled(there);
  if (!there) {
    about_->clear();
    return;
  }
  const PlannedStop& at = plan_.stops[static_cast<std::size_t>(stop)];
  QStringList channels;
  QStringList notes;
  for (const PlannedSubject& visit : at.visits) {
    channels << fromCore(visit.channel);
    if (!visit.reason.empty()) {
      notes << QStringLiteral("%1: %2").arg(fromCore(visit.channel), fromCore(visit.reason));
    }
  }
  QStringList serials;
  for (const std::string& serial : at.standards) {
    serials << fromCore(serial);
  }
  const Person* person = session_.site().person(at.person);
  QString text = tr("%1, %2 at %3: %4. Take %5.")
                     .arg(shownDate(at.day), fromCore(person != nullptr ? person->name : at.person),
                          fromCore(at.cabinet), channels.join(QStringLiteral(", ")),
                          serials.isEmpty() ? tr("no standard") : serials.join(QStringLiteral(", ")));
  if (!notes.isEmpty()) {
    text += u' ' + asSentence(notes.join(QStringLiteral("; ")));
  }
  about_->setText(text);
}

void PlanScreen::moveStop(int stop, Date day) {
  if (stop < 0 || stop >= static_cast<int>(plan_.stops.size())) {
    return;
  }
  const PlannedStop& at = plan_.stops[static_cast<std::size_t>(stop)];
  if (at.day == day) {
    return;
  }
  for (const PlannedSubject& visit : at.visits) {
    moved_[visit.channel] = day;
  }
  refresh();
}

void PlanScreen::moveChosen(int direction) {
  if (chosen_ < 0) {
    return;
  }
  const WorkCalendar calendar = workCalendar(session_.site().calendar);
  const Date next = plan_.stops[static_cast<std::size_t>(chosen_)].day + boost::gregorian::days(direction);
  const auto day = direction < 0 ? calendar.onOrBefore(next) : calendar.onOrAfter(next);
  if (day && *day >= plan_.from && *day <= plan_.until) {
    moveStop(chosen_, *day);
  }
}

void PlanScreen::startAfresh() {
  {
    const QSignalBlocker quiet[] = {QSignalBlocker(away_), QSignalBlocker(hours_)};
    away_->setCurrentIndex(0);
    hours_->setValue(100);
  }
  moved_.clear();
  refresh();
}

const PlannedStop* PlanScreen::chosenStop() const {
  return chosen_ < 0 ? nullptr : &plan_.stops.at(static_cast<std::size_t>(chosen_));
}

void PlanScreen::makeRoundOfChosen() {
  const PlannedStop* stop = chosenStop();
  if (stop == nullptr) {
    return;
  }
  try {
    const ProposedRound proposed = roundOfStop(*stop);
    const std::int64_t id = makeRound(session_.store(), proposed);
    emit roundMade(id, tr("The round \"%1\" has %2.")
                           .arg(fromCore(proposed.name), counted(static_cast<int>(proposed.stops.size()),
                                                                 tr("1 stop"), tr("%1 stops"))));
  } catch (const InputError& refused) {
    emit session_.troubled(problemSentences(refused));
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
  }
}

void PlanScreen::askSheet() {
  const PlannedStop* stop = chosenStop();
  const QString file = stop != nullptr ? askSheetFile(this, fromCore(roundOfStop(*stop).name)) : QString();
  if (!file.isEmpty()) {
    writeSheetTo(file);
  }
}

void PlanScreen::writeSheetTo(const QString& file) {
  const PlannedStop* stop = chosenStop();
  if (stop == nullptr) {
    return;
  }
  const auto [written, sentence] = writeSheet([&] { return sheetOfStop(session_.store(), *stop); }, file);
  written ? emit done(sentence) : emit session_.troubled(sentence);
}

void PlanScreen::askCalendar() {
  const QString file =
      QFileDialog::getSaveFileName(this, tr("Calendar file"), kLastFolder.get(), tr("Calendars (*.ics)"));
  if (!file.isEmpty()) {
    writeCalendar(file.endsWith(QStringLiteral(".ics")) ? file : file + QStringLiteral(".ics"));
  }
}

void PlanScreen::writeCalendar(const QString& file) {
  QSaveFile out(file);
  const std::string text =
      calendarText(planEvents(plan_, session_.site()), session_.site().site.name, session_.clock().utcNow());
  if (!out.open(QIODevice::WriteOnly) || out.write(text.data(), static_cast<qint64>(text.size())) < 0 ||
      !out.commit()) {
    emit session_.troubled(
        tr("%1 could not be written (%2); choose another folder.").arg(file, out.errorString()));
    return;
  }
  emit done(tr("%1 written with %2.")
                .arg(file, counted(static_cast<int>(plan_.stops.size()), tr("1 stop"), tr("%1 stops"))));
}

}  // namespace spanwright
