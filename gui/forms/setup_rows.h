// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows of a channel's setup in a form: all kinds, those shown that the chosen kind has, and below them
// what it means.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "gui/forms/form_dialog.h"

namespace spanwright {

class SetupForm : public FormDialog {
  Q_OBJECT
 protected:
  using FormDialog::FormDialog;
  /// Rows for the fields of a setup below `prefix`; `from` is proposed as its moment.
  void addSetup(const std::string& prefix, Moment from);
  /// Shows what the kind chosen has.
  void showKind();
  /// Fills in what is usual for a kind that is chosen anew.
  void propose();

 private:
  void addSignals();
  void addTemperatures();
  void addDiscretes();
  void row(const std::string& field, std::set<std::string> kinds);
  std::string at(const std::string& field) const { return prefix_ + field; }
  void showMeaning();

  std::string prefix_;
  std::vector<std::pair<std::string, std::set<std::string>>> rowsOf_;
  QComboBox* kind_ = nullptr;
  QLabel* meaning_ = nullptr;
};

}  // namespace spanwright
