// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/forms/register_dialog.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/forms/register_form.h"
#include "gui/session/session.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr QSize kSize{980, 560};
constexpr int kKindsWidth = 170;
constexpr RegisterKind kKinds[] = {RegisterKind::person,   RegisterKind::place,    RegisterKind::plan,
                                   RegisterKind::interval, RegisterKind::standard, RegisterKind::sensor};

QString listName(RegisterKind kind) {
  switch (kind) {
    case RegisterKind::person:
      return RegisterDialog::tr("People");
    case RegisterKind::place:
      return RegisterDialog::tr("Places");
    case RegisterKind::plan:
      return RegisterDialog::tr("Plans");
    case RegisterKind::interval:
      return RegisterDialog::tr("Interval policies");
    case RegisterKind::standard:
      return RegisterDialog::tr("Standards");
    case RegisterKind::sensor:
    case RegisterKind::channel:
    case RegisterKind::site:
      break;
  }
  return RegisterDialog::tr("Sensors");
}

struct Rows {
  QStringList headings;
  std::vector<QStringList> rows;
};

Rows peopleOf(const Register& site) {
  Rows rows{{RegisterDialog::tr("Login"), RegisterDialog::tr("Name"), RegisterDialog::tr("Roles"),
             RegisterDialog::tr("Hours"), RegisterDialog::tr("Left")},
            {}};
  for (const Person& each : site.people) {
    QStringList roles;
    for (const Role role : each.roles) {
      roles << word(role);
    }
    rows.rows.push_back({fromCore(each.login), fromCore(each.name), roles.join(QStringLiteral(", ")),
                         each.hoursPerWeek ? shownShort(*each.hoursPerWeek) : QString(),
                         each.leftOn ? shownDate(*each.leftOn) : QString()});
  }
  return rows;
}

Rows plansOf(const Register& site) {
  Rows rows{{RegisterDialog::tr("Code"), RegisterDialog::tr("Revision"), RegisterDialog::tr("Title"),
             RegisterDialog::tr("Points [%]"), RegisterDialog::tr("Tolerance")},
            {}};
  for (const Plan& each : site.plans) {
    rows.rows.push_back({fromCore(each.code), fromCore(each.revision), fromCore(each.title),
                         fromCore(typedNumbers(each.scheme.percents)),
                         shownDescription(describe(each.tolerance, Unit::none))});
  }
  return rows;
}

QString policyWord(PolicyKind kind) {
  switch (kind) {
    case PolicyKind::fixed:
      return RegisterDialog::tr("fixed");
    case PolicyKind::staircase:
      return RegisterDialog::tr("staircase");
    case PolicyKind::reliability:
      return RegisterDialog::tr("reliability");
    case PolicyKind::forecast:
      break;
  }
  return RegisterDialog::tr("forecast");
}

Rows intervalsOf(const Register& site) {
  Rows rows{{RegisterDialog::tr("Code"), RegisterDialog::tr("Policy"), RegisterDialog::tr("Begins with")},
            {}};
  for (const IntervalPolicy& each : site.intervals) {
    rows.rows.push_back({fromCore(each.code), policyWord(each.kind),
                         each.months > 0 ? counted(each.months, RegisterDialog::tr("1 month"),
                                                   RegisterDialog::tr("%1 months"))
                                         : shownDays(each.days)});
  }
  return rows;
}

Rows rowsOf(const Register& site, RegisterKind kind) {
  Rows rows;
  switch (kind) {
    case RegisterKind::person:
      return peopleOf(site);
    case RegisterKind::plan:
      return plansOf(site);
    case RegisterKind::interval:
      return intervalsOf(site);
    case RegisterKind::place:
      rows.headings << RegisterDialog::tr("Place") << RegisterDialog::tr("Walking order");
      for (const Place& each : site.places) {
        rows.rows.push_back({fromCore(each.path), QString::number(each.order)});
      }
      return rows;
    case RegisterKind::standard:
      rows.headings << RegisterDialog::tr("Serial number") << RegisterDialog::tr("Description")
                    << RegisterDialog::tr("Model") << RegisterDialog::tr("Certificates");
      for (const Standard& each : site.standards) {
        rows.rows.push_back({fromCore(each.serial), fromCore(each.description), fromCore(each.model),
                             QString::number(each.certificates.size())});
      }
      return rows;
    case RegisterKind::sensor:
    case RegisterKind::channel:
    case RegisterKind::site:
      break;
  }
  rows.headings << RegisterDialog::tr("Serial number") << RegisterDialog::tr("Description")
                << RegisterDialog::tr("Range");
  for (const Sensor& each : site.sensors) {
    rows.rows.push_back(
        {fromCore(each.serial), fromCore(each.description), shownDescription(describe(each.range))});
  }
  return rows;
}

}  // namespace

