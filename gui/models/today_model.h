// SPDX-License-Identifier: GPL-3.0-or-later
//
// What needs doing today: groups with their number, and under each the lines, every one with its place to go.
#pragma once

#include <QAbstractItemModel>
#include <QIcon>
#include <variant>
#include <vector>

#include "core/tasks/today.h"

namespace spanwright {

/// Where a line leads.
struct ToDraft {
  std::int64_t draft = 0;
};
struct ToCalibration {
  QString channel;
  CalibrationId calibration = 0;
};
struct ToChannel {
  QString channel;
};
struct ToDueList {
  DueState state = DueState::unproven;
};
struct ToSteps {};  ///< all channels by drift, what was found first
struct ToReview {};
struct ToRound {
  std::int64_t round = 0;
};
struct ToStandard {
  QString serial;  ///< empty: all of them
};
using TodayTarget = std::variant<std::monostate, ToDraft, ToRound, ToCalibration, ToChannel, ToDueList,
                                 ToSteps, ToReview, ToStandard>;

class TodayModel : public QAbstractItemModel {
  Q_OBJECT
 public:
  enum Columns { kWhat, kWhere, kWhen, kNote, kColumnCount };
  explicit TodayModel(QObject* parent = nullptr);

  /// What is still being worked out.
  struct Known {
    bool due = true, drift = true;
  };
  /// Nothing of `site` is kept.
  void setToday(const Today& today, const Register& site, Known known);
  /// Of a line, or of a group as a whole.
  TodayTarget target(const QModelIndex& index) const;

  QModelIndex index(int row, int column, const QModelIndex& parent = {}) const override;
  QModelIndex parent(const QModelIndex& index) const override;
  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  struct Line {
    QIcon icon;
    QString text[kColumnCount];
    TodayTarget target;
  };
  struct Group {
    QString name;
    QIcon icon;
    std::size_t count = 0;
    bool known = true;
    TodayTarget target;
    std::vector<Line> lines;
  };

  void addVisits(const Today& today, const Register& site);
  void addRounds(const Today& today);
  void addReviews(const Today& today, const Register& site);
  void addDue(const Today& today, const Register& site, bool known);
  void addSteps(const Today& today, bool known);
  void addStandards(const Today& today);
  /// Those of a group beyond the lines it has.
  static Line moreOf(std::size_t more, const QString& where, const TodayTarget& target);
  static Line lineOf(const CalibrationSummary& calibration, const Register& site);
  static QString groupText(const Group& group);

  std::vector<Group> groups_;
};

}  // namespace spanwright
