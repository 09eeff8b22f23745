// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading back what was drawn, with poppler's tools: an outside look at the file.
#pragma once

#include <QRectF>
#include <QSizeF>
#include <QString>
#include <QStringList>
#include <QTemporaryDir>
#include <vector>

#include "gui/certificate/draw.h"

namespace spanwright::pdf {

struct Word {
  QString text;
  QRectF box;  ///< in points
};
struct PageWords {
  QSizeF size;
  std::vector<Word> words;
};

/// A certificate written into a folder of its own, and what poppler's tools say about it.
class Written {
 public:
  explicit Written(const Certificate& certificate, Paper paper = Paper::a4);
  int pageCount() const { return pages_; }              ///< as writeCertificatePdf said
  QStringList pages(const QStringList& options) const;  ///< text by page, without the last form feed
  std::vector<PageWords> words() const;
  QString tool(const QString& name, const QStringList& arguments) const;
  QString file() const { return folder_.filePath(QStringLiteral("c.pdf")); }

 private:
  QTemporaryDir folder_;
  int pages_ = 0;
};

/// Runs of blanks, of whatever kind, made one.
QString collapsed(QString text);

}  // namespace spanwright::pdf
