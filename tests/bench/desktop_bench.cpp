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
#include <QChart>
#include <QChartView>
#include <QElapsedTimer>
#include <QHeaderView>
#include <QLineEdit>
#include <QLineSeries>
#include <QPainter>
#include <QScatterSeries>
#include <QScrollBar>
#include <QSettings>
#include <QStandardPaths>
#include <QTableView>
#include <QTemporaryDir>
#include <QTest>
#include <QTreeView>
#include <QValueAxis>
#include <algorithm>
#include <cmath>
#include <ctime>
#include <functional>
#include <string>
#include <vector>

#include "core/store/sqlite_connection.h"
#include "gui/charts/drift_chart.h"
#include "gui/charts/plot_view.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/fleet_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/site_screen.h"
#include "gui/screens/table_view.h"
#include "gui/screens/today_screen.h"
#include "gui/session/arguments.h"
#include "gui/session/session.h"
#include "gui/settings/look.h"
#include "tests/bench/large_record.h"

namespace spanwright {
namespace {

class Stopwatch {
 public:
  Stopwatch() : cpuAtStart_(cpuNow()) { timer_.start(); }
  double ms() const { return static_cast<double>(timer_.nsecsElapsed()) / 1e6; }
  /// What this thread worked in that time; the rest it waited, on a busy machine for its turn.
  double cpu() const { return cpuNow() - cpuAtStart_; }

 private:
  static double cpuNow() {
    timespec now{};
    ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
  }
  double cpuAtStart_;
  QElapsedTimer timer_;
};

/// Lets everything happen that is waiting to: layouts, then painting.
void settle() {
  QApplication::processEvents();
  QApplication::sendPostedEvents();
  QApplication::processEvents();
}

struct Figures {
  std::vector<double> ms, cpu;
  void take(const Stopwatch& watch) {
    ms.push_back(watch.ms());
    cpu.push_back(watch.cpu());
  }
  double median() const { return at(ms, 0.5); }
  double high() const { return at(ms, 0.95); }
  double worst() const { return at(ms, 1.0); }
  double medianCpu() const { return at(cpu, 0.5); }

 private:
  static double at(std::vector<double> sorted, double share) {
    std::sort(sorted.begin(), sorted.end());
    return sorted.empty() ? 0.0
                          : sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))];
  }
};

void print(const std::string& what, const Figures& ours, double limit, const std::string& yardstick,
           const Figures& plain) {
  fmt::print(
      "{:<46} median {:6.1f} ms (its own work {:6.1f}), 95 % {:6.1f}, worst {:6.1f}; limit {:.0f}   {} "
      "{:.1f} "
      "ms (work {:.1f}), ratio {:.2f}\n",
      what, ours.median(), ours.medianCpu(), ours.high(), ours.worst(), limit, yardstick, plain.median(),
      plain.medianCpu(), ours.median() / plain.median());
  std::fflush(stdout);
}

/// Counts what a widget paints.
class PaintCounter : public QObject {
 public:
  explicit PaintCounter(QWidget* of) { of->installEventFilter(this); }
  int count = 0;

 protected:
  bool eventFilter(QObject*, QEvent* event) override {
    count += event->type() == QEvent::Paint ? 1 : 0;
    return false;
  }
};

/// False when nothing was painted for a second.
bool untilPainted(const PaintCounter& counter) {
  const Stopwatch watch;
  while (counter.count == 0 && watch.ms() < 1000.0) {
    QApplication::processEvents();
  }
  return counter.count > 0;
}

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

/// Ten thousand readings over ten years in three segments.
DriftItem longHistory() {
  constexpr int kReadings = 10'000;
  DriftItem item;
  item.channel = "TT-000001";
  item.point = "50";
  item.pointPercent = 50.0;
  item.unit = Unit::celsius;
  item.limits = {-0.5, 0.5};
  item.origin = Moment(*parseDate("2016-11-25"));
  for (int i = 0; i < kReadings; ++i) {
    if (i % (kReadings / 3 + 1) == 0) {
      Segment segment;
      segment.cause = i == 0 ? BreakCause::start : BreakCause::adjustment;
      segment.startTime = 10.0 * i / kReadings;
      item.segments.push_back(segment);
    }
    item.segments.back().readings.push_back({10.0 * i / kReadings,
                                             0.3 * std::sin(i * 0.37) + 0.1 * std::sin(i * 0.001),
                                             item.segments.back().readings.empty() && i > 0});
  }
  item.fitted = {item.segments.back()};
  item.fit = fitDrift(item.fitted);
  return item;
}

