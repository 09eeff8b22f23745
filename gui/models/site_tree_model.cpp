// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/site_tree_model.h"

#include <QFont>
#include <QSize>
#include <algorithm>
#include <map>

#include "gui/settings/text_size.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kRowHeight = 28;

std::vector<const Place*> inWalkingOrder(const Register& site) {
  std::vector<const Place*> places;
  for (const Place& place : site.places) {
    places.push_back(&place);
  }
  std::stable_sort(places.begin(), places.end(),
                   [](const Place* a, const Place* b) { return a->order < b->order; });
  return places;
}

}  // namespace

SiteTreeModel::SiteTreeModel(QObject* parent) : QAbstractItemModel(parent), nodes_(1) {}

int SiteTreeModel::add(int parent, Node node) {
  node.parent = parent;
  const int id = static_cast<int>(nodes_.size());
  std::vector<int>& siblings = nodes_[static_cast<std::size_t>(parent)].children;
  node.row = static_cast<int>(siblings.size());
  siblings.push_back(id);
  nodes_.push_back(std::move(node));
  return id;
}

void SiteTreeModel::setSite(const Register& site) {
  beginResetModel();
  nodes_.assign(1, Node{});
  channels_.clear();
  std::map<std::string, int, std::less<>> ids{{"", 0}};
  std::vector<const Place*> waiting = inWalkingOrder(site);
  // Parents before children, whatever order they came in; what has no parent at all hangs from the root.
  while (!waiting.empty()) {
    std::vector<const Place*> later;
    for (const Place* place : waiting) {
      const auto above = ids.find(place->parentPath);
      if (above == ids.end()) {
        later.push_back(place);
        continue;
      }
      Node node;
      node.name = fromCore(place->name);
      ids[place->path] = add(above->second, std::move(node));
    }
    if (later.size() == waiting.size()) {
      for (const Place* orphan : later) {
        Node node;
        node.name = fromCore(orphan->path);
        ids[orphan->path] = add(0, std::move(node));
      }
      break;
    }
    waiting = std::move(later);
  }
  for (const Channel& channel : site.channels) {
    const auto place = ids.find(channel.place);
    Node node;
    node.channel = true;
    node.retired = channel.retired;
    node.name = fromCore(channel.tag);
    node.title = fromCore(channel.title);
    const QString tag = node.name;
    channels_[tag] = add(place == ids.end() ? 0 : place->second, std::move(node));
  }
  summarise(0);
  endResetModel();
}

void SiteTreeModel::setDue(const std::vector<DueItem>& due) {
  emit layoutAboutToBeChanged();
  for (Node& each : nodes_) {
    each.state.reset();
    each.dueOn.reset();
  }
  for (const DueItem& item : due) {
    const auto found = channels_.constFind(fromCore(item.channel));
    if (found == channels_.constEnd()) {
      continue;
    }
    Node& channel = nodes_[static_cast<std::size_t>(*found)];
    if (!channel.state || item.due.state < *channel.state) {
      channel.state = item.due.state;
    }
    if (item.due.dueOn && (!channel.dueOn || *item.due.dueOn < *channel.dueOn)) {
      channel.dueOn = item.due.dueOn;
    }
  }
  summarise(0);
  emit layoutChanged();
}

void SiteTreeModel::summarise(int id) {
  Node& place = nodes_[static_cast<std::size_t>(id)];
  place.channels = 0;
  place.pressing = 0;
  place.state.reset();
  const auto count = [&place](const std::optional<DueState>& state, int many) {
    if (!state) {
      return;
    }
    // DueState is declared from the most pressing on.
    if (!place.state || *state < *place.state) {
      place.state = state;
      place.pressing = 0;
    }
    place.pressing += *state == *place.state ? many : 0;
  };
  for (const int child : place.children) {
    Node& below = nodes_[static_cast<std::size_t>(child)];
    if (below.channel) {
      place.channels += below.retired ? 0 : 1;
      count(below.state, 1);
    } else {
      summarise(child);
      place.channels += below.channels;
      count(below.state, below.pressing);
    }
  }
}

QModelIndex SiteTreeModel::indexOfChannel(const QString& tag) const {
  const auto found = channels_.constFind(tag);
  return found == channels_.constEnd()
             ? QModelIndex()
             : createIndex(nodes_[static_cast<std::size_t>(*found)].row, 0, static_cast<quintptr>(*found));
}

const SiteTreeModel::Node& SiteTreeModel::node(const QModelIndex& index) const {
  return nodes_[index.isValid() ? static_cast<std::size_t>(index.internalId()) : 0U];
}

QModelIndex SiteTreeModel::index(int row, int column, const QModelIndex& parent) const {
  if (!hasIndex(row, column, parent)) {
    return {};
  }
  const int id = node(parent).children[static_cast<std::size_t>(row)];
  return createIndex(row, column, static_cast<quintptr>(id));
}

QModelIndex SiteTreeModel::parent(const QModelIndex& index) const {
  if (!index.isValid()) {
    return {};
  }
  const int above = node(index).parent;
  return above <= 0
             ? QModelIndex()
             : createIndex(nodes_[static_cast<std::size_t>(above)].row, 0, static_cast<quintptr>(above));
}

int SiteTreeModel::rowCount(const QModelIndex& parent) const {
  return parent.column() > 0 ? 0 : static_cast<int>(node(parent).children.size());
}

int SiteTreeModel::columnCount(const QModelIndex&) const {
  return kColumnCount;
}

QString SiteTreeModel::stateText(const Node& node) const {
  if (node.channel && node.retired) {
    return tr("retired");
  }
  if (!node.state) {
    return node.channel ? tr("no routine") : QString();
  }
  return node.channel ? word(*node.state) : tr("%1 × %2").arg(node.pressing).arg(word(*node.state));
}

QString SiteTreeModel::text(const Node& node, int column) const {
  switch (column) {
    case kName:
      return node.name;
    case kTitle:
      return node.channel ? node.title : counted(node.channels, tr("1 channel"), tr("%1 channels"));
    case kState:
      return stateText(node);
    case kDueOn:
      return node.dueOn ? shownDate(*node.dueOn) : QString();
    default:
      return {};
  }
}

QVariant SiteTreeModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) {
    return {};
  }
  const Node& at = node(index);
  switch (role) {
    case Qt::DisplayRole:
    case Qt::ToolTipRole:
      return text(at, index.column());
    case Qt::DecorationRole:
      return index.column() == kState && at.state ? QVariant(iconOf(*at.state)) : QVariant();
    case Qt::AccessibleTextRole:
      return QStringLiteral("%1, %2, %3").arg(at.name, text(at, kTitle), stateText(at));
    case Qt::FontRole: {
      QFont font;
      font.setBold(!at.channel);
      return index.column() == kName ? QVariant(font) : QVariant();
    }
    case Qt::ForegroundRole:
      return at.retired ? QVariant(toneColour(Tone::quiet)) : QVariant();
    case Qt::SizeHintRole:
      return index.column() == kName ? QVariant(QSize(0, scaled(kRowHeight))) : QVariant();
    case kTagRole:
      return at.channel ? at.name : QString();
    default:
      return {};
  }
}

QVariant SiteTreeModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
    return {};
  }
  switch (section) {
    case kName:
      return tr("Place, channel");
    case kTitle:
      return tr("What it measures");
    case kState:
      return tr("State");
    case kDueOn:
      return tr("Due on");
    default:
      return {};
  }
}

}  // namespace spanwright
