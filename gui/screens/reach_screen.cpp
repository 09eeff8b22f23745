// SPDX-License-Identifier: GPL-3.0-or-later
//
// The steps and the way between them; the pages themselves are in reach_screen_layout.cpp.
#include "gui/screens/reach_screen.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFileDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSaveFile>
#include <QSignalBlocker>
#include <QStackedWidget>
#include <QTabBar>
#include <algorithm>
#include <memory>

#include "core/tasks/rounds.h"
#include "gui/models/reach_model.h"
#include "gui/screens/found_form.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/words/reach_words.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kBusyPage = 3;

}  // namespace

void ReachScreen::showStandard(const QString& serial) {
  if (serial != serial_) {
    if (!serial_.isEmpty()) {
      kept_[serial_] = leaveOff();
    }
    ++asked_;
    working_ = false;
    reach_.reset();
    serial_ = serial;
    TypedFinding nothing;
    nothing.foundOn = session_.today();
    nothing.coverageFactor = std::string("2");  // a literal assigned here makes GCC 12 see an overflow
    const auto kept = kept_.find(serial);
    form_->fill(kept != kept_.end() ? kept->second.typed : nothing);
    name_->clear();
  }
  refresh();
  showStep(reach_ ? tabs_->currentIndex() : 0);
}

void ReachScreen::refresh() {
  const Standard* standard = session_.isOpen() ? session_.site().standard(toCore(serial_)) : nullptr;
  if (standard == nullptr) {
    heading_->setText(tr("Choose a standard on the page of standards."));
    setEnabled(false);
    return;
  }
  setEnabled(true);
  heading_->setText(tr("Standard %1 found out of tolerance: what did it reach?").arg(serial_));
  form_->setStandard(*standard);
  fillPeople();
}

void ReachScreen::drop() {
  ++asked_;
  working_ = false;
  reach_.reset();
  kept_.clear();
  serial_.clear();
  showStep(0);
}

ReachPlace ReachScreen::leaveOff() const {
  return {serial_, form_->typed(), step()};
}

void ReachScreen::goOn(const ReachPlace& place) {
  showStandard(place.serial);
  form_->fill(place.typed);
  goToStep(place.step);
}

int ReachScreen::step() const {
  return working_ ? wanted_ : tabs_->currentIndex();
}

void ReachScreen::showStep(int step) {
  const QSignalBlocker quiet(tabs_);
  tabs_->setCurrentIndex(step);
  pages_->setCurrentIndex(working_ && step > 0 ? kBusyPage : step);
  QWidget* const firsts[] = {form_, table_, visitTable_};
  setFocusProxy(firsts[step]);
  if (isVisible()) {
    firsts[step]->setFocus();
  }
}

void ReachScreen::goToStep(int step) {
  wanted_ = step;
  if (step == 0 || (working_ && form_->typed() == workedOut_)) {
    showStep(step);
    return;
  }
  if (reach_ && form_->typed() == workedOut_) {
    showStep(step);
    return;
  }
  showStep(0);  // where a mistake is gone to
  if (const auto found = form_->read()) {
    workOut(*found, step);
  }
}

void ReachScreen::workOut(const FoundErrors& found, int thenStep) {
  reach_.reset();
  workedOut_ = form_->typed();
  working_ = true;
  wanted_ = thenStep;
  const QString what = tr("Working out what standard %1 reached").arg(serial_);
  busyText_->setText(what + QStringLiteral(" …"));
  showStep(thenStep);
  session_.worker().postWithStore(what, [this, found, serial = toCore(serial_), asked = ++asked_](
                                            Store& store, const Progress& progress) {
    auto reach = std::make_shared<Reach>();
    QString wrong;
    try {
      *reach = reachOfStandard(store, serial, found, progress);
    } catch (const InputError& refused) {
      wrong = problemSentences(refused);
    }
    return [this, reach, wrong, asked] {
      if (asked == asked_) {
        wrong.isEmpty() ? take(*reach) : refuse(wrong);
      }
    };
  });
}

void ReachScreen::take(const Reach& reach) {
  working_ = false;
  reach_ = reach;
  summary_->setText(lastGoodSentences(reach) + u'\n' + reachSentences(reach));
  onlyChanged_->setEnabled(reach.flips() > 0);
  if (reach.flips() == 0) {
    onlyChanged_->setChecked(false);
  }
  showRows();
  showVisits();
  showStep(wanted_);
}

void ReachScreen::refuse(const QString& sentence) {
  working_ = false;
  wanted_ = 0;
  showStep(0);
  form_->say(sentence);
}

