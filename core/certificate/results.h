// SPDX-License-Identifier: GPL-3.0-or-later
//
// The results of a certificate: tables, their conclusions and the charts of their errors.
#pragma once

#include "core/certificate/certificate.h"
#include "core/signal/point_model.h"

namespace spanwright {

/// The subject's model, or nullptr when setup or sensor are missing or impossible.
PointModelPtr certificateModel(const CertificateSource& source);

/// One table for each group of points that share their units; values first, then levels, then states. `rule`
/// is the one the verdicts were made by, when known.
std::vector<CertificateTable> resultTables(const Calibration& calibration, Phase phase,
                                           const PointModel* model, const DecisionRule* rule = nullptr);

/// "As found: fail; 8 of 10 points are inside their limits, 1 was skipped"; under a guarded rule "are
/// accepted inside their limits".
std::string conclusion(const std::string& title, const std::vector<const Reading*>& readings, Verdict verdict,
                       const DecisionRule* rule = nullptr);

/// Value points over % of span, switch and alarm points by name; states have no error worth a drawing.
std::vector<CertificateChart> errorCharts(const Calibration& calibration);

}  // namespace spanwright
