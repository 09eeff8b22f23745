// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the program was called with. Read before there is an application, because a picture needs the
// offscreen platform and that must be chosen first.
#pragma once

#include <QSize>
#include <QString>
#include <QStringList>
#include <optional>

#include "core/units/time.h"
#include "gui/settings/language.h"
#include "gui/settings/look.h"

namespace spanwright {

struct Arguments {
  QString record;
  bool sample = false;
  QString screen;
  QString channel;
  QString subject;
  QSize size{1280, 720};
  bool sizeGiven = false;
  // Nothing: what was chosen last.
  std::optional<Look> look;
  std::optional<int> textSize;  ///< percent
  std::optional<Language> language;
  QString picture;
  std::optional<Date> on;
  bool listScreens = false, help = false, version = false;
};

/// The screens' names, in the order `--screen list` prints them.
const QStringList& screenNames();
/// Fills `into`; one sentence when something is wrong with the arguments.
QString readArguments(const QStringList& given, Arguments& into);
QString helpText();

/// Always the same day at noon; for pictures that must not change from one day to the next.
class FixedClock : public Clock {
 public:
  explicit FixedClock(Date day) : now_(day, boost::posix_time::hours(12)) {}
  Moment localNow() const override { return now_; }
  Moment utcNow() const override { return now_; }

 private:
  Moment now_;
};

}  // namespace spanwright
