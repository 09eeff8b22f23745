// SPDX-License-Identifier: GPL-3.0-or-later
//
// How the window does on a record of 100,000 channels and 2,000,000 calibrations (two readings each), each
// figure beside a plain yardstick of the same run. The record is made once and kept in the folder. Offscreen:
// everything is painted, nothing is shown.
//
//   bench_desktop FOLDER [--channels N] [--calibrations N] [--part open|search|scroll|chart] [--cold]
//   [--without-drift]
//
// --without-drift does not wait for the drift of the whole site, so the list of it is not looked at.
// --cold asks the system to forget the file first, so that opening reads the disk.
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <QApplication>
#include <QHeaderView>
#include <QLineEdit>
#include <QScrollBar>
#include <QSettings>
#include <QStandardPaths>
#include <QTableView>
#include <QTemporaryDir>
#include <QTest>
#include <QTreeView>
#include <algorithm>
#include <string>
#include <vector>

#include "core/store/sqlite_connection.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/fleet_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/site_screen.h"
#include "gui/screens/table_view.h"
#include "gui/screens/today_screen.h"
#include "gui/session/arguments.h"
#include "gui/session/session.h"
#include "gui/settings/look.h"
#include "tests/bench/desktop_figures.h"
#include "tests/bench/large_record.h"

namespace spanwright {
namespace {

/// How long the window's thread was at a stretch unable to answer.
class Heartbeat : public QObject {
 public:
  Heartbeat() { startTimer(5, Qt::PreciseTimer); }
  double longest = 0.0;

 protected:
  void timerEvent(QTimerEvent*) override {
    longest = std::max(longest, since_.ms());
    since_ = Stopwatch();
  }

 private:
  Stopwatch since_;
};

/// A table with nothing behind it, to compare with.
class PlainTable : public QAbstractTableModel {
 public:
  PlainTable(int rows, int columns) : rows_(rows), columns_(columns) {}
  int rowCount(const QModelIndex& parent) const override { return parent.isValid() ? 0 : rows_; }
  int columnCount(const QModelIndex& parent) const override { return parent.isValid() ? 0 : columns_; }
  QVariant data(const QModelIndex& index, int role) const override {
    return role == Qt::DisplayRole ? QVariant(QStringLiteral("cell %1").arg(index.row())) : QVariant();
  }
  void renew(int rows) {
    beginResetModel();
    rows_ = rows;
    endResetModel();
  }

 private:
  int rows_, columns_;
};

class Bench {
 public:
  Bench(std::filesystem::path file, bool cold, bool drift)
      : file_(std::move(file)), cold_(cold), drift_(drift), clock_(largeRecordDay()), session_(clock_) {}

  void open();
  void search();
  void scroll();

 private:
  void forgetFile() const;
  Figures registerByHand() const;
  Figures letters(QLineEdit* line, QWidget* list, const QString& text);
  Figures frames(QAbstractItemView* view);