RegisterDialog::RegisterDialog(Session& session, RegisterKind first, QWidget* parent)
    : QDialog(parent),
      session_(session),
      kinds_(new QListWidget(this)),
      words_(new QLineEdit(this)),
      table_(new QTableWidget(this)),
      add_(new QPushButton(tr("&New…"), this)),
      change_(new QPushButton(tr("&Change…"), this)),
      more_(new QPushButton(this)) {
  setWindowTitle(tr("The register"));
  resize(kSize);
  kinds_->setAccessibleName(tr("Lists"));
  kinds_->setFixedWidth(kKindsWidth);
  kinds_->setSpacing(3);
  for (const RegisterKind kind : kKinds) {
    kinds_->addItem(listName(kind));
  }
  words_->setPlaceholderText(tr("Narrow the list"));
  words_->setAccessibleName(words_->placeholderText());
  words_->setClearButtonEnabled(true);
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table_->setAlternatingRowColors(true);
  table_->setTabKeyNavigation(false);
  table_->verticalHeader()->hide();
  table_->horizontalHeader()->setStretchLastSection(true);
  table_->installEventFilter(this);
  auto* close = new QPushButton(tr("C&lose"), this);
  for (QPushButton* each : {add_, change_, more_, close}) {
    each->setAutoDefault(false);
  }
  auto* row = new QHBoxLayout;
  row->addWidget(add_);
  row->addWidget(change_);
  row->addWidget(more_);
  row->addStretch(1);
  row->addWidget(close);
  auto* side = new QVBoxLayout;
  side->addWidget(words_);
  side->addWidget(table_, 1);
  side->addLayout(row);
  auto* whole = new QHBoxLayout(this);
  whole->addWidget(kinds_);
  whole->addLayout(side, 1);
  connect(kinds_, &QListWidget::currentRowChanged, this, &RegisterDialog::refresh);
  connect(words_, &QLineEdit::textChanged, this, &RegisterDialog::narrow);
  connect(add_, &QPushButton::clicked, this, &RegisterDialog::add);
  connect(change_, &QPushButton::clicked, this, &RegisterDialog::change);
  connect(more_, &QPushButton::clicked, this, [this] {
    if (!current().isEmpty()) {
      kind() == RegisterKind::person ? emit leavingAsked(current()) : emit certificateAsked(current());
    }
  });
  connect(table_, &QTableWidget::cellDoubleClicked, this, &RegisterDialog::change);
  connect(close, &QPushButton::clicked, this, &QDialog::accept);
  showKind(first);
  table_->setFocus();
}

void RegisterDialog::showKind(RegisterKind kind) {
  const auto* const at = std::find(std::begin(kKinds), std::end(kKinds), kind);
  kinds_->setCurrentRow(static_cast<int>(at - std::begin(kKinds)));
}

RegisterKind RegisterDialog::kind() const {
  return kKinds[std::max(0, kinds_->currentRow())];
}

QString RegisterDialog::current() const {
  const int row = table_->currentRow();
  return row < 0 || table_->isRowHidden(row) ? QString() : table_->item(row, 0)->text();
}

int RegisterDialog::count() const {
  return table_->rowCount();
}

void RegisterDialog::choose(const QString& name) {
  for (int row = 0; row < table_->rowCount(); ++row) {
    if (table_->item(row, 0)->text() == name) {
      table_->setCurrentCell(row, 0);
    }
  }
}

void RegisterDialog::take(const QString& sentence) {
  const QString name = current();
  refresh();
  choose(name);
  emit changed(sentence);
}

void RegisterDialog::refresh() {
  const Rows rows = rowsOf(session_.site(), kind());
  table_->clear();
  table_->setAccessibleName(listName(kind()));
  table_->setColumnCount(static_cast<int>(rows.headings.size()));
  table_->setHorizontalHeaderLabels(rows.headings);
  table_->setRowCount(static_cast<int>(rows.rows.size()));
  for (int row = 0; row < table_->rowCount(); ++row) {
    const QStringList& cells = rows.rows[static_cast<std::size_t>(row)];
    for (int column = 0; column < cells.size(); ++column) {
      table_->setItem(row, column, new QTableWidgetItem(cells[column]));
    }
  }
  table_->resizeColumnsToContents();
  narrow();
  if (table_->rowCount() > 0) {
    table_->setCurrentCell(0, 0);
  }
  const bool person = kind() == RegisterKind::person;
  more_->setText(person ? tr("&Has left…") : tr("New c&ertificate…"));
  more_->setVisible(person || kind() == RegisterKind::standard);
  change_->setEnabled(table_->rowCount() > 0);
}

void RegisterDialog::narrow() {
  const QString words = words_->text().trimmed();
  for (int row = 0; row < table_->rowCount(); ++row) {
    bool found = words.isEmpty();
    for (int column = 0; column < table_->columnCount() && !found; ++column) {
      found = table_->item(row, column)->text().contains(words, Qt::CaseInsensitive);
    }
    table_->setRowHidden(row, !found);
  }
}

void RegisterDialog::add() {
  openForm(new RegisterForm(session_, kind(), TypedFields(), this));
}

void RegisterDialog::change() {
  if (!current().isEmpty()) {
    openForm(new RegisterForm(session_, kind(), current(), this));
  }
}

void RegisterDialog::openForm(RegisterForm* form) {
  form->setAttribute(Qt::WA_DeleteOnClose);
  connect(form, &FormDialog::saved, this, [this](const QString& sentence, const QString& name) {
    refresh();
    choose(name);
    emit changed(sentence);
  });
  form->open();
}

bool RegisterDialog::eventFilter(QObject* watched, QEvent* event) {
  if (watched == table_ && event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_F2) {
      change();
      return true;
    }
    if (key == Qt::Key_Insert) {
      add();
      return true;
    }
  }
  return QDialog::eventFilter(watched, event);
}

}  // namespace spanwright
