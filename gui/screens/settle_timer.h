// SPDX-License-Identifier: GPL-3.0-or-later
//
// Counts down until the reading of one point has settled. Says so in words, and to a screen reader; keeps
// nobody from anything.
#pragma once

#include <QDeadlineTimer>
#include <QTimer>
#include <QWidget>
#include <chrono>

class QLabel;
class QProgressBar;
class QSpinBox;

namespace spanwright {

struct ChannelSetup;

class SettleTimer : public QWidget {
  Q_OBJECT
 public:
  explicit SettleTimer(QWidget* parent = nullptr);
  /// Another sheet: what was counted is over. The seconds are those of the setup's filter, else the number
  /// that was chosen last and kept.
  void takeSetup(const ChannelSetup* setup);
  /// Begins for this point; stops when it is counting for that very point.
  void toggle(const QString& point);
  void start(const QString& point, std::chrono::milliseconds howLong);
  void stop();
  bool isRunning() const { return ticks_.isActive(); }
  int seconds() const;
  /// "50 % up: 7 s", "50 % up: settled"; the key when nothing is counted.
  QString state() const;

 signals:
  void settled(const QString& point);

 private:
  void tick();
  void show(const QString& text);

  QString point_;
  QDeadlineTimer end_;
  QTimer ticks_;
  bool fromSetup_ = false;
  QLabel *sign_, *text_;
  QProgressBar* bar_;
  QSpinBox* seconds_;
};

}  // namespace spanwright
