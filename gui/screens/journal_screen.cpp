// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/journal_screen.h"

#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSplitter>
#include <QTimer>
#include <QVBoxLayout>

#include "core/store/digest.h"
#include "gui/models/journal_model.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kPause = 150;     // ms
constexpr int kHashShown = 16;  // digits of 64
constexpr int kWidths[] = {76, 140, 100, 116, 220, 260};

}  // namespace

EntryFieldsModel::EntryFieldsModel(QObject* parent)
    : RowsModel({{tr("Value"), [](const EntryField& r) { return r.field; }},
                 {tr("Before"), [](const EntryField& r) { return r.before; }},
                 {tr("After, or as it stands"), [](const EntryField& r) { return r.now; }}},
                parent) {}

JournalScreen::JournalScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      model_(new JournalModel(this)),
      fields_(new EntryFieldsModel(this)),
      pause_(new QTimer(this)) {
  pause_->setSingleShot(true);
  pause_->setInterval(kPause);
  auto* split = new QSplitter(sideBySide(), this);
  split->setChildrenCollapsible(false);
  split->addWidget(makeList());
  split->addWidget(makeDetails());
  split->setStretchFactor(0, 7);
  split->setStretchFactor(1, 5);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(split);
  setFocusProxy(table_);
  setTabOrder(table_, words_);  // Tab enters at the table: what came before it would be passed over
  setTabOrder(words_, copy_);
  connect(pause_, &QTimer::timeout, this, &JournalScreen::narrow);
  connect(words_, &QLineEdit::textChanged, pause_, qOverload<>(&QTimer::start));
  connect(words_, &QLineEdit::returnPressed, table_, qOverload<>(&QWidget::setFocus));
  connect(model_, &JournalModel::troubled, &session_, &Session::troubled);
}

QWidget* JournalScreen::makeList() {
  auto* side = new QWidget(this);
  words_ = new QLineEdit(side);
  words_->setPlaceholderText(tr("Narrow by person, act, thing, day (2026-11-25) or channel"));
  words_->setClearButtonEnabled(true);
  words_->setAccessibleName(tr("Narrow the journal"));
  count_ = new QLabel(side);
  head_ = new QLabel(side);
  head_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  head_->setAccessibleName(tr("Head of the journal"));
  copy_ = new QPushButton(tr("Cop&y head"), side);
  copy_->setToolTip(
      tr("Keep it elsewhere: whoever has it can prove later that nothing before it was changed"));
  table_ = new TableView(tr("Journal"), side);
  table_->setModel(model_);
  table_->horizontalHeader()->setStretchLastSection(sideBySide() == Qt::Horizontal);  // large text needs more
  for (int column = 0; column < static_cast<int>(std::size(kWidths)); ++column) {
    table_->setColumnWidth(column, scaled(kWidths[column]));
  }
  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(words_, 1);
  row->addWidget(count_);
  auto* foot = new WrapRow;
  foot->setSpacing(10);
  foot->addWidget(head_, 1);
  foot->addWidget(copy_);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(14, 12, 6, 12);
  column->setSpacing(10);
  column->addLayout(row);
  column->addWidget(table_, 1);
  column->addLayout(foot);
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          &JournalScreen::showCurrent);
  connect(table_, &TableView::chosen, this, &JournalScreen::goToCalibration);
  connect(copy_, &QPushButton::clicked, this, [this] {
    QApplication::clipboard()->setText(head_->toolTip());
    copy_->setText(tr("Copied"));
  });
  return side;
}

QWidget* JournalScreen::makeDetails() {
  auto* side = new QWidget(this);
  heading_ = new QLabel(side);
  QFont font = heading_->font();
  font.setBold(true);
  font.setPointSizeF(font.pointSizeF() * 1.15);
  heading_->setFont(font);
  heading_->setWordWrap(true);
  facts_ = new QLabel(side);
  facts_->setWordWrap(true);
  facts_->setTextFormat(Qt::PlainText);
  facts_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  facts_->setAccessibleName(tr("The entry"));
  fieldsTable_ = new TableView(tr("What the entry changed"), side);
  fieldsTable_->setModel(fields_);
  show_ = new QPushButton(tr("&Show calibration"), side);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(6, 12, 14, 12);
  column->setSpacing(8);
  column->addWidget(heading_);
  column->addWidget(facts_);
  column->addWidget(fieldsTable_, 1);
  column->addWidget(show_, 0, Qt::AlignRight);
  connect(show_, &QPushButton::clicked, this, &JournalScreen::goToCalibration);
  return side;
}

