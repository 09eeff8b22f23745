// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/trace_screen.h"

#include <QHBoxLayout>
#include <QItemSelectionModel>
#include <QLabel>
#include <QPushButton>
#include <QSplitter>
#include <QTextBrowser>
#include <QVBoxLayout>
#include <algorithm>

#include "core/tasks/signing.h"
#include "gui/models/trace_model.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/life_words.h"
#include "gui/words/marks.h"
#include "gui/words/trace_words.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QTextBrowser* makePage(const QString& name, QWidget* parent) {
  auto* page = new QTextBrowser(parent);
  page->setAccessibleName(name);
  page->setOpenLinks(false);
  return page;
}

QWidget* named(const QString& name, QWidget* page) {
  auto* box = new QWidget(page->parentWidget());
  auto* label = new QLabel(name, box);
  label->setBuddy(page);
  QFont font = label->font();
  font.setBold(true);
  label->setFont(font);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 4, 0, 0);
  column->addWidget(label);
  column->addWidget(page, 1);
  return box;
}

}  // namespace

TraceScreen::TraceScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      model_(new TraceModel(this)),
      table_(new TableView(tr("Readings with what they rest on"), this)) {
  table_->setModel(model_);
  auto* split = new QSplitter(Qt::Vertical, this);
  split->addWidget(table_);
  split->addWidget(makePages());
  split->setStretchFactor(0, 2);
  split->setStretchFactor(1, 3);
  split->setChildrenCollapsible(false);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 12, 14, 12);
  whole->setSpacing(10);
  whole->addWidget(makeHead());
  whole->addWidget(split, 1);
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &TraceScreen::showReading);
}

QWidget* TraceScreen::makeHead() {
  auto* head = new QWidget(this);
  title_ = new QLabel(head);
  title_->setTextFormat(Qt::PlainText);
  title_->setWordWrap(true);
  QFont font = title_->font();
  font.setBold(true);
  title_->setFont(font);
  agreementSign_ = new QLabel(head);
  agreement_ = new QLabel(head);
  agreement_->setWordWrap(true);
  agreement_->setAccessibleName(tr("Agreement with a recomputation"));
  before_ = new QPushButton(tr("Visit &before"), head);
  channel_ = new QPushButton(tr("On its &channel"), head);
  certificate_ = new QPushButton(tr("Cer&tificate"), head);
  sign_ = new QPushButton(tr("&Sign…"), head);
  auto* buttons = new WrapRow;
  buttons->setSpacing(10);
  buttons->addWidget(title_, 1);
  for (QPushButton* each : {before_, channel_, certificate_, sign_}) {
    buttons->addWidget(each);
  }
  auto* line = new QHBoxLayout;
  line->setSpacing(6);
  line->addWidget(agreementSign_);
  line->addWidget(agreement_, 1);
  auto* column = new QVBoxLayout(head);
  column->setContentsMargins(0, 0, 0, 0);
  column->addLayout(buttons);
  column->addLayout(line);
  connect(sign_, &QPushButton::clicked, this, [this] { emit signAsked(calibration_); });
  connect(certificate_, &QPushButton::clicked, this, [this] { emit certificateAsked(calibration_); });
  connect(channel_, &QPushButton::clicked, this, [this] { emit channelAsked(channel(), calibration_); });
  connect(before_, &QPushButton::clicked, this, [this] {
    if (trace_ && trace_->before) {
      emit calibrationAsked(*trace_->before);
    }
  });
  return head;
}

QWidget* TraceScreen::makePages() {
  auto* split = new QSplitter(sideBySide(), this);
  reading_ = makePage(tr("Where the numbers of the chosen reading come from"), split);
  visit_ = makePage(tr("What the calibration as a whole rests on"), split);
  split->addWidget(named(tr("Where the numbers of the chosen rea&ding come from"), reading_));
  split->addWidget(named(tr("What the calibration as a wh&ole rests on"), visit_));
  split->setChildrenCollapsible(false);
  return split;
}

void TraceScreen::showCalibration(CalibrationId calibration) {
  const bool other = calibration != calibration_;
  calibration_ = calibration;
  if (other && model_->rowCount() > 0) {
    table_->setCurrentIndex({});
  }
  refresh();
  table_->setFocus();
}

void TraceScreen::refresh() {
  if (calibration_ == 0 || !session_.isOpen()) {
    return;
  }
  try {
    take(traceCalibration(session_.store(), calibration_));
  } catch (const InputError& refused) {
    emit session_.troubled(problemSentences(refused));
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
  }
}

void TraceScreen::take(const CalibrationTrace& trace) {
  const int row = std::max(0, table_->currentIndex().row());
  trace_ = trace;
  const Calibration& calibration = trace.calibration;
  title_->setText(tr("Calibration %1 of %2, %3 (%4): as found %5, as left %6")
                      .arg(calibration.id)
                      .arg(fromCore(calibration.channel), fromCore(trace.title),
                           wordInside(calibration.subject), word(calibration.foundVerdict),
                           word(calibration.leftVerdict)));
  const bool whole = trace.agrees() && trace.gaps.empty();
  agreementSign_->setPixmap(
      (whole ? markIcon(Mark::check, Tone::good) : markIcon(Mark::exclaim, Tone::attention))
          .pixmap(scaled(QSize(16, 16))));
  const QString gaps = trace.gaps.empty() ? tr("No link is missing.")
                                          : counted(static_cast<int>(trace.gaps.size()),
                                                    tr("1 link is missing."), tr("%1 links are missing."));
  agreement_->setText(QStringLiteral("%1 %2").arg(agreementSentence(trace), gaps));
  model_->setRows(trace.readings);
  table_->fitToContent();
  visit_->setHtml(visitPage(trace, signatureLines(signatures(session_.store(), calibration.id))));
  before_->setEnabled(trace.before.has_value());
  if (model_->rowCount() > 0) {
    table_->setCurrentIndex(model_->index(std::min(row, model_->rowCount() - 1), 0));
  }
  showReading();
}

void TraceScreen::showReading() {
  const int row = table_->currentIndex().row();
  if (trace_ && row >= 0 && row < model_->rowCount()) {
    reading_->setHtml(readingPage(*trace_, model_->row(row)));
  } else {
    reading_->clear();
  }
}

QString TraceScreen::channel() const {
  return trace_ ? fromCore(trace_->calibration.channel) : QString();
}
QString TraceScreen::visitText() const {
  return visit_->toPlainText();
}
QString TraceScreen::readingText() const {
  return reading_->toPlainText();
}

}  // namespace spanwright
