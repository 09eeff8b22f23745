// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/visit_screen.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/charts/plot_view.h"
#include "gui/charts/visit_chart.h"
#include "gui/models/sheet_model.h"
#include "gui/screens/settle_timer.h"
#include "gui/screens/sheet_view.h"
#include "gui/screens/visit_header.h"
#include "gui/screens/visit_problems.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kRedrawAfterMs = 30;
constexpr int kProblemsHeight = 112;  // at most; more are scrolled to
constexpr auto kAboutDone = "done";   // marks the page's own problem about what was done
enum Done { kNotSaid, kAdjusted, kRepaired, kNothing };

/// That is what people write down.
Moment wholeMinutes(Moment now) {
  return Moment(now.date(), boost::posix_time::hours(now.time_of_day().hours()) +
                                boost::posix_time::minutes(now.time_of_day().minutes()));
}

}  // namespace

VisitScreen::VisitScreen(Session& session, QWidget* parent) : QWidget(parent), session_(session) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 8, 14, 10);
  redraw_.setSingleShot(true);
  redraw_.setInterval(kRedrawAfterMs);
  connect(&redraw_, &QTimer::timeout, this, &VisitScreen::drawErrors);
}

void VisitScreen::takeRecord() {
  dropRecord();
  entry_ = std::make_unique<VisitEntry>(session_.store(), session_.clock());
  build();
  header_->fillLists();
}

void VisitScreen::dropRecord() {
  if (body_ != nullptr) {
    view_->commitOpenEditor();
  }
  delete body_;
  body_ = nullptr;
  entry_.reset();
}

QCheckBox* VisitScreen::cautions() const {
  return header_->cautions();
}
QString VisitScreen::sentence() const {
  return sentence_->text();
}

QString VisitScreen::figures() const {
  return figures_->text();
}

void VisitScreen::start(const QString& channel, std::optional<Subject> subject) {
  const Channel* known = session_.site().channel(toCore(channel));
  const bool any = known != nullptr && !known->routines.empty();
  const Moment when = wholeMinutes(session_.now());
  openSheet(channel, subject.value_or(any ? known->routines.front().subject : Subject::channel), when);
}

void VisitScreen::chooseChannel() {
  if (!entry_->isOpen()) {
    header_->showChoice({}, Subject::channel, wholeMinutes(session_.now()));
    plot_->showSentence(tr("No channel is chosen yet."));
    sentenceSign_->setPixmap({});
    sentence_->setText(
        tr("Choose the channel: type its tag (dashes may be left out) or words of it, then Enter."));
  }
  header_->goTo(VisitPart::channel);
}

void VisitScreen::openSheet(const QString& channel, Subject subject, Moment when) {
  view_->commitOpenEditor();
  // Only the moment changed: what was typed goes along, as long as the same sheet applies.
  const bool sameSubject =
      entry_->isOpen() && fromCore(entry_->draft().channel) == channel && entry_->draft().subject == subject;
  if (sameSubject && entry_->anyTyped()) {
    const QString trouble = entry_->moveTo(when);
    if (!trouble.isEmpty()) {
      emit session_.troubled(trouble);
    }
    header_->takeSheet(entry_->draft().started);
    return;
  }
  if (!mayLeave()) {
    header_->takeSheet(entry_->draft().started);
    return;
  }
  const QString trouble = entry_->open(channel, subject, when);
  if (!trouble.isEmpty()) {
    header_->showChoice(channel, subject, when);
    plot_->showSentence(trouble);
    emit session_.troubled(trouble);
    return;
  }
  takeSheet();
}

void VisitScreen::resume(const Draft& draft) {
  if (!mayLeave()) {
    return;
  }
  const QString trouble = entry_->resume(draft);
  if (!trouble.isEmpty()) {
    emit session_.troubled(trouble);
    return;
  }
  takeSheet();
  saved_->setText(tr("Draft of %1").arg(shownMoment(draft.started)));
}

void VisitScreen::takeSheet() {
  header_->takeSheet(entry_->draft().started);
  const Adjustment& adjustment = entry_->draft().adjustment;
  done_->setCurrentIndex(adjustment.repaired ? kRepaired : adjustment.adjusted ? kAdjusted : kNotSaid);
  adjustment_->setText(fromCore(adjustment.text));
  remarks_->setText(fromCore(entry_->draft().remarks));
  saved_->clear();
  problems_->hide();
  problemList_.clear();
  markAdjustment();
  showFigures();
  drawErrors();
  const VisitSheet& sheet = entry_->sheet();
  // A sensor on its own is not read through the channel's filter.
  settle_->takeSetup(sheet.setup != nullptr && sheet.subject != Subject::sensor ? &sheet.setup->setup
                                                                                : nullptr);
  view_->setCurrentIndex(model_->index(0, SheetModel::kFound));
  showCellNote();
  if (entry_->draft().cautionsConfirmed) {
    view_->goToStart();
  } else {
    cautions()->setFocus(Qt::OtherFocusReason);
  }
}

void VisitScreen::takeAdjustment() {
  entry_->setAdjustment({done_->currentIndex() == kAdjusted, done_->currentIndex() == kRepaired,
                         toCore(adjustment_->text().trimmed())});
  markAdjustment();
  checkAgain();
}

void VisitScreen::markAdjustment() {
  const bool wanted = entry_->isOpen() && entry_->anyTyped(Phase::asLeft);
  const bool missing = wanted && done_->currentIndex() == kNotSaid;
  adjustmentLabel_->setText(wanted ? tr("&Done (needed)") : tr("&Done"));
  QFont font = adjustmentLabel_->font();
  font.setBold(missing);
  adjustmentLabel_->setFont(font);
}

