// SPDX-License-Identifier: GPL-3.0-or-later
//
// The main page: places and channels with their state, beside what needs doing.
#pragma once

#include <QWidget>
#include <map>
#include <memory>
#include <optional>

#include "core/schedule/due.h"
#include "core/store/store.h"
#include "core/tasks/status.h"
#include "gui/models/rows_model.h"

class QLabel;
class QLineEdit;
class QMenu;
class QPushButton;
class QSplitter;
class QStackedWidget;
class QToolButton;
class QTreeView;
class QVBoxLayout;

namespace spanwright {

class DueModel;
class FoundModel;
class Session;
class SiteTreeModel;
class TableView;

/// Channels whose drift leaves the tolerance, soonest first.
struct ForecastRow : DriftItem {
  bool already = false;  ///< outside today
};
class ForecastModel : public RowsModel<ForecastRow> {
  Q_OBJECT
 public:
  explicit ForecastModel(QObject* parent = nullptr);
  /// As firstToLeave has them.
  void setLeaving(const std::vector<DriftItem>& leaving, Date today);
};

class SiteScreen : public QWidget {
  Q_OBJECT
 public:
  explicit SiteScreen(Session& session, QWidget* parent = nullptr);
  void refresh();
  void findChannel();
  /// What can be done to what is chosen, offered beside the list and where it is pointed at.
  void setEditMenu(QMenu* menu);
  /// The place chosen, or that of the channel chosen, by its full name; empty when none is.
  QString currentPlace() const;
  /// Whether a place itself is chosen rather than a channel.
  bool placeChosen() const;
  /// The channel chosen, or the only one that was found; else empty.
  QString currentChannel() const;

 signals:
  void channelChosen(const QString& tag);
  void stateChosen(std::optional<spanwright::DueState> state);
  void draftChosen(std::int64_t draft);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  /// Shows what matches what was typed; the tree when nothing is typed.
  void look();
  bool looking() const;
  void takeFound();
  void goIntoList();
  QString chosenChannel() const;
  void choose(const QString& tag);
  QWidget* makeTree();
  void takeRegister();
  QWidget* makeFound();
  QWidget* makeOverview();
  void takeDue();
  void takeDrift();
  void takeDrafts();

  Session& session_;
  SiteTreeModel* model_;
  FoundModel* found_;
  QStackedWidget* left_ = nullptr;
  QTreeView* tree_ = nullptr;
  TableView* foundTable_ = nullptr;
  QLabel* foundCount_ = nullptr;
  QLineEdit* words_ = nullptr;
  QPushButton* edit_ = nullptr;
  QLabel* heading_ = nullptr;
  std::map<DueState, QToolButton*> tiles_;
  DueModel* pressing_;
  TableView* pressingTable_ = nullptr;
  ForecastModel* forecast_;
  TableView* forecastTable_ = nullptr;
  QLabel* forecastNote_ = nullptr;
  QWidget* drafts_ = nullptr;
  QVBoxLayout* draftRows_ = nullptr;
  QSplitter* split_ = nullptr;
  std::optional<std::int64_t> shownRegister_;  ///< its revision
  std::shared_ptr<const std::vector<DueItem>> shownDue_;
};

}  // namespace spanwright
