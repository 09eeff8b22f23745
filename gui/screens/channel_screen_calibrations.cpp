// SPDX-License-Identifier: GPL-3.0-or-later
//
// A channel's calibrations: the table, who signed the chosen one, its figures and its errors over the input.
#include <QItemSelectionModel>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/charts/plot_view.h"
#include "gui/charts/visit_chart.h"
#include "gui/models/channel_tables.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "gui/words/advice_words.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr std::size_t kRecentVisits = 3;

}  // namespace

QWidget* ChannelScreen::makeCalibrations() {
  auto* box = new QWidget(this);
  auto* label = new QLabel(tr("&Calibrations, latest first"), box);
  QFont font = label->font();
  font.setBold(true);
  label->setFont(font);
  calibrationTable_ = new TableView(tr("Calibrations"), box);
  calibrationTable_->setModel(calibrations_);
  label->setBuddy(calibrationTable_);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 4, 0, 0);
  column->addWidget(label);
  column->addWidget(calibrationTable_, 1);
  signatures_ = new QLabel(box);
  signatures_->setWordWrap(true);
  signatures_->setTextFormat(Qt::PlainText);
  signatures_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  signatures_->setAccessibleName(tr("Signatures of the chosen calibration"));
  column->addWidget(signatures_);
  runFigures_ = new QLabel(box);
  runFigures_->setWordWrap(true);
  runFigures_->setAccessibleName(tr("Figures of the chosen calibration"));
  column->addWidget(runFigures_);
  connect(calibrationTable_, &TableView::chosen, this,
          [this](const QModelIndex& index) { emit certificateAsked(calibrations_->row(index.row()).id); });
  connect(calibrationTable_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          &ChannelScreen::showChosen);
  return box;
}

void ChannelScreen::takeCalibrations() {
  const auto before = currentCalibration();
  calibrations_->setRows(calibrationRows(session_.store(), toCore(tag_)));
  calibrationTable_->fitToContent();
  chooseCalibration(before.value_or(0));
  sign_->setEnabled(calibrations_->rowCount() > 0);
  certificate_->setEnabled(calibrations_->rowCount() > 0);
  if (calibrations_->rowCount() == 0) {
    showChosen();
  }
}

/// The latest where the channel has none of this number.
void ChannelScreen::chooseCalibration(CalibrationId calibration) {
  const auto& rows = calibrations_->rows();
  const auto found =
      std::find_if(rows.begin(), rows.end(), [&](const auto& each) { return each.id == calibration; });
  if (!rows.empty()) {
    calibrationTable_->setCurrentIndex(
        calibrations_->index(found == rows.end() ? 0 : static_cast<int>(found - rows.begin()), 0));
  }
}

void ChannelScreen::showCalibration(const QString& tag, CalibrationId calibration) {
  showChannel(tag);
  chooseCalibration(calibration);
  calibrationTable_->setFocus();
}

void ChannelScreen::focusCalibrations() {
  calibrationTable_->setFocus();
}

void ChannelScreen::showChosen() {
  const int at = calibrationTable_->currentIndex().row();
  signatures_->setVisible(at >= 0);
  signatures_->setText(at >= 0 && at < calibrations_->rowCount() ? calibrations_->row(at).signatures
                                                                 : QString());
  drawInput();
}

std::optional<CalibrationId> ChannelScreen::currentCalibration() const {
  if (calibrations_->rowCount() == 0) {
    return std::nullopt;
  }
  const QModelIndex at = calibrationTable_->currentIndex();
  return calibrations_->row(at.isValid() ? at.row() : 0).id;
}

void ChannelScreen::showRunFigures(const Calibration& calibration) {
  QStringList lines;
  for (const Phase phase : {Phase::asFound, Phase::asLeft}) {
    const auto advised = adviseCalibration(session_.site(), calibration, phase);
    const auto* advice = std::get_if<VisitAdvice>(&advised);
    if (advice != nullptr && advice->figures) {
      lines += figuresLine(phase, *advice->figures);
    }
  }
  runFigures_->setText(lines.isEmpty() ? tr("The chosen calibration has no run figures.")
                                       : lines.join(u'\n'));
}

void ChannelScreen::drawInput() {
  const auto id = currentCalibration();
  if (!id) {
    inputPlot_->showSentence(tr("There are no calibrations yet, so nothing can be drawn over the input."));
    runFigures_->clear();
    return;
  }
  try {
    // The chosen visit and those before it of the same subject and setup.
    std::vector<Calibration> visits;
    const auto& rows = calibrations_->rows();
    const auto chosen =
        std::find_if(rows.begin(), rows.end(), [&](const auto& each) { return each.id == *id; });
    for (auto each = chosen; each != rows.end() && visits.size() < kRecentVisits; ++each) {
      if (each->subject == chosen->subject && each->setupVersion == chosen->setupVersion) {
        if (auto visit = session_.store().calibration(each->id)) {
          visits.push_back(std::move(*visit));
        }
      }
    }
    showRunFigures(visits.front());
    std::vector<VisitLine> lines;
    for (const Calibration& visit : visits) {
      VisitLine line{shownDate(visit.performed.date()), {}, {}};
      for (const Reading& reading : visit.asFound) {
        line.found.push_back(&reading);
      }
      for (const Reading& reading : visit.asLeft) {
        line.left.push_back(&reading);
      }
      lines.push_back(std::move(line));
    }
    std::vector<TestPoint> points;
    std::vector<std::pair<double, ErrorLimits>> limits;
    for (const Reading& reading : visits.front().standingAsLeft()) {
      points.push_back(reading.point);
    }
    for (const Reading& reading : visits.front().standingAsLeft()) {
      if (!reading.skipped()) {
        limits.emplace_back(visitChartX(points, reading.point), reading.limits);
      }
    }
    std::stable_sort(limits.begin(), limits.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    const QString title =
        tr("%1, %2: error over input, %3")
            .arg(tag_, wordInside(visits.front().subject), shownDate(visits.front().performed.date()));
    inputPlot_->showChart(makeVisitChart(title, points, lines, limits, chartLook()), {}, title);
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
  }
}

}  // namespace spanwright
