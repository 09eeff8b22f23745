// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a visit needs beside its readings: what is calibrated, by whom, with which standards, in which
// conditions, and the cautions to be confirmed before the first value.
#pragma once

#include <QWidget>

#include "core/units/time.h"
#include "gui/models/visit_entry.h"

class QCheckBox;
class QComboBox;
class QDateTimeEdit;
class QLabel;
class QLineEdit;
class QListWidget;

namespace spanwright {

class Session;

/// What a problem may be about, beside the readings.
enum class VisitPart { channel, when, person, standards, conditions, junction, cautions };

class VisitHeader : public QWidget {
  Q_OBJECT
 public:
  VisitHeader(Session& session, VisitEntry& entry, QWidget* parent = nullptr);
  /// Fills the lists of channels and persons.
  void fillLists();
  /// Shows the entry's sheet.
  void takeSheet(Moment when);
  /// Shows this choice while there is no sheet for it.
  void showChoice(const QString& channel, Subject subject, Moment when);
  QCheckBox* cautions() const { return confirm_; }
  void goTo(VisitPart part);

 signals:
  /// Another channel, subject or moment is wanted.
  void sheetAsked(const QString& channel, spanwright::Subject subject, spanwright::Moment when);
  /// What was typed for a channel is none, or several.
  void unclear(const QString& sentence);
  void cautionsConfirmed();
  /// Somebody tried to take the confirmation back after values were typed.
  void cautionsKept();

 private:
  QWidget* makeWho();
  QWidget* makeUnderTest();
  QWidget* makeMeans();
  QWidget* makeCautions();
  void ask();
  void takeTypedChannel();
  void fillStandards();
  void fillSubjects(const Channel* channel);
  void takeConditions();
  std::optional<double> junction() const;
  void confirm(bool confirmed);
  Moment when() const;

  // The record's register is asked for each time: it may have been read again.
  VisitEntry& entry_;
  Session& session_;
  bool filling_ = false;
  QComboBox *channel_ = nullptr, *subject_ = nullptr, *person_ = nullptr;
  QDateTimeEdit* when_ = nullptr;
  QLabel *setup_ = nullptr, *sensor_ = nullptr, *plan_ = nullptr, *tolerance_ = nullptr,
         *procedure_ = nullptr;
  QListWidget* standards_ = nullptr;
  QLabel* noStandards_ = nullptr;
  QLineEdit *temperature_ = nullptr, *humidity_ = nullptr, *note_ = nullptr, *junction_ = nullptr;
  QWidget* junctionRow_ = nullptr;  ///< shown only where mV of a couple can be typed
  QLabel* cautionText_ = nullptr;
  QCheckBox* confirm_ = nullptr;
};

}  // namespace spanwright
