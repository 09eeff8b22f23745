// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/standards_screen.h"

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSortFilterProxyModel>
#include <QSplitter>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/charts/plot_view.h"
#include "gui/charts/standard_chart.h"
#include "gui/models/standards_model.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QLabel* bold(const QString& text, QWidget* parent, double times = 1.08) {
  auto* label = new QLabel(text, parent);
  QFont font = label->font();
  font.setBold(true);
  font.setPointSizeF(font.pointSizeF() * times);
  label->setFont(font);
  return label;
}

}  // namespace

StandardsScreen::StandardsScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      model_(new StandardsModel(this)),
      sorted_(new QSortFilterProxyModel(this)),
      certificates_(new StandardCertificatesModel(this)),
      events_(new StandardEventsModel(this)) {
  sorted_->setSortRole(kSortRole);
  sorted_->setSourceModel(model_);
  auto* split = new QSplitter(sideBySide(), this);
  split->setChildrenCollapsible(false);
  split->addWidget(makeList());
  split->addWidget(makeDetails());
  split->setStretchFactor(0, 5);
  split->setStretchFactor(1, 6);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(split);
  setFocusProxy(table_);
  setTabOrder(table_, decide_);  // Tab enters at the table: what came before it would be passed over
  setTabOrder(decide_, add_);
  setTabOrder(add_, files_);
}

QWidget* StandardsScreen::makeList() {
  auto* side = new QWidget(this);
  count_ = new QLabel(side);
  decide_ = new QPushButton(tr("&Decide…"), side);
  add_ = new QPushButton(tr("&Add certificate…"), side);
  files_ = new QPushButton(tr("Fi&les…"), side);
  decide_->setToolTip(tr("Take it out of service, bring it back, or allow its use; signed"));
  files_->setToolTip(tr("Files kept with the certificate chosen"));
  table_ = new TableView(tr("Standards"), side);
  table_->setModel(sorted_);
  table_->setSortingEnabled(true);
  table_->sortByColumn(-1, Qt::AscendingOrder);  // by serial, as core has it
  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(count_, 1);
  row->addWidget(decide_);
  row->addWidget(add_);
  row->addWidget(files_);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(14, 12, 6, 12);
  column->setSpacing(10);
  column->addLayout(row);
  column->addWidget(table_, 1);
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          &StandardsScreen::showCurrent);
  connect(decide_, &QPushButton::clicked, this, [this] { emit decisionAsked(currentStandard()); });
  connect(table_, &TableView::chosen, this, [this] { emit decisionAsked(currentStandard()); });
  connect(add_, &QPushButton::clicked, this, [this] { emit certificateAsked(currentStandard()); });
  connect(files_, &QPushButton::clicked, this, &StandardsScreen::askFiles);
  return side;
}

QWidget* StandardsScreen::makeDetails() {
  auto* side = new QWidget(this);
  heading_ = bold({}, side, 1.2);
  reach_ = new QPushButton(tr("What did it r&each…"), side);
  reach_->setToolTip(tr("The calibrations that rest on it, when it was found out of tolerance"));
  auto* head = new QHBoxLayout;
  head->setSpacing(10);
  head->addWidget(heading_, 1);
  head->addWidget(reach_);
  certificateTable_ = new TableView(tr("Certificates of the standard"), side);
  certificateTable_->setModel(certificates_);
  eventTable_ = new TableView(tr("Decisions about the standard"), side);
  eventTable_->setModel(events_);
  noEvents_ = new QLabel(tr("Nothing was decided about it."), side);
  values_ = new QComboBox(side);
  values_->setAccessibleName(tr("Value of the chart"));
  chartNote_ = new QLabel(side);
  chartNote_->setWordWrap(true);
  plot_ = new PlotView(side);
  auto* valueLabel = new QLabel(tr("Control chart a&t"), side);
  valueLabel->setBuddy(values_);
  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(valueLabel);
  row->addWidget(values_);
  row->addWidget(chartNote_, 1);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(6, 12, 14, 12);
  column->setSpacing(8);
  column->addLayout(head);
  column->addWidget(bold(tr("Certificates"), side));
  column->addWidget(certificateTable_, 3);
  column->addLayout(row);
  column->addWidget(plot_, 6);
  column->addWidget(bold(tr("What was decided"), side));
  column->addWidget(noEvents_);
  column->addWidget(eventTable_, 2);
  for (TableView* each : {certificateTable_, eventTable_}) {
    each->setMinimumHeight(scaled(58));
  }
  connect(reach_, &QPushButton::clicked, this, [this] { emit reachAsked(currentStandard()); });
  connect(values_, &QComboBox::currentIndexChanged, this, &StandardsScreen::showChart);
  return side;
}

