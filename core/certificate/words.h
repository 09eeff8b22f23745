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
/// Who performed it, and what was signed.
std::vector<LabelledText> peopleTexts(const CertificateSource& source);
/// Captions of what is still to be signed by hand.
std::vector<std::string> signatureCaptions(const CertificateSource& source);
/// What is drawn across the head; empty for an approved one.
std::string markText(const CertificateSource& source);
/// Where the record holds it, with what it corrects.
std::vector<LabelledText> recordTexts(const CertificateSource& source);
std::vector<std::string> statementTexts(const CertificateSource& source);

/// The certificate a used standard had, by the number in the record, or nullptr.
const StandardCertificate* usedCertificate(const Register& site, const UsedStandard& used);

}  // namespace spanwright
