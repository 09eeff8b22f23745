// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing.h"

#include <QTemporaryDir>
#include <iostream>

#include "core/record/problem.h"
#include "core/tasks/handed_out.h"
#include "gui/certificate/draw.h"

namespace spanwright {

// Fonts need a QGuiApplication; a terminal has no display, so the offscreen platform is asked for.
DrawingSession::DrawingSession() {
  if (!QGuiApplication::instance()) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    // Notes of the platform about its folders are not for the person who asked for a certificate.
    qInstallMessageHandler([](QtMsgType type, const QMessageLogContext&, const QString& message) {
      if (type == QtCriticalMsg || type == QtFatalMsg) {
        std::cerr << message.toStdString() << '\n';
      }
    });
    application_ = std::make_unique<QGuiApplication>(count_, arguments_);
  }
}

std::vector<std::string> printDifferences(const HandedOutCertificate& handedOut,
                                          const Certificate& certificate) {
  const DrawingSession session;
  const QTemporaryDir folder;
  const QString file = folder.filePath(QStringLiteral("drawn.pdf"));
  const int pages = writeCertificatePdf(certificate, file, paperOfWidth(handedOut.paperWidth));
  return differentWords(handedOut.words, pdfWords(file.toStdString()), pages == handedOut.pages);
}

}  // namespace spanwright
