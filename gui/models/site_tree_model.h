// SPDX-License-Identifier: GPL-3.0-or-later
//
// Places and channels as a tree, each with its state; a place shows the most pressing state below it.
#pragma once

#include <QAbstractItemModel>
#include <QHash>
#include <optional>
#include <vector>

#include "core/tasks/status.h"

namespace spanwright {

class SiteTreeModel : public QAbstractItemModel {
  Q_OBJECT
 public:
  enum Columns { kName, kTitle, kState, kDueOn, kColumnCount };
  /// The channel's tag; empty for a place.
  static constexpr int kTagRole = Qt::UserRole + 10;

  explicit SiteTreeModel(QObject* parent = nullptr);
  /// Copies what it shows: nothing of the register is kept.
  void setSite(const Register& site);
  void setDue(const std::vector<DueItem>& due);
  QModelIndex indexOfChannel(const QString& tag) const;

  QModelIndex index(int row, int column, const QModelIndex& parent = {}) const override;
  QModelIndex parent(const QModelIndex& index) const override;
  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  struct Node {
    int parent = -1;
    int row = 0;  // among its parent's children
    std::vector<int> children;
    bool channel = false;
    bool retired = false;
    QString name, title;
    std::optional<DueState> state;
    std::optional<Date> dueOn;
    int channels = 0;  // below a place
    int pressing = 0;  // of them with the place's state
  };
  const Node& node(const QModelIndex& index) const;
  int add(int parent, Node node);
  void summarise(int place);
  QString text(const Node& node, int column) const;
  QString stateText(const Node& node) const;

  std::vector<Node> nodes_;  // 0 is the invisible root
  QHash<QString, int> channels_;
};

}  // namespace spanwright
