// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/gui/screens/measured.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QComboBox>
#include <QFontInfo>
#include <QGraphicsTextItem>
#include <QGraphicsView>
#include <QHash>
#include <QHeaderView>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QPixmap>
#include <QPushButton>
#include <QStyle>
#include <QStyleOptionComboBox>
#include <QTabBar>
#include <QTextDocumentFragment>
#include <algorithm>

#include "gui/settings/look.h"

namespace spanwright {
namespace {

constexpr int kInside = 3;  // frames and grid lines are no text

class Measuring {
 public:
  explicit Measuring(QWidget& window)
      : window_(window), picture_(window.grab().toImage().convertToFormat(QImage::Format_RGB32)) {}

  std::vector<MeasuredText> all() {
    labels();
    buttons();
    boxes();
    tabs();
    headings();
    cells();
    charts();
    return std::move(found_);
  }

 private:
  template <typename T>
  std::vector<T*> seen() const {
    std::vector<T*> visible;
    for (T* each : window_.findChildren<T*>()) {
      if (each->isVisible() && each->isEnabled()) {
        visible.push_back(each);
      }
    }
    return visible;
  }

  /// What of `box` on `widget` no ancestor cuts off, in the picture.
  QRect inPicture(const QWidget* widget, QRect box) const {
    for (const QWidget* at = widget; at != &window_; at = at->parentWidget()) {
      box &= at->rect();
      box.translate(at->pos());
    }
    return box & picture_.rect();
  }

  /// The commonest colour is the ground, the one farthest from it the ink.
  double ratioIn(const QRect& box) const {
    QHash<QRgb, int> counts;
    for (int y = box.top(); y <= box.bottom(); ++y) {
      const auto* line = reinterpret_cast<const QRgb*>(picture_.constScanLine(y));
      for (int x = box.left(); x <= box.right(); ++x) {
        ++counts[line[x]];
      }
    }
    QRgb ground = 0;
    int most = 0;
    for (auto at = counts.cbegin(); at != counts.cend(); ++at) {
      if (at.value() > most) {
        most = at.value();
        ground = at.key();
      }
    }
    double ratio = 1.0;
    for (auto at = counts.cbegin(); at != counts.cend(); ++at) {
      ratio = std::max(ratio, contrastRatio(QColor(at.key()), QColor(ground)));
    }
    return ratio;
  }

  void take(const QWidget* widget, const QRect& where, const QString& text, const QFont& font) {
    const QRect box = inPicture(widget, where);
    const auto letters =
        std::count_if(text.begin(), text.end(), [](QChar each) { return each.isLetterOrNumber(); });
    // Half a line or a sliver of a cell shows no whole letter.
    if (letters < 2 || box.height() < QFontMetrics(font).height() / 2 || box.width() < 12) {
      return;
    }
    const double points = QFontInfo(font).pointSizeF();
    found_.push_back({text, ratioIn(box), points >= 18.0 || (points >= 14.0 && font.bold())});
  }

  void labels() {
    for (const QLabel* each : seen<QLabel>()) {
      take(each, each->contentsRect(), QTextDocumentFragment::fromHtml(each->text()).toPlainText(),
           each->font());
    }
  }

  void buttons() {
    for (const QAbstractButton* each : seen<QAbstractButton>()) {
      QRect box = each->rect().adjusted(kInside, kInside, -kInside, -kInside);
      if (each->inherits("QCheckBox") || each->inherits("QRadioButton")) {
        box.setLeft(box.left() + each->style()->pixelMetric(QStyle::PM_IndicatorWidth) + kInside);
      } else if (!each->icon().isNull()) {
        box.setLeft(box.center().x());  // behind the sign
      }
      take(each, box, each->text(), each->font());
    }
  }

  void boxes() {
    for (const QLineEdit* each : seen<QLineEdit>()) {
      take(each, each->rect().adjusted(kInside, kInside, -kInside, -kInside),
           each->text().isEmpty() ? each->placeholderText() : each->text(), each->font());
    }
    for (const QComboBox* each : seen<QComboBox>()) {
      QStyleOptionComboBox option;
      option.initFrom(each);
      const QRect field =
          each->style()->subControlRect(QStyle::CC_ComboBox, &option, QStyle::SC_ComboBoxEditField, each);
      take(each, field.adjusted(kInside, kInside, -kInside, -kInside), each->currentText(), each->font());
    }
  }

  void tabs() {
    for (const QTabBar* each : seen<QTabBar>()) {
      for (int i = 0; i < each->count(); ++i) {
        take(each, each->tabRect(i).adjusted(kInside, kInside, -kInside, -kInside), each->tabText(i),
             each->font());
      }
    }
  }

  void headings() {
    for (const QHeaderView* each : seen<QHeaderView>()) {
      for (int i = 0; each->orientation() == Qt::Horizontal && i < each->count(); ++i) {
        const QString text = each->model()->headerData(i, Qt::Horizontal).toString();
        if (!each->isSectionHidden(i) && !text.isEmpty()) {
          const bool sorted = each->isSortIndicatorShown() && each->sortIndicatorSection() == i;
          const int arrow = sorted ? each->style()->pixelMetric(QStyle::PM_HeaderMarkSize) : 0;
          take(each->viewport(),
               QRect(each->sectionViewportPosition(i), 0, each->sectionSize(i) - arrow, each->height())
                   .adjusted(kInside, kInside, -kInside, -kInside),
               text, each->font());
        }
      }
    }
  }

  void cells() {
    for (const QAbstractItemView* each : seen<QAbstractItemView>()) {
      if (!each->inherits("QHeaderView")) {
        cellsUnder(*each, each->rootIndex());
      }
    }
  }

  void cellsUnder(const QAbstractItemView& view, const QModelIndex& parent) {
    for (int row = 0; row < view.model()->rowCount(parent); ++row) {
      for (int column = 0; column < view.model()->columnCount(parent); ++column) {
        const QModelIndex index = view.model()->index(row, column, parent);
        QRect box = view.visualRect(index).adjusted(kInside, kInside, -kInside, -kInside);
        if (!index.data(Qt::DecorationRole).isNull()) {
          box.setLeft(box.left() + view.style()->pixelMetric(QStyle::PM_SmallIconSize) + kInside);
        }
        if (!view.viewport()->rect().intersects(box) || (index.flags() & Qt::ItemIsEnabled) == 0) {
          continue;
        }
        const QVariant font = index.data(Qt::FontRole);
        take(view.viewport(), box, index.data().toString(),
             font.isValid() ? font.value<QFont>().resolve(view.font()) : view.font());
      }
      cellsUnder(view, view.model()->index(row, 0, parent));
    }
  }

  void charts() {
    for (const QGraphicsView* each : seen<QGraphicsView>()) {
      for (const QGraphicsItem* item : each->items()) {
        const auto* text = qgraphicsitem_cast<const QGraphicsTextItem*>(item);
        if (text != nullptr && text->isVisible()) {
          take(each->viewport(), each->mapFromScene(text->sceneBoundingRect()).boundingRect(),
               text->toPlainText(), text->font());
        }
      }
    }
  }

  QWidget& window_;
  QImage picture_;
  std::vector<MeasuredText> found_;
};

}  // namespace

std::vector<MeasuredText> measureTexts(QWidget& window) {
  return Measuring(window).all();
}

}  // namespace spanwright
