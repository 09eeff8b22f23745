// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/draw.h"

#include <QBuffer>
#include <QDir>
#include <QGuiApplication>
#include <QImage>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QSaveFile>
#include <cassert>
#include <cmath>
#include <string>

#include "core/certificate/certificate_data.h"
#include "core/record/problem.h"
#include "gui/certificate/certificate_layout.h"
#include "gui/certificate/label_layout.h"
#include "gui/certificate/sheet_layout.h"
#include "gui/certificate/type.h"

namespace spanwright {
namespace {

QPageSize pageSize(Paper paper) {
  return QPageSize(paper == Paper::letter ? QPageSize::Letter : QPageSize::A4);
}

std::vector<Page> layOut(const Certificate& certificate, Paper paper) {
  assert(qGuiApp != nullptr);  // fonts need one
  return layOutCertificate(certificate, pageSize(paper).sizePixels(kUnitsPerInch).toSizeF());
}

[[noreturn]] void refuse(const char* what, const QString& file, const QString& why) {
  throw StorageError(std::string(what) + " could not be written to " +
                     QDir::toNativeSeparators(file).toStdString() + ": " + why.toStdString() +
                     "; nothing was left there, choose another place or make room.");
}

/// What a PDF holds beside its pages.
struct PdfFrame {
  QString title, creator;
  QByteArray attachment;  ///< certificate data; empty: none
  QByteArray dated;       ///< "2026-11-29", when it says that it was made; empty: now
};

/// The writer knows no other moment than now; what is issued again is the same file to the byte.
void setDate(QByteArray& pdf, QByteArray day) {
  const QByteArray before = "/CreationDate (D:";
  const qsizetype at = pdf.indexOf(before);
  if (at >= 0 && !day.isEmpty()) {
    const QByteArray digits = day.replace("-", "") + "000000";
    pdf.replace(at + before.size(), digits.size(), digits);
  }
}

QByteArray pdfOf(const std::vector<Page>& pages, const PdfFrame& frame, Paper paper) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter writer(&buffer);
  writer.setResolution(kUnitsPerInch);
  writer.setPageSize(pageSize(paper));
  writer.setPageMargins(QMarginsF(0.0, 0.0, 0.0, 0.0));
  writer.setTitle(frame.title);
  writer.setCreator(frame.creator);
  if (!frame.attachment.isEmpty()) {
    // Without a claim to PDF/A: this writer's claim does not hold once something is attached.
    writer.addFileAttachment(QString::fromUtf8(kCertificateDataName.data(), kCertificateDataName.size()),
                             frame.attachment, QStringLiteral("application/json"));
  }
  QPainter painter(&writer);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    if (i > 0) {
      writer.newPage();
    }
    paintPage(painter, pages[i]);
  }
  painter.end();
  buffer.close();
  setDate(bytes, frame.dated);
  return bytes;
}

/// Made whole in memory first: the writer itself does not report a disk that fails.
void writeFile(const QByteArray& bytes, const QString& file, const char* what) {
  QSaveFile target(file);
  if (!target.open(QIODevice::WriteOnly)) {
    refuse(what, file, target.errorString());
  }
  if (target.write(bytes) != bytes.size()) {
    const QString why = target.errorString();
    target.cancelWriting();
    refuse(what, file, why);
  }
  if (!target.commit()) {
    refuse(what, file, target.errorString());
  }
}

}  // namespace

Paper paperOfWidth(double points) {
  constexpr double kA4Width = 595.3;  // 210 mm; Letter is 612
  return std::abs(points - kA4Width) < 5.0 ? Paper::a4 : Paper::letter;
}

int writeCertificatePdf(const Certificate& certificate, const QString& file, Paper paper) {
  const std::vector<Page> pages = layOut(certificate, paper);
  const PdfFrame frame{
      printed(certificate.title + " " + certificate.number), printed(certificate.programVersion),
      certificate.anchor ? QByteArray::fromStdString(certificateData(certificate)) : QByteArray(),
      QByteArray::fromStdString(certificate.issueDate)};
  writeFile(pdfOf(pages, frame, paper), file, "The certificate");
  return static_cast<int>(pages.size());
}

int writeRoundSheetsPdf(const std::vector<RoundSheet>& sheets, const QString& file, Paper paper) {
  assert(qGuiApp != nullptr && !sheets.empty());
  const std::vector<Page> pages =
      layOutRoundSheets(sheets, pageSize(paper).sizePixels(kUnitsPerInch).toSizeF());
  writeFile(
      pdfOf(pages, {printed(sheets.front().title), printed(sheets.front().programVersion), {}, {}}, paper),
      file, "The sheet");
  return static_cast<int>(pages.size());
}

int writeLabelsPdf(const std::vector<ChannelLabel>& labels, const LabelSheet& sheet, const QString& file,
                   Paper paper) {
  assert(qGuiApp != nullptr);
  const QSizeF size = pageSize(paper).sizePixels(kUnitsPerInch).toSizeF();
  if (labels.empty()) {
    throw InputError("there is no label to print", "choose channels that are proven");
  }
  if (const auto fault = labelSheetFault(labels, sheet, size)) {
    throw InputError(*fault, "give the measures that stand on the packet of the label sheets");
  }
  const std::vector<Page> pages = layOutLabels(labels, sheet, size);
  writeFile(pdfOf(pages, {QStringLiteral("Labels"), QStringLiteral("Spanwright"), {}, {}}, paper), file,
            "The sheet of labels");
  return static_cast<int>(pages.size());
}

int labelsOnSheet(const LabelSheet& sheet, Paper paper) {
  return labelsOnSheet(sheet, pageSize(paper).sizePixels(kUnitsPerInch).toSizeF());
}

QImage drawCertificatePage(const Certificate& certificate, int page, double dpi, Paper paper) {
  const std::vector<Page> pages = layOut(certificate, paper);
  assert(page >= 0 && static_cast<std::size_t>(page) < pages.size());
  const double scale = dpi / kUnitsPerInch;
  const QSizeF size = pageSize(paper).sizePixels(kUnitsPerInch).toSizeF() * scale;
  QImage image(static_cast<int>(std::lround(size.width())), static_cast<int>(std::lround(size.height())),
               QImage::Format_RGB32);
  image.fill(Qt::white);
  QPainter painter(&image);
  painter.scale(scale, scale);
  paintPage(painter, pages[static_cast<std::size_t>(page)]);
  return image;
}

int certificatePageCount(const Certificate& certificate, Paper paper) {
  return static_cast<int>(layOut(certificate, paper).size());
}

}  // namespace spanwright
