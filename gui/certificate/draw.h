// SPDX-License-Identifier: GPL-3.0-or-later
//
// Draws certificates and round sheets with Qt Gui (no widgets); shared by the window and the command line.
// Needs a QGuiApplication.
#pragma once

#include <QString>
#include <vector>

#include "core/certificate/certificate.h"
#include "core/certificate/label.h"
#include "core/certificate/round_sheet.h"

class QImage;

namespace spanwright {

struct LabelSheet;

enum class Paper { a4, letter };
/// Which of them a page of this width is, in points of 1/72 inch.
Paper paperOfWidth(double points);

/// Writes the certificate as a PDF; throws StorageError with one sentence when the file cannot be written
/// (nothing half-written is left). Returns the number of pages.
int writeCertificatePdf(const Certificate& certificate, const QString& file, Paper paper = Paper::a4);

/// The same for round sheets, one after the other.
int writeRoundSheetsPdf(const std::vector<RoundSheet>& sheets, const QString& file, Paper paper = Paper::a4);

/// Labels on their sheets. InputError with what is wrong with the sheet (labelSheetFault), or without labels.
int writeLabelsPdf(const std::vector<ChannelLabel>& labels, const LabelSheet& sheet, const QString& file,
                   Paper paper = Paper::a4);
/// How many labels stand on one sheet.
int labelsOnSheet(const LabelSheet& sheet, Paper paper);

/// One page (counted from 0) as a picture at `dpi`, for a preview.
QImage drawCertificatePage(const Certificate& certificate, int page, double dpi, Paper paper = Paper::a4);
int certificatePageCount(const Certificate& certificate, Paper paper = Paper::a4);

}  // namespace spanwright