void VisitScreen::finish() {
  if (!entry_->isOpen()) {
    return;
  }
  view_->commitOpenEditor();
  takeAdjustment();
  entry_->setRemarks(remarks_->text().trimmed());
  const std::vector<Problem> before = unsaidWork();
  const std::vector<Problem> problems = before.empty() ? entry_->finish() : before;
  if (!problems.empty()) {
    showProblems(problems);
    problems_->setCurrentRow(0);
    problems_->setFocus(Qt::OtherFocusReason);
    return;
  }
  const Calibration stored = *entry_->stored();
  entry_->leave();
  problems_->hide();
  emit finished(fromCore(stored.channel),
                tr("The visit to %1 is stored: as found %2, as left %3.")
                    .arg(fromCore(stored.channel), word(stored.foundVerdict), word(stored.leftVerdict)));
}

std::vector<Problem> VisitScreen::unsaidWork() const {
  const bool said = done_->currentIndex() != kNotSaid;
  const bool textWanted = done_->currentIndex() == kAdjusted || done_->currentIndex() == kRepaired;
  if (!entry_->anyTyped(Phase::asLeft) ||
      (said && !(textWanted && adjustment_->text().trimmed().isEmpty()))) {
    return {};
  }
  return {{{{}, 0, 0, kAboutDone},
           toCore(tr("as-left values are typed but not what was done")),
           toCore(tr("choose below what was done, and say what was adjusted or repaired"))}};
}

void VisitScreen::checkAgain() {
  if (problems_->isHidden() || !entry_->isOpen()) {
    return;
  }
  std::vector<Problem> problems = unsaidWork();
  if (problems.empty()) {
    problems = entry_->check();
  }
  if (!problems.empty()) {
    showProblems(problems);
    return;
  }
  problems_->hide();
  say(Mark::check, Tone::good,
      tr("Nothing keeps the visit from being stored any more; Ctrl+Enter stores it."));
}

void VisitScreen::showProblems(const std::vector<Problem>& problems) {
  problemList_ = problems;
  problems_->clear();
  for (const Problem& problem : problems) {
    new QListWidgetItem(markIcon(Mark::triangle, Tone::bad), problemSentence(problem), problems_);
  }
  const int line = problems_->sizeHintForRow(0) + 2;
  problems_->setFixedHeight(std::min(scaled(kProblemsHeight),
                                     line * static_cast<int>(problems.size()) + 2 * problems_->frameWidth()));
  problems_->show();
  sentenceSign_->setPixmap(markIcon(Mark::triangle, Tone::bad).pixmap(scaled(QSize(16, 16))));
  sentence_->setText(
      counted(static_cast<int>(problems.size()),
              tr("One thing keeps the visit from being stored; nothing typed is lost. Enter goes there."),
              tr("%1 things keep the visit from being stored; nothing typed is lost. Enter goes to each.")));
}

void VisitScreen::goToProblem(int row) {
  const QModelIndex cell = model_->cellOf(problemList_.at(static_cast<std::size_t>(row)));
  if (cell.isValid()) {
    view_->goTo(cell);
    view_->scrollTo(cell, QAbstractItemView::PositionAtCenter);
    return;
  }
  const Problem& problem = problemList_.at(static_cast<std::size_t>(row));
  const QString what = fromCore(problem.what);
  if (const auto part = partAbout(what)) {
    header_->goTo(*part);
  } else if (problem.where.columnName == kAboutDone || aboutWhatWasDone(what)) {
    const bool saidWhich = done_->currentIndex() == kAdjusted || done_->currentIndex() == kRepaired;
    const bool onlyText = saidWhich && entry_->anyTyped(Phase::asLeft);
    (onlyText ? static_cast<QWidget*>(adjustment_) : done_)->setFocus(Qt::ShortcutFocusReason);
  } else {
    view_->goToStart();
    view_->scrollTo(view_->currentIndex(), QAbstractItemView::PositionAtCenter);
  }
}

void VisitScreen::drawErrors() {
  if (!entry_ || !entry_->isOpen()) {
    return;
  }
  const auto& points = entry_->sheet().points;
  VisitLine line;
  std::vector<std::pair<double, ErrorLimits>> limits;
  for (int row = 0; row < entry_->rowCount(); ++row) {
    for (const Phase phase : {Phase::asFound, Phase::asLeft}) {
      const auto* reading = std::get_if<Reading>(&entry_->outcome(phase, row));
      if (reading != nullptr && !reading->skipped()) {
        (phase == Phase::asFound ? line.found : line.left).push_back(reading);
      }
    }
    if (const auto expected = entry_->expected(row)) {
      limits.emplace_back(visitChartX(points, entry_->point(row)), expected->limits);
    }
  }
  std::stable_sort(limits.begin(), limits.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<PredictedMark> predicted;
  if (const VisitAdvice advice = entry_->advice(Phase::asFound); advice.adjusts()) {
    for (const PredictedError& each : advice.predicted) {
      const auto at = std::find_if(points.begin(), points.end(),
                                   [&](const TestPoint& point) { return point.sequence == each.sequence; });
      // What was then read as left takes its place.
      if (std::none_of(line.left.begin(), line.left.end(),
                       [&](const Reading* left) { return left->point.sequence == each.sequence; })) {
        predicted.push_back({visitChartX(points, *at), each.error});
      }
    }
  }
  const QString title = tr("Errors of this visit");
  plot_->showChart(makeVisitChart(title, points, {line}, limits, chartLook(), predicted), {}, title);
}

}  // namespace spanwright