  std::filesystem::path file_;
  bool cold_, drift_;
  FixedClock clock_;
  Session session_;
  std::unique_ptr<MainWindow> window_;
};

void Bench::forgetFile() const {
  const int handle = ::open(file_.c_str(), O_RDONLY | O_CLOEXEC);
  if (handle >= 0) {
    ::fsync(handle);
    ::posix_fadvise(handle, 0, 0, POSIX_FADV_DONTNEED);
    ::close(handle);
  }
}

/// The rows a window cannot do without, read by plain queries.
Figures Bench::registerByHand() const {
  const Stopwatch watch;
  Connection connection(file_, Connection::Access::readOnly);
  for (const char* const sql :
       {"SELECT id, tag, place, terminal, title, retired FROM channel ORDER BY id",
        "SELECT channel, version, in_force_from, kind, parameters FROM channel_setup ORDER BY channel, "
        "version",
        "SELECT channel, sensor, fitted_from, fitted_until FROM fitting ORDER BY channel, id",
        "SELECT channel, subject, plan, interval_policy FROM routine ORDER BY channel, id",
        "SELECT id, serial, maker, model, description, range FROM sensor ORDER BY id"}) {
    Query row = connection.query(sql);
    row.bind();
    std::size_t bytes = 0;
    while (row.step()) {
      bytes += row.text(1).size();
    }
  }
  Figures figures;
  figures.take(watch);
  return figures;
}

void Bench::open() {
  if (cold_) {
    forgetFile();
  }
  const Stopwatch watch;
  window_ = std::make_unique<MainWindow>(session_);
  window_->resize(1280, 720);
  window_->show();
  QApplication::setActiveWindow(window_.get());
  settle();
  const double shown = watch.ms();
  Heartbeat heart;
  double due = 0.0, drift = 0.0;
  QObject::connect(&session_, &Session::dueChanged, &heart, [&] {
    settle();
    due = watch.ms();
  });
  QObject::connect(&session_, &Session::driftChanged, &heart, [&] { drift = watch.ms(); });
  QObject::connect(&session_, &Session::troubled, &heart,
                   [](const QString& sentence) { fmt::print("{}\n", sentence.toStdString()); });
  const Stopwatch opening;
  session_.open(QString::fromStdString(file_.string()));
  while (!session_.isOpen()) {
    QApplication::processEvents(QEventLoop::WaitForMoreEvents);
  }
  auto* tree = window_->todayScreen()->findChild<QTreeView*>();
  PaintCounter today(tree->viewport());
  settle();
  tree->viewport()->repaint();
  const double painted = opening.ms();
  today.count = 0;
  QTest::keyClick(tree, Qt::Key_Down);
  untilPainted(today);
  const double answered = opening.ms();
  while (due == 0.0) {
    QApplication::processEvents(QEventLoop::WaitForMoreEvents);
  }
  const double stuck = heart.longest;
  const Figures plain = registerByHand();
  fmt::print(
      "{:<44} {:.0f} ms for the empty window, then from the file: painted {:.0f} ms, a key answered {:.0f} "
      "ms "
      "(limit 1000)   the register's rows by plain queries {:.0f} ms, ratio {:.1f}\n",
      cold_ ? "opening, file not in memory" : "opening", shown, painted, answered, plain.median(),
      answered / plain.median());
  std::fflush(stdout);
  fmt::print("{:<44} {:.1f} s; longest the window did not answer until then {:.0f} ms\n",
             "today's page filled in", due / 1e3, stuck);
  std::fflush(stdout);
  if (!drift_) {
    session_.worker().cancel(Worker::Lane::site);
    return;
  }
  heart.longest = 0.0;
  while (!session_.worker().idle(Worker::Lane::file)) {
    QApplication::processEvents(QEventLoop::WaitForMoreEvents);
  }
  fmt::print("{:<44} {:.1f} s; longest the window did not answer {:.0f} ms\n", "the whole file checked",
             watch.ms() / 1e3, heart.longest);
  std::fflush(stdout);
  heart.longest = 0.0;
  while (!session_.worker().idle()) {
    QApplication::processEvents(QEventLoop::WaitForMoreEvents);
  }
  fmt::print("{:<44} {:.1f} s; longest the window did not answer {:.0f} ms\n",
             "drift of the whole site known", drift / 1e3, heart.longest);
  std::fflush(stdout);
}

Figures Bench::letters(QLineEdit* line, QWidget* list, const QString& text) {
  Figures figures;
  line->clear();
  line->setFocus();
  settle();
  PaintCounter painted(list);
  for (const QChar letter : text) {
    painted.count = 0;
    const Stopwatch watch;
    QTest::sendKeyEvent(QTest::Click, line, static_cast<Qt::Key>(letter.toUpper().unicode()), letter,
                        Qt::NoModifier, 0);
    untilPainted(painted);
    figures.take(watch);
  }
  line->clear();
  settle();
  return figures;
}

void Bench::search() {
  PlainTable model(200, 6);
  QTableView bare;
  bare.setModel(&model);
  bare.resize(600, 600);
  bare.show();
  settle();
  Figures plain;
  for (int i = 0; i < 30; ++i) {
    const Stopwatch watch;
    model.renew(200 - i % 2);
    bare.viewport()->repaint();
    plain.take(watch);
  }
  const std::string yardstick = "bare QTableView set anew";
  window_->showSite();
  settle();
  auto* found = window_->siteScreen()->findChild<QLineEdit*>();
  QWidget* list = nullptr;
  for (auto* each : window_->siteScreen()->findChildren<TableView*>()) {
    if (each->accessibleName() == QLatin1String("Channels found")) {
      list = each->viewport();
    }
  }
  Figures all;
  for (const char* const text :
       {"TT-012345", "TX00123", "eeee", "cabinet 12-03", "kühlsole 17", "zzzz", "pump out 5"}) {
    const Figures one = letters(found, list, QString::fromUtf8(text));
    print(fmt::format("a letter of \"{}\" on Site", text), one, 50, yardstick, plain);
    all.ms.insert(all.ms.end(), one.ms.begin(), one.ms.end());
    all.cpu.insert(all.cpu.end(), one.cpu.begin(), one.cpu.end());
  }
  print("a letter on Site, all of these", all, 50, yardstick, plain);
  window_->showDue();
  settle();
  print(
      "a letter of \"half-yearly 2025\" in the due list",
      letters(window_->dueScreen()->findChild<QLineEdit*>(),
              window_->dueScreen()->findChild<TableView*>()->viewport(), QStringLiteral("half-yearly 2025")),
      50, yardstick, plain);
  if (session_.driftKnown()) {
    window_->showDrift();
    settle();
    print("a letter of \"area 03 tt\" in the drift list",
          letters(window_->fleetScreen()->findChild<QLineEdit*>(),
                  window_->fleetScreen()->table()->viewport(), QStringLiteral("area 03 tt")),
          50, yardstick, plain);
  }
}

Figures Bench::frames(QAbstractItemView* view) {
  Figures figures;
  QScrollBar* bar = view->verticalScrollBar();
  bar->setValue(0);
  settle();
  PaintCounter painted(view->viewport());
  const int step = std::max(1, bar->maximum() / 300);
  for (int i = 0; i < 300; ++i) {
    painted.count = 0;
    const Stopwatch watch;
    bar->setValue(i % 3 == 2 ? bar->value() + step : bar->value() + 3);  // a wheel's notch, and far leaps
    if (bar->value() < bar->maximum() && untilPainted(painted)) {
      figures.take(watch);
    }
  }
  return figures;
}

void Bench::scroll() {
  const auto yardstick = [](QAbstractItemView* of) {
    PlainTable model(of->model()->rowCount({}), of->model()->columnCount({}));
    QTableView bare;
    bare.setModel(&model);
    bare.verticalHeader()->hide();
    bare.verticalHeader()->setDefaultSectionSize(28);
    bare.resize(of->size());
    bare.show();
    settle();
    Figures figures;
    for (int i = 0; i < 100; ++i) {
      const Stopwatch watch;
      bare.verticalScrollBar()->setValue(i * 7);
      bare.viewport()->repaint();
      figures.take(watch);
    }
    return figures;
  };
  const std::string plain = "bare QTableView";
  window_->showSite();
  auto* tree = window_->siteScreen()->findChild<QTreeView*>();
  const Stopwatch opening;
  tree->expandAll();
  settle();
  fmt::print("{:<44} {:.0f} ms\n", "all places of the tree opened", opening.ms());
  print("a frame of the tree of places and channels", frames(tree), 16, plain,
        yardstick(window_->siteScreen()->findChild<TableView*>()));
  window_->showDue();
  settle();
  auto* due = window_->dueScreen()->findChild<TableView*>();
  print(fmt::format("a frame of the due list ({} rows)", due->model()->rowCount()), frames(due), 16, plain,
        yardstick(due));
  if (session_.driftKnown()) {
    window_->showDrift();
    settle();
    auto* fleet = window_->fleetScreen()->table();
    print(fmt::format("a frame of the drift list ({} rows)", fleet->model()->rowCount()), frames(fleet), 16,
          plain, yardstick(fleet));
  }
}

int usage() {
  std::fputs(
      "bench_desktop FOLDER [--channels N] [--calibrations N] [--part open|search|scroll|chart] [--cold] "
      "[--without-drift]\n",
      stderr);
  return 2;
}

int benchMain(const QStringList& words) {
  LargeRecord size;
  QString folder, part;
  bool cold = false, drift = true;
  for (qsizetype i = 1; i < words.size(); ++i) {
    const bool more = i + 1 < words.size();
    if (words[i] == QLatin1String("--channels") && more) {
      size.channels = words[++i].toInt();
    } else if (words[i] == QLatin1String("--calibrations") && more) {
      size.calibrations = words[++i].toLongLong();
    } else if (words[i] == QLatin1String("--part") && more) {
      part = words[++i];
    } else if (words[i] == QLatin1String("--cold")) {
      cold = true;
    } else if (words[i] == QLatin1String("--without-drift")) {
      drift = false;
    } else if (folder.isEmpty() && !words[i].startsWith(u'-')) {
      folder = words[i];
    } else {
      return usage();
    }
  }
  if (folder.isEmpty() || size.channels <= 0 || size.calibrations <= 0) {
    return usage();
  }
  const auto wanted = [&part](const char* name) { return part.isEmpty() || part == QLatin1String(name); };
  if (wanted("chart")) {
    measureCharts();
  }
  if (wanted("open") || wanted("search") || wanted("scroll")) {
    Bench bench(largeRecordIn(folder.toStdString(), size), cold, drift);
    bench.open();
    if (wanted("search")) {
      bench.search();
    }
    if (wanted("scroll")) {
      bench.scroll();
    }
  }
  return 0;
}

}  // namespace
}  // namespace spanwright

int main(int count, char** words) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QTemporaryDir settings;  // neither a person's settings nor theirs changed
  QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, settings.path());
  QSettings::setDefaultFormat(QSettings::IniFormat);
  QApplication application(count, words);
  QCoreApplication::setOrganizationName(QStringLiteral("spanwright"));
  QCoreApplication::setApplicationName(QStringLiteral("bench"));
  spanwright::applyLook(application, spanwright::Look::light);
  try {
    return spanwright::benchMain(QCoreApplication::arguments());
  } catch (const std::exception& trouble) {
    fmt::print(stderr, "{}\n", trouble.what());
    return 1;
  }
}