Figures painterFrames(const DriftItem& item, QSize size) {
  QImage image(size, QImage::Format_RGB32);
  Figures figures;
  for (int frame = 0; frame < 15; ++frame) {
    const Stopwatch watch;
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    QPolygonF line;
    for (const Segment& segment : item.segments) {
      for (const DriftReading& reading : segment.readings) {
        line << QPointF(reading.time * size.width() / 10.0 + frame,
                        size.height() * (0.5 - 0.9 * reading.error));
      }
    }
    painter.setPen(QPen(Qt::blue, 1.0));
    painter.drawPolyline(line);
    painter.setBrush(Qt::blue);
    for (const QPointF& point : line) {
      painter.drawEllipse(point, 4.0, 4.0);
    }
    figures.take(watch);
  }
  return figures;
}

Figures chartFrames(const DriftItem& item, QSize size) {
  auto* line = new QLineSeries;
  auto* marks = new QScatterSeries;
  QList<QPointF> points;
  for (const Segment& segment : item.segments) {
    for (const DriftReading& reading : segment.readings) {
      points << QPointF(reading.time, reading.error);
    }
  }
  line->replace(points);
  marks->replace(points);
  auto* chart = new QChart;
  chart->addSeries(line);
  chart->addSeries(marks);
  chart->createDefaultAxes();
  QChartView view(chart);
  view.setRenderHint(QPainter::Antialiasing);
  view.resize(size);
  view.show();
  settle();
  Figures figures;
  for (int frame = 0; frame < 5; ++frame) {
    const Stopwatch watch;
    chart->axes(Qt::Horizontal).constFirst()->setRange(0.01 * frame, 10.0 + 0.01 * frame);
    QApplication::processEvents();
    view.viewport()->repaint();
    figures.take(watch);
  }
  return figures;
}

void charts() {
  const DriftItem item = longHistory();
  PlotView plot;
  plot.resize(900, 520);
  plot.show();
  const Stopwatch making;
  DriftChart made = makeDriftChart(item, largeRecordDay(), chartLook());
  plot.showChart(made.chart, std::move(made.notes), made.spoken);
  settle();
  plot.viewport()->repaint();
  fmt::print("{:<44} {:.0f} ms\n", "chart of 10,000 readings made and painted", making.ms());
  const Figures bare = chartFrames(item, plot.size());
  const Figures painter = painterFrames(item, plot.size());
  PaintCounter painted(plot.viewport());
  const auto note = [&](Figures& into, const std::function<void()>& act) {
    painted.count = 0;
    const Stopwatch watch;
    act();
    if (untilPainted(painted)) {  // at the ends nothing moves
      into.take(watch);
    }
  };
  const auto wheel = [&](int notches) {
    QWheelEvent event(QPointF(450, 260), plot.viewport()->mapToGlobal(QPointF(450, 260)), {},
                      {0, 120 * notches}, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
    QApplication::sendEvent(plot.viewport(), &event);
  };
  Figures zoomed, panned, keyed;
  const auto drag = [&](Figures& into, int frames) {
    // There and back, so that it does not run into an end.
    QTest::mousePress(plot.viewport(), Qt::LeftButton, {}, {600, 260});
    for (int i = 0; i < frames; ++i) {
      note(into, [&] {
        const QPoint to(600 - (i < frames / 2 ? 6 * i : 6 * (frames - i)), 260);
        QMouseEvent move(QEvent::MouseMove, to, plot.viewport()->mapToGlobal(to), Qt::NoButton,
                         Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(plot.viewport(), &move);
      });
    }
    QTest::mouseRelease(plot.viewport(), Qt::LeftButton, {}, {600, 260});
  };
  note(zoomed, [&] { wheel(1); });
  drag(panned, 40);
  print("a frame panned, nearly all 10,000 in view", panned, 33, "bare QChart", bare);
  print("the same beside a painter drawing all of them", panned, 33, "QPainter", painter);
  Figures close;
  for (int i = 0; i < 8; ++i) {
    note(zoomed, [&] { wheel(1); });
  }
  drag(close, 40);
  print("a frame panned, zoomed in", close, 33, "bare QChart", bare);
  plot.setFocus();
  for (int i = 0; i < 10; ++i) {
    note(keyed, [&] { QTest::keyClick(&plot, i % 2 == 0 ? Qt::Key_Left : Qt::Key_Right); });
  }
  for (int i = 0; i < 8; ++i) {
    note(zoomed, [&] { wheel(-1); });
  }
  print("a frame panned by keys", keyed, 33, "bare QChart", bare);
  print("a frame zoomed", zoomed, 33, "bare QChart", bare);
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
    charts();
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
  spanwright::applyLook(application, false);
  try {
    return spanwright::benchMain(QCoreApplication::arguments());
  } catch (const std::exception& trouble) {
    fmt::print(stderr, "{}\n", trouble.what());
    return 1;
  }
}
