// SPDX-License-Identifier: GPL-3.0-or-later
//
// Boxes and buttons in a row that goes on in another line where the window is too narrow for it, as with
// large text.
#pragma once

#include <QLayout>
#include <memory>
#include <vector>

namespace spanwright {

class WrapRow : public QLayout {
 public:
  explicit WrapRow(QWidget* parent = nullptr);
  ~WrapRow() override;

  /// A label with a buddy, or with a sign, stays beside what follows it. What is spare in a line goes where
  /// there is stretch.
  void addWidget(QWidget* widget, int stretch = 0);
  void addStretch(int stretch = 1);
  void addSpacing(int pixels);

  void addItem(QLayoutItem* item) override;
  int count() const override;
  QLayoutItem* itemAt(int index) const override;
  QLayoutItem* takeAt(int index) override;
  Qt::Orientations expandingDirections() const override;
  bool hasHeightForWidth() const override;
  int heightForWidth(int width) const override;
  QSize minimumSize() const override;
  QSize sizeHint() const override;
  void setGeometry(const QRect& rect) override;

 private:
  struct Part {
    std::unique_ptr<QLayoutItem> item;
    int stretch = 0;
  };
  using Line = std::vector<const Part*>;

  void add(std::unique_ptr<QLayoutItem> item, int stretch);
  std::vector<Line> linesIn(int width) const;
  /// Puts a line at the top left given, unless it is only asked how high it is.
  int place(const Line& line, const QPoint& at, int width, bool move) const;
  int arrange(const QRect& rect, bool move) const;
  int gap() const;

  std::vector<Part> parts_;
};

}  // namespace spanwright
