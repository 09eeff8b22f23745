// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who did what, in the sentences of a certificate.
#include <fmt/format.h>

#include <algorithm>

#include "core/certificate/words.h"

namespace spanwright {
namespace {

LifeState stateOf(const CertificateSource& source) {
  return source.signatures.empty() ? LifeState::recorded : stateAfter(source.signatures.back().act);
}

/// What was signed since it was last sent back: signatures before that are of no use any more, and are still
/// told.
bool signedAs(const CertificateSource& source, LifeAct act) {
  for (auto it = source.signatures.rbegin(); it != source.signatures.rend() && it->act != LifeAct::sentBack;
       ++it) {
    if (it->act == act) {
      return true;
    }
  }
  return false;
}

std::string_view label(LifeAct act) {
  switch (act) {
    case LifeAct::performed:
      return "Signed as performed";
    case LifeAct::reviewed:
      return "Signed as reviewed";
    case LifeAct::approved:
      return "Signed as approved";
    case LifeAct::sentBack:
      return "Sent back";
    case LifeAct::withdrawn:
      return "Withdrawn";
    case LifeAct::superseded:
      break;
  }
  return "Superseded";
}

std::string signatureText(const CertificateSignature& signature) {
  std::string said =
      fmt::format("{} ({}), {} UTC", signature.name, signature.login, formatMoment(signature.atUtc));
  if (!signature.keyMark.empty()) {
    said += fmt::format(", key {}", signature.keyMark);
  }
  return signature.reason.empty() ? said : fmt::format("{}: {}", said, signature.reason);
}

}  // namespace

std::string markText(const CertificateSource& source) {
  if (source.number.empty()) {
    return "Preview, not issued";
  }
  switch (stateOf(source)) {
    case LifeState::recorded:
      return "Unsigned";
    case LifeState::performed:
    case LifeState::reviewed:
      return "Not approved";
    case LifeState::sentBack:
      return "Sent back";
    case LifeState::withdrawn:
      return "Withdrawn";
    case LifeState::superseded:
      return "Superseded";
    case LifeState::approved:
      break;
  }
  return {};
}

std::vector<LabelledText> peopleTexts(const CertificateSource& source) {
  const Person* person = source.site->person(source.calibration->person);
  std::vector<LabelledText> texts{
      {"Performed by", person != nullptr ? person->name : source.calibration->person}};
  for (const CertificateSignature& signature : source.signatures) {
    texts.push_back({std::string(label(signature.act)), signatureText(signature)});
  }
  if (source.signatures.empty()) {
    texts.push_back({"Signatures", "none in the record; it is signed by hand below"});
  }
  return texts;
}

std::vector<std::string> signatureCaptions(const CertificateSource& source) {
  std::vector<std::string> captions;
  if (!counts(stateOf(source))) {
    return captions;
  }
  if (!signedAs(source, LifeAct::performed)) {
    captions.emplace_back("Performed by: signature, date");
  }
  if (!signedAs(source, LifeAct::approved)) {
    captions.emplace_back("Authorised by: name, signature, date");
  }
  return captions;
}

std::vector<LabelledText> recordTexts(const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  std::vector<LabelledText> texts;
  if (calibration.corrects != 0) {
    const std::string of = source.correctedCertificate.empty()
                               ? fmt::format("calibration {}", calibration.corrects)
                               : fmt::format("certificate {} (calibration {})", source.correctedCertificate,
                                             calibration.corrects);
    texts.push_back({"Replaces", fmt::format("{}: {}", of, calibration.correctionReason)});
  }
  if (source.revision > 1) {
    texts.push_back(
        {"Revision", fmt::format("{}; replaces revision {} of the same number: what was signed has changed",
                                 source.revision, source.revision - 1)});
  }
  if (source.anchor) {
    texts.push_back({"Calibration", fmt::format("{} in the record", calibration.id)});
    texts.push_back({"Journal entry",
                     fmt::format("{}, hash {}", source.anchor->journalEntry, source.anchor->journalHash)});
    texts.push_back({"Digest of the readings", source.anchor->recordDigest});
  }
  return texts;
}

}  // namespace spanwright
