// SPDX-License-Identifier: GPL-3.0-or-later
//
// Certificates issued together into a folder.
#pragma once

#include <QStringList>
#include <functional>
#include <vector>

#include "core/store/store.h"
#include "gui/certificate/draw.h"

namespace spanwright {

struct CertificateFolder {
  QStringList files;  ///< names within the folder, in order; empty when it was stopped
  QString trouble;    ///< one sentence; empty when all went well
};
/// Issues all of these and writes a PDF named by its number for each, or does neither: until every page is
/// drawn the files lie in a folder beside them that goes away, and no number is allotted. `progress` is told
/// how many are drawn and answers false to stop.
CertificateFolder issueIntoFolder(Store& store, const std::vector<CalibrationId>& calibrations,
                                  const QString& folder, Paper paper,
                                  const std::function<bool(int)>& progress);

}  // namespace spanwright
