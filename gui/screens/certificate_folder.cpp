// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/certificate_folder.h"

#include <QDir>
#include <QTemporaryDir>
#include <filesystem>
#include <system_error>

#include "core/record/problem.h"
#include "core/tasks/issue_round.h"
#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

/// Puts a drawn file in its place; a file of that name from an earlier issue gives way.
bool putInPlace(const QString& from, const QString& to) {
  std::error_code failed;
  std::filesystem::rename(from.toStdString(), to.toStdString(), failed);
  return !failed;
}

}  // namespace

CertificateFolder issueIntoFolder(Store& store, const std::vector<CalibrationId>& calibrations,
                                  const QString& folder, Paper paper,
                                  const std::function<bool(int)>& progress) {
  CertificateFolder result;
  QTemporaryDir drawn(QDir(folder).filePath(QStringLiteral(".certificates-XXXXXX")));
  if (!QDir(folder).exists() || !drawn.isValid()) {
    result.trouble =
        tr("Nothing can be written to %1; choose another folder.").arg(QDir::toNativeSeparators(folder));
    return result;
  }
  QStringList names;
  try {
    const auto issued = issueTogether(store, calibrations, [&](const Certificate& certificate) {
      const QString name = fromCore(certificate.number) + QStringLiteral(".pdf");
      writeCertificatePdf(certificate, drawn.filePath(name), paper);
      names << name;
      return progress(static_cast<int>(names.size()));
    });
    if (!issued) {
      return result;
    }
  } catch (const InputError& refused) {
    result.trouble = problemSentences(refused);
    return result;
  } catch (const std::exception& error) {
    result.trouble = asSentence(QString::fromUtf8(error.what()));
    return result;
  }
  for (const QString& name : names) {
    if (!putInPlace(drawn.filePath(name), QDir(folder).filePath(name))) {
      drawn.setAutoRemove(false);
      result.trouble = tr("%1 is issued but could not be put into the folder; it lies in %2.")
                           .arg(name, QDir::toNativeSeparators(drawn.path()));
      return result;
    }
    result.files << name;
  }
  return result;
}

}  // namespace spanwright