void ReachScreen::endWork() {
  if (working_) {  // nothing came: it was cancelled, or the record could not be read, which is said elsewhere
    refuse(tr("It was not worked out to the end. Ask again when you want to know."));
  }
}

void ReachScreen::showRows() {
  std::vector<ReachedCalibration> rows;
  for (const ReachedCalibration& each : reach_->calibrations) {
    if (each.flips() || !onlyChanged_->isChecked()) {
      rows.push_back(each);
    }
  }
  {
    const QSignalBlocker quiet(table_->selectionModel());
    model_->setRows(std::move(rows));
  }
  table_->fitToContent();
  table_->setCurrentIndex(model_->index(0, 0));
  showPoints();
}

void ReachScreen::showPoints() {
  const QModelIndex at = table_->currentIndex();
  if (!at.isValid()) {
    chosen_->setText(tr("No calibration is chosen."));
    pointModel_->setRows({});
    return;
  }
  const ReachedCalibration& reached = model_->row(at.row());
  QString text = tr("Calibration %1 of %2, made under certificate %3")
                     .arg(reached.id)
                     .arg(fromCore(reached.channel), fromCore(reached.certificate));
  if (!reached.reason.empty()) {
    text += u'\n' + tr("It cannot be judged again: %1.").arg(fromCore(reached.reason));
  }
  chosen_->setText(text);
  pointModel_->setRows(reached.points);
  pointTable_->fitToContent();
}

void ReachScreen::showVisits() {
  std::vector<ReachVisitRow> rows;
  for (const ReachVisit& visit : reach_->visits) {
    const Channel* channel = session_.site().channel(visit.channel);
    rows.push_back({static_cast<int>(rows.size()) + 1, visit,
                    channel != nullptr ? fromCore(channel->title) : QString()});
  }
  const bool any = !rows.empty();
  toDo_->setText(any ? counted(static_cast<int>(rows.size()),
                               tr("1 channel needs a visit: what was left then no longer passes, or cannot "
                                  "be judged, and no later calibration with another standard clears it."),
                               tr("%1 channels need a visit, in walking order: what was left then no longer "
                                  "passes, or cannot be judged, and no later calibration with another "
                                  "standard clears it."))
                     : tr("No channel needs a visit for this."));
  visitModel_->setRows(std::move(rows));
  visitTable_->fitToContent();
  visitTable_->setCurrentIndex(visitModel_->index(0, 0));
  name_->setText(tr("Standard %1, found %2").arg(serial_, shownDate(workedOut_.foundOn)));
  refusal_->say({});
  for (QWidget* each : std::initializer_list<QWidget*>{name_, person_, make_, save_}) {
    each->setEnabled(any);
  }
}

void ReachScreen::makeTheRound() {
  std::int64_t round = 0;
  QString wrong;
  try {
    round = makeRound(session_.store(), *reach_, toCore(name_->text().trimmed()),
                      toCore(person_->currentData().toString()));
  } catch (const InputError& refused) {
    wrong = problemSentences(refused);
    name_->setFocus();
  } catch (const std::exception& error) {
    wrong = asSentence(QString::fromUtf8(error.what()));
  }
  refusal_->say(wrong);
  if (wrong.isEmpty()) {
    emit roundMade(round, counted(static_cast<int>(reach_->visits.size()),
                                  tr("The round \"%2\" holds the channel to visit again."),
                                  tr("The round \"%2\" holds the %1 channels to visit again."))
                              .arg(name_->text().trimmed()));
  }
}

void ReachScreen::askList() {
  const QString file =
      QFileDialog::getSaveFileName(this, tr("List of channels"), kLastFolder.get(), tr("Tables (*.csv)"));
  if (!file.isEmpty()) {
    writeList(file.endsWith(QStringLiteral(".csv")) ? file : file + QStringLiteral(".csv"));
  }
}

void ReachScreen::writeList(const QString& file) {
  QSaveFile out(file);
  const std::string text = visitsCsv(*reach_);
  if (!out.open(QIODevice::WriteOnly) || out.write(text.data(), static_cast<qint64>(text.size())) < 0 ||
      !out.commit()) {
    refusal_->say(
        tr("The list could not be written to %1 (%2); choose another place.").arg(file, out.errorString()));
    return;
  }
  refusal_->say({});
  emit done(tr("The list of channels is in %1.").arg(file));
}

QString ReachScreen::summary() const {
  return summary_->text();
}

}  // namespace spanwright
