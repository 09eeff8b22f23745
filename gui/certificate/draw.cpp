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

[[noreturn]] void refuse(const QString& file, const QString& why) {
  throw StorageError("The certificate could not be written to " +
                     QDir::toNativeSeparators(file).toStdString() + ": " + why.toStdString() +
                     "; nothing was left there, choose another place or make room.");
}

QByteArray pdfOf(const Certificate& certificate, const std::vector<Page>& pages, Paper paper) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter writer(&buffer);
  writer.setResolution(kUnitsPerInch);
  writer.setPageSize(pageSize(paper));
  writer.setPageMargins(QMarginsF(0.0, 0.0, 0.0, 0.0));
  writer.setTitle(printed(certificate.title + " " + certificate.number));
  writer.setCreator(printed(certificate.programVersion));
  if (certificate.anchor) {
    // Without a claim to PDF/A: this writer's claim does not hold once something is attached.
    writer.addFileAttachment(QString::fromUtf8(kCertificateDataName.data(), kCertificateDataName.size()),
                             QByteArray::fromStdString(certificateData(certificate)),
                             QStringLiteral("application/json"));
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
  return bytes;
}

}  // namespace

Paper paperOfWidth(double points) {
  constexpr double kA4Width = 595.3;  // 210 mm; Letter is 612
  return std::abs(points - kA4Width) < 5.0 ? Paper::a4 : Paper::letter;
}

int writeCertificatePdf(const Certificate& certificate, const QString& file, Paper paper) {
  const std::vector<Page> pages = layOut(certificate, paper);
  // Made whole in memory first: the writer itself does not report a disk that fails.
  const QByteArray bytes = pdfOf(certificate, pages, paper);
  QSaveFile target(file);
  if (!target.open(QIODevice::WriteOnly)) {
    refuse(file, target.errorString());
  }
  if (target.write(bytes) != bytes.size()) {
    const QString why = target.errorString();
    target.cancelWriting();
    refuse(file, why);
  }
  if (!target.commit()) {
    refuse(file, target.errorString());
  }
  return static_cast<int>(pages.size());
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