void JournalScreen::refresh() {
  try {
    const JournalHead head = session_.store().journalHead();
    last_ = head.entry;
    const QString whole = fromCore(headText(head));
    head_->setText(tr("Head: entry %1, %2…").arg(head.entry).arg(fromCore(hex(head.hash)).left(kHashShown)));
    head_->setToolTip(whole);
    copy_->setText(tr("Cop&y head"));
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
    return;
  }
  narrow();
}

void JournalScreen::drop() {
  ++search_;
  pause_->stop();
  model_->clear();
  fields_->setRows({});
  words_->clear();
}

void JournalScreen::narrow() {
  pause_->stop();
  if (!session_.isOpen()) {
    return;
  }
  const QString words = words_->text().simplified();
  const int search = ++search_;
  if (words.isEmpty()) {
    take({});
    return;
  }
  session_.worker().postWithStore(
      tr("Looking through the journal"), [this, search, words](Store& store, const Progress& progress) {
        auto found = std::make_shared<std::vector<std::int64_t>>(findEntries(store, toCore(words), progress));
        return Worker::Then([this, search, found] {
          if (search == search_) {
            take(std::move(*found));
          }
        });
      });
}

void JournalScreen::take(std::optional<std::vector<std::int64_t>> found) {
  const bool all = !found.has_value();
  const QModelIndex was = table_->currentIndex();
  model_->show(session_.store(), last_, std::move(found));
  count_->setText(all ? counted(static_cast<int>(last_), tr("1 entry"), tr("%1 entries"))
                      : tr("%1 of %2").arg(model_->rowCount()).arg(last_));
  table_->setCurrentIndex(model_->index(was.isValid() && was.row() < model_->rowCount() ? was.row() : 0, 0));
  showCurrent();
}

int JournalScreen::count() const {
  return model_->rowCount();
}

void JournalScreen::findWords() {
  words_->setFocus(Qt::ShortcutFocusReason);
  words_->selectAll();
}

void JournalScreen::showCurrent() {
  const auto entry = model_->entry(table_->currentIndex().row());
  calibration_.reset();
  show_->setEnabled(false);
  if (!entry) {
    heading_->setText(tr("No entry holds all these words."));
    facts_->clear();
    fields_->setRows({});
    return;
  }
  try {
    const Store& store = session_.store();
    heading_->setText(tr("Entry %1: %2 %3")
                          .arg(entry->entry)
                          .arg(fromCore(aboutText(store, *entry)), fromCore(entry->act)));
    const auto changes = changesOf(*entry);
    QString facts = tr("%1 UTC, by %2")
                        .arg(shownMoment(entry->atUtc),
                             entry->person.empty() ? tr("the program") : fromCore(entry->person));
    if (!entry->detail.empty() && changes.empty()) {
      facts += tr("\nDetail: %1").arg(fromCore(entry->detail));
    }
    facts += tr("\nHash: %1…").arg(fromCore(hex(entry->hash)).left(kHashShown));
    facts_->setText(facts);
    std::vector<EntryField> rows;
    for (const FieldChange& each : changes) {
      rows.push_back({fromCore(each.field), fromCore(each.before), fromCore(each.after)});
    }
    if (changes.empty()) {
      for (const UnitField& each : fieldsOf(store, *entry)) {
        rows.push_back({fromCore(each.part + ' ' + each.field), {}, fromCore(each.value)});
      }
    }
    fieldsTable_->setColumnHidden(1, changes.empty());
    fields_->setRows(std::move(rows));
    fieldsTable_->fitToContent();
    calibration_ = calibrationOf(store, *entry);
    show_->setEnabled(calibration_.has_value());
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
  }
}

void JournalScreen::goToCalibration() {
  if (!calibration_) {
    return;
  }
  try {
    if (const auto found = session_.store().calibration(*calibration_)) {
      emit calibrationChosen(fromCore(found->channel), *calibration_);
    }
  } catch (const std::exception& error) {
    emit session_.troubled(asSentence(QString::fromUtf8(error.what())));
  }
}

}  // namespace spanwright
