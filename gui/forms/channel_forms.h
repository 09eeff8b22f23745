// SPDX-License-Identifier: GPL-3.0-or-later
//
// What happens to a channel that is there: its next setup, and another sensor.
#pragma once

#include "gui/forms/setup_rows.h"

class QTimer;

namespace spanwright {

class Session;

/// A channel's next setup, with what it costs shown before it is put in force.
class NewSetupForm : public SetupForm {
  Q_OBJECT
 public:
  NewSetupForm(Session& session, const QString& channel, QWidget* parent = nullptr);
  /// What is shown of it.
  QString effect() const;

 private:
  void showEffect();

  Session& session_;
  QString channel_;
  QTimer* soon_;
  QLabel* effect_;
};

/// Another sensor on a channel; the one before comes off.
class FittingForm : public FormDialog {
  Q_OBJECT
 public:
  FittingForm(Session& session, const QString& channel, QWidget* parent = nullptr);
};

}  // namespace spanwright
