// SPDX-License-Identifier: GPL-3.0-or-later
//
// Words at the edge: core's codes and values as text for people, translated and in the person's locale.
// Nothing written here is ever read back by core except what a person types again.
#pragma once

#include <QCoreApplication>
#include <QString>
#include <optional>
#include <string>
#include <string_view>

#include "core/drift/segments.h"
#include "core/metrology/evaluate.h"
#include "core/record/calibration.h"
#include "core/record/life.h"
#include "core/record/problem.h"
#include "core/record/register.h"
#include "core/schedule/due.h"
#include "core/tasks/drift_item.h"

namespace spanwright {

/// Core's UTF-8 as Qt's text, and back.
QString fromCore(std::string_view text);
std::string toCore(const QString& text);

QString word(DueState state);         ///< "Unproven", "Overdue", "In grace", "Due soon", "Proven"
QString word(Verdict verdict);        ///< "pass", "fail", "not judged"
QString word(Subject subject);        ///< "Channel", "Sensor", "Loop"
QString wordInside(Subject subject);  ///< the same in the middle of a sentence: "channel"
QString word(Phase phase);            ///< "as found", "as left"
QString word(BreakCause cause);       ///< "adjustment", "new setup" ...
QString word(BandBasis basis);        ///< "own readings", "like subjects", "–" for none
QString word(Role role);
QString word(LifeState state);  ///< "recorded", "performed", "sent back" ...
QString word(LifeAct act);      ///< the same words
/// "25 % up", "on", "high-high trip"; the run is added when the plan repeats.
QString pointWord(const TestPoint& point, bool withRun = false);
/// A point followed over the years, by its pointKey and, for a point of value, its percent: "25 %", "on",
/// "high trip".
QString followedPointWord(std::string_view key, const std::optional<double>& percent);
/// "analog input" and so on.
QString kindWord(const ChannelSetup& setup);

/// A reading-like value with as many decimals as `step` needs (`extra` more of them); five significant digits
/// when the step is not known. "∞" for an open limit.
QString shownValue(double value, double step, int extra = 0);
/// "20", "0.25": as many digits as it takes.
QString shownShort(double value);
/// A reading-like value with its sign always written, for errors.
QString shownError(double value, double step);
QString shownUnit(Unit unit);  ///< "°C"; empty for none
/// "Expected [°C]", or the heading alone without a unit.
QString headed(const QString& heading, Unit unit);
/// As the language writes a day; empty for not-a-date.
QString shownDate(Date date);        ///< "20 Nov 2026", "20.11.2026"
QString shownMoment(Moment moment);  ///< "20 Nov 2026 09:30"
/// How a day and a day with its time are written where they are typed, for Qt's editors.
QString typedDateForm();
QString typedMomentForm();
QString shownDays(int days);
/// A rate or another figure to three significant digits, sign always written.
QString shownRate(double value);
/// The step of a prefilled value over a range of this width: fine enough to be applied as it stands ("4.000"
/// mA).
double nominalStep(double width);
/// Core's one-line description with the signs people read ("°C" for "degC").
QString shownDescription(const std::string& description);
/// "1 channel", "12 channels": `many` holds %1.
QString counted(int count, const QString& one, const QString& many);

/// One sentence of what is wrong and what to do.
QString problemSentence(const Problem& problem);
/// Every problem's sentence, one after another.
QString problemSentences(const InputError& refused);
/// Begins with a capital and ends with a full stop.
QString asSentence(const QString& clause);

}  // namespace spanwright
