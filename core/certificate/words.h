// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences of a certificate.
#pragma once

#include <string>
#include <vector>

#include "core/certificate/certificate.h"

namespace spanwright {

std::vector<LabelledText> itemTexts(const CertificateSource& source);
std::vector<LabelledText> setupTexts(const CertificateSource& source);
std::vector<LabelledText> methodTexts(const CertificateSource& source);
std::vector<LabelledText> workTexts(const CertificateSource& source);
std::vector<LabelledText> conditionTexts(const CertificateSource& source);
std::vector<LabelledText> decisionTexts(const CertificateSource& source);
std::string placeOfWorkText(const CertificateSource& source);
std::string adjustmentText(const Calibration& calibration);
std::vector<CertificateStandard> standardTexts(const CertificateSource& source);
std::vector<std::string> deviationTexts(const CertificateSource& source);
std::vector<std::string> statementTexts(const CertificateSource& source);

/// The certificate a used standard had, by the number in the record, or nullptr.
const StandardCertificate* usedCertificate(const Register& site, const UsedStandard& used);

}  // namespace spanwright
