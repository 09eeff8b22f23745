// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/sheet_file.h"

#include <QDir>
#include <QFileDialog>
#include <QRegularExpression>

#include "core/record/problem.h"
#include "gui/certificate/draw.h"
#include "gui/settings/settings.h"
#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {

QString askSheetFile(QWidget* parent, const QString& name) {
  QString plain = name;
  plain.replace(QRegularExpression(QStringLiteral("[^\\w-]+")), QStringLiteral("-"));
  const QString file = QFileDialog::getSaveFileName(
      parent, tr("Write the round sheet"), QDir(kLastFolder.get()).filePath(plain + QStringLiteral(".pdf")),
      tr("PDF files (*.pdf)"));
  return file.isEmpty() || file.endsWith(QStringLiteral(".pdf")) ? file : file + QStringLiteral(".pdf");
}

SheetFile writeSheet(const std::function<RoundSheet()>& make, const QString& file) {
  try {
    const RoundSheet sheet = make();
    const int pages = writeRoundSheetsPdf({sheet}, file, kLetterPaper.get() ? Paper::letter : Paper::a4);
    return {true, tr("The sheet with %1 is written to %2.")
                      .arg(counted(pages, tr("1 page"), tr("%1 pages")), QDir::toNativeSeparators(file))};
  } catch (const InputError& refused) {
    return {false, problemSentences(refused)};
  } catch (const std::exception& error) {
    return {false, asSentence(QString::fromUtf8(error.what()))};
  }
}

}  // namespace spanwright
