// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/words.h"

#include <QLocale>
#include <QRegularExpression>
#include <algorithm>
#include <array>
#include <cmath>

#include "core/units/number.h"
#include "gui/words/days.h"
#include "gui/words/tr.h"

namespace spanwright {
namespace {

QLocale plainLocale() {
  QLocale locale;
  locale.setNumberOptions(QLocale::OmitGroupSeparator);  // what is shown may be typed again
  return locale;
}

int decimalsOf(double value, double step, int extra) {
  if (step > 0.0) {
    return std::min(decimalsFor(step) + extra, 9);
  }
  const double size = std::abs(value);
  if (size == 0.0) {
    return 3;
  }
  return std::clamp(4 - static_cast<int>(std::floor(std::log10(size))), 0, 9);
}

QString levelWord(AlarmLevel level) {
  switch (level) {
    case AlarmLevel::lowLow:
      return tr("low-low");
    case AlarmLevel::low:
      return tr("low");
    case AlarmLevel::high:
      return tr("high");
    case AlarmLevel::highHigh:
      return tr("high-high");
  }
  return {};
}

QString valueWord(const TestPoint& point) {
  const QString percent = plainLocale().toString(point.percent, 'g', 6);
  switch (point.direction) {
    case Direction::up:
      return tr("%1 % up").arg(percent);
    case Direction::down:
      return tr("%1 % down").arg(percent);
    case Direction::none:
      break;
  }
  return tr("%1 %").arg(percent);
}

QString roleWord(const TestPoint& point) {
  switch (point.role) {
    case PointRole::value:
      return valueWord(point);
    case PointRole::switchOn:
      return tr("turns on");
    case PointRole::switchOff:
      return tr("turns off");
    case PointRole::alarmTrip:
      return tr("%1 alarm trips").arg(levelWord(point.alarm.value_or(AlarmLevel::high)));
    case PointRole::alarmReset:
      return tr("%1 alarm resets").arg(levelWord(point.alarm.value_or(AlarmLevel::high)));
    case PointRole::stateOn:
      return tr("commanded on");
    case PointRole::stateOff:
      return tr("commanded off");
    case PointRole::lossOfSignal:
      return tr("loss of communication");
  }
  return {};
}

}  // namespace

QString fromCore(std::string_view text) {
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}
std::string toCore(const QString& text) {
  return text.toStdString();
}

QString word(DueState state) {
  switch (state) {
    case DueState::unproven:
      return tr("Unproven");
    case DueState::overdue:
      return tr("Overdue");
    case DueState::inGrace:
      return tr("In grace");
    case DueState::dueSoon:
      return tr("Due soon");
    case DueState::ok:
      return tr("Proven");
  }
  return {};
}

QString word(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass:
      return tr("pass");
    case Verdict::fail:
      return tr("fail");
    case Verdict::notJudged:
      return tr("not judged");
  }
  return {};
}

QString word(Subject subject) {
  switch (subject) {
    case Subject::channel:
      return tr("Channel");
    case Subject::sensor:
      return tr("Sensor");
    case Subject::loop:
      return tr("Loop");
  }
  return {};
}

QString wordInside(Subject subject) {
  switch (subject) {
    case Subject::channel:
      return tr("channel");
    case Subject::sensor:
      return tr("sensor");
    case Subject::loop:
      return tr("loop");
  }
  return {};
}

QString word(Phase phase) {
  return phase == Phase::asFound ? tr("as found") : tr("as left");
}

QString word(BreakCause cause) {
  switch (cause) {
    case BreakCause::start:
      return tr("first calibration");
    case BreakCause::adjustment:
      return tr("adjustment");
    case BreakCause::repair:
      return tr("repair");
    case BreakCause::newSetup:
      return tr("new setup");
    case BreakCause::otherSensor:
      return tr("another sensor");
    case BreakCause::otherPoints:
      return tr("other test points");
  }
  return {};
}

QString word(BandBasis basis) {
  switch (basis) {
    case BandBasis::none:
      return QStringLiteral("–");
    case BandBasis::own:
      return tr("own readings");
    case BandBasis::likeSubjects:
      return tr("like subjects");
  }
  return {};
}

QString word(Role role) {
  switch (role) {
    case Role::technician:
      return tr("technician");
    case Role::planner:
      return tr("planner");
    case Role::reviewer:
      return tr("reviewer");
    case Role::administrator:
      return tr("administrator");
  }
  return {};
}

QString word(LifeState state) {
  switch (state) {
    case LifeState::recorded:
      return tr("recorded");
    case LifeState::performed:
      return tr("performed");
    case LifeState::reviewed:
      return tr("reviewed");
    case LifeState::approved:
      return tr("approved");
    case LifeState::sentBack:
      return tr("sent back");
    case LifeState::withdrawn:
      return tr("withdrawn");
    case LifeState::superseded:
      return tr("superseded");
  }
  return {};
}

QString word(LifeAct act) {
  return word(stateAfter(act));
}

QString pointWord(const TestPoint& point, bool withRun) {
  const QString plain = roleWord(point);
  return withRun ? tr("%1, run %2").arg(plain).arg(point.run) : plain;
}

