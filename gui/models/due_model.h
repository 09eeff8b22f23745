// SPDX-License-Identifier: GPL-3.0-or-later
//
// The due list as a table, and what narrows it.
#pragma once

#include <optional>
#include <string>

#include "core/tasks/status.h"
#include "gui/models/rows_model.h"
#include "gui/models/search_words.h"

namespace spanwright {

class DueModel : public RowsModel<DueItem> {
  Q_OBJECT
 public:
  enum Columns { kState, kChannel, kPlace, kSubject, kDueOn, kProvenOn, kInterval, kReason };
  /// What narrows it: every word somewhere in a row, one state, nothing due later than a day.
  struct Narrowed {
    QString words;
    std::optional<DueState> state;
    std::optional<Date> until;
  };
  explicit DueModel(QObject* parent = nullptr);
  /// `small`: smallText of each; made here when it is not given.
  void setDue(Rows due, SmallTexts small);
  void narrowTo(const Narrowed& by);
  /// What words are looked for in, apart from the words for state and subject.
  static std::string smallText(const DueItem& item);

 private:
  SmallTexts small_;
};

}  // namespace spanwright