void StandardsScreen::askFiles() {
  const QModelIndex at = certificateTable_->currentIndex();
  if (at.isValid()) {
    emit filesAsked(currentStandard(), fromCore(certificates_->row(at.row()).number));
  }
}

void StandardsScreen::refresh() {
  const QString before = currentStandard();
  {
    const QSignalBlocker quiet(table_->selectionModel());
    model_->setRows(standardRows(session_.site(), session_.today()));
  }
  table_->fitToContent();
  const auto cannot = std::count_if(model_->rows().begin(), model_->rows().end(), [](const StandardRow& row) {
    return row.state == StandardState::expired || row.state == StandardState::noCertificate ||
           row.state == StandardState::outOfService;
  });
  count_->setText(tr("%1; %2 not to be used today")
                      .arg(counted(model_->rowCount(), tr("1 standard"), tr("%1 standards")))
                      .arg(cannot));
  choose(before);
}

void StandardsScreen::choose(const QString& serial) {
  const auto& rows = model_->rows();
  const auto found = std::find_if(rows.begin(), rows.end(), [&serial](const StandardRow& row) {
    return fromCore(row.standard.serial) == serial;
  });
  const QModelIndex at =
      found != rows.end() ? sorted_->mapFromSource(model_->index(static_cast<int>(found - rows.begin()), 0))
                          : sorted_->index(0, 0);
  table_->setCurrentIndex(at);
  showCurrent();
}

QString StandardsScreen::currentStandard() const {
  const QModelIndex at = sorted_->mapToSource(table_->currentIndex());
  return at.isValid() ? fromCore(model_->row(at.row()).standard.serial) : QString();
}

void StandardsScreen::showCurrent() {
  const QModelIndex at = sorted_->mapToSource(table_->currentIndex());
  for (QPushButton* each : {decide_, add_, files_, reach_}) {
    each->setEnabled(at.isValid());
  }
  if (!at.isValid()) {
    heading_->setText(tr("The register has no standards."));
    certificates_->setRows({});
    events_->setRows({});
    charts_.clear();
    values_->clear();
    showChart();
    return;
  }
  const Standard& standard = model_->row(at.row()).standard;
  heading_->setText(QStringLiteral("%1  %2").arg(
      fromCore(standard.serial),
      fromCore(standard.maker + (standard.maker.empty() ? "" : " ") + standard.model)));
  certificates_->setRows({standard.certificates.rbegin(), standard.certificates.rend()});
  certificateTable_->fitToContent();
  certificateTable_->setCurrentIndex(certificates_->index(0, 0));
  files_->setEnabled(certificates_->rowCount() > 0);
  events_->setRows({standard.events.rbegin(), standard.events.rend()});
  eventTable_->fitToContent();
  eventTable_->setVisible(events_->rowCount() > 0);
  noEvents_->setVisible(events_->rowCount() == 0);
  charts_ = certificateCharts(standard, session_.today());
  const QSignalBlocker quiet(values_);
  values_->clear();
  int first = -1;
  for (std::size_t i = 0; i < charts_.size(); ++i) {
    const bool beyond = isBeyond(charts_[i]);
    first = first < 0 && beyond ? static_cast<int>(i) : first;
    values_->addItem(beyond ? markIcon(Mark::triangle, Tone::bad) : QIcon(),
                     beyond ? tr("%1, beyond").arg(valueWord(charts_[i])) : valueWord(charts_[i]));
  }
  values_->setCurrentIndex(std::max(0, first));
  showChart();
}

void StandardsScreen::showChart() {
  const int at = values_->currentIndex();
  values_->setEnabled(at >= 0);
  if (at < 0 || static_cast<std::size_t>(at) >= charts_.size()) {
    chartNote_->clear();
    plot_->showSentence(tr("There is no certificate to draw yet."));
    return;
  }
  const QModelIndex row = sorted_->mapToSource(table_->currentIndex());
  StandardChart chart =
      makeStandardChart(model_->row(row.row()).standard, charts_[static_cast<std::size_t>(at)], chartLook());
  chartNote_->setText(chart.spoken);
  plot_->showChart(chart.chart, std::move(chart.notes), chart.spoken);
}

}  // namespace spanwright