QString kindWord(const ChannelSetup& setup) {
  static constexpr std::array kWords{QT_TRANSLATE_NOOP("spanwright", "threshold input"),
                                     QT_TRANSLATE_NOOP("spanwright", "analog input"),
                                     QT_TRANSLATE_NOOP("spanwright", "thermocouple input"),
                                     QT_TRANSLATE_NOOP("spanwright", "RTD input"),
                                     QT_TRANSLATE_NOOP("spanwright", "analog output"),
                                     QT_TRANSLATE_NOOP("spanwright", "discrete output")};
  return tr(kWords.at(setup.kind.index()));
}

QString followedPointWord(std::string_view key, const std::optional<double>& percent) {
  if (percent) {
    return tr("%1 %").arg(plainLocale().toString(*percent, 'g', 6));
  }
  for (const AlarmLevel level :
       {AlarmLevel::lowLow, AlarmLevel::low, AlarmLevel::high, AlarmLevel::highHigh}) {
    const std::string name(text(level));
    if (key == name + " trip") {
      return tr("%1 trip").arg(levelWord(level));
    }
    if (key == name + " reset") {
      return tr("%1 reset").arg(levelWord(level));
    }
  }
  return key == "on" ? tr("on") : key == "off" ? tr("off") : tr("loss of communication");
}

QString shownValue(double value, double step, int extra) {
  if (std::isinf(value)) {
    return value > 0.0 ? QStringLiteral("∞") : QStringLiteral("−∞");
  }
  if (std::isnan(value)) {
    return tr("not known");
  }
  const QString text = plainLocale().toString(value, 'f', decimalsOf(value, step, extra));
  // A value that rounds to nothing has no sign.
  const bool zero = std::none_of(text.begin(), text.end(), [](QChar c) { return c.isDigit() && c != u'0'; });
  return zero && text.startsWith(plainLocale().negativeSign()) ? text.mid(plainLocale().negativeSign().size())
                                                               : text;
}

QString shownShort(double value) {
  return plainLocale().toString(value, 'g', QLocale::FloatingPointShortest);
}

QString shownError(double value, double step) {
  const QString text = shownValue(value, step, step > 0.0 ? 1 : 0);
  const bool zero = std::none_of(text.begin(), text.end(), [](QChar c) { return c.isDigit() && c != u'0'; });
  return value > 0.0 && !zero ? u'+' + text : text;
}

QString shownUnit(Unit unit) {
  return unit == Unit::none ? QString() : fromCore(displaySymbol(unit));
}

QString headed(const QString& heading, Unit unit) {
  const QString symbolText = shownUnit(unit);
  return symbolText.isEmpty() ? heading : QStringLiteral("%1 [%2]").arg(heading, symbolText);
}

QString shownDate(Date date) {
  return date.is_special() ? QString()
                           : QLocale().toString(toQt(date), tr("d MMM yyyy", "a day that is read"));
}

QString shownMoment(Moment moment) {
  if (moment.is_special()) {
    return {};
  }
  return QStringLiteral("%1 %2").arg(shownDate(moment.date()),
                                     QLocale().toString(toQt(moment).time(), QStringLiteral("HH:mm")));
}

QString typedDateForm() {
  return tr("yyyy-MM-dd", "a day that is typed");
}

QString typedMomentForm() {
  return tr("yyyy-MM-dd HH:mm", "a moment that is typed");
}

QString shownDays(int days) {
  return counted(days, tr("1 day"), tr("%1 days"));
}

QString shownRate(double value) {
  const double size = std::abs(value);
  if (size == 0.0 || !std::isfinite(size)) {
    return shownValue(value, 1.0);
  }
  const int decimals = std::clamp(2 - static_cast<int>(std::floor(std::log10(size))), 0, 9);
  return (value > 0.0 ? QStringLiteral("+") : QString()) + plainLocale().toString(value, 'f', decimals);
}

double nominalStep(double width) {
  constexpr double kParts = 5000.0;
  return width == 0.0 ? 0.0 : std::pow(10.0, std::floor(std::log10(std::abs(width) / kParts)));
}

QString shownDescription(const std::string& description) {
  QString text = fromCore(description);
  for (const Unit unit : allUnits()) {
    const QString plain = fromCore(symbol(unit));
    const QString shown = fromCore(displaySymbol(unit));
    if (!plain.isEmpty() && plain != shown) {
      text.replace(
          QRegularExpression(
              QStringLiteral("(?<![A-Za-z])%1(?![A-Za-z0-9])").arg(QRegularExpression::escape(plain))),
          shown);
    }
  }
  return text;
}

QString counted(int count, const QString& one, const QString& many) {
  return count == 1 ? one : many.arg(count);
}

QString asSentence(const QString& clause) {
  QString text = clause.trimmed();
  if (text.isEmpty()) {
    return text;
  }
  text[0] = text[0].toUpper();
  if (!text.endsWith(u'.') && !text.endsWith(u'?') && !text.endsWith(u'!')) {
    text += u'.';
  }
  return text;
}

QString problemSentence(const Problem& problem) {
  QString text = fromCore(problem.what);
  if (!problem.todo.empty()) {
    text += QStringLiteral("; ") + fromCore(problem.todo);
  }
  return asSentence(text);
}

QString problemSentences(const InputError& refused) {
  QStringList all;
  for (const Problem& problem : refused.problems()) {
    all << problemSentence(problem);
  }
  return all.join(u' ');
}

}  // namespace spanwright
