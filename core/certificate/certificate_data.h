// SPDX-License-Identifier: GPL-3.0-or-later
//
// A certificate as data: the same words and numbers as on paper, in one JSON document that goes with it
// (inside its PDF, or as a file of its own) and by which a certificate handed out is compared with the record
// later.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/certificate/certificate.h"

namespace spanwright {

/// What the document calls itself, as "form".
inline constexpr std::string_view kCertificateForm = "spanwright certificate 1";
/// Name of the document inside a PDF.
inline constexpr std::string_view kCertificateDataName = "certificate.json";

/// The document. Every text as printed; of charts only what they are drawn from, which the tables hold. A
/// preview names no calibration and no entry of a journal.
std::string certificateData(const Certificate& certificate);

/// What of a document ties it to a record.
struct CertificateClaim {
  std::string number;
  int revision = 1;
  CertificateAnchor anchor;
};
/// Reads it; std::runtime_error with a clause when the text is no such document or lacks one of these.
CertificateClaim certificateClaim(std::string_view data);

/// Where two documents differ, as places with both texts: "tables / 1 / rows / 2 / reading: \"4.01\" instead
/// of
/// \"4.02\"". Names of the program's version are not compared. Empty when they say the same.
/// std::runtime_error when one of them is no such document.
std::vector<std::string> certificateDifferences(std::string_view handedOut, std::string_view record);

}  // namespace spanwright
