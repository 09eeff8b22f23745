// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a certificate says, ready to be drawn: all texts and numbers decided, nothing of pages or fonts.
// Content follows ISO/IEC 17025:2017 7.8.2 and 7.8.4 as far as a record can show it; it never claims
// accreditation.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/record/calibration.h"
#include "core/record/register.h"

namespace spanwright {

struct LabelledText {
  std::string label;
  std::string value;
};

struct CertificateRow {
  std::string point;  ///< "25 % up"
  std::string applied, expected, reading, error, low, high, percentOfSpan, fraction, uncertainty, coverage,
      verdict;
  std::string note;  ///< skip reason, "inside one step"
};
/// One table; column headings carry the units. Empty `rows` means it was not done.
struct CertificateTable {
  std::string title;  ///< "As found", "As left"
  std::string appliedUnit, readingUnit;
  std::vector<CertificateRow> rows;
  std::string conclusion;  ///< "As found: pass, 10 of 10 points inside tolerance"
};
struct CertificateStandard {
  std::string serial, description, certificate, issuer, validFrom, validUntil, traceability;
};
/// One point of the drawn error chart, in percent of the error limit on its side (100 = at the limit).
struct ChartMark {
  double percent = 0.0;          ///< nominal, % of span
  double error = 0.0;            ///< reading units
  double low = 0.0, high = 0.0;  ///< limits there
  bool asLeft = false;
  bool down = false;
};

struct Certificate {
  std::string title;  ///< "Calibration certificate"
  std::string number;
  std::string mark;  ///< "Unsigned" and the like, drawn across the head; empty when none
  std::string issueDate;
  std::vector<std::string> issuer, customer;
  std::string placeOfWork;
  std::vector<LabelledText> item, setup, method, work, conditions;
  std::vector<CertificateTable> tables;
  std::string adjustment;  ///< what was adjusted, or that nothing was
  std::vector<ChartMark> chart;
  std::string chartUnit;
  std::vector<CertificateStandard> standards;
  std::string decision;                 ///< rule, specification, what it covers, result
  std::vector<LabelledText> people;     ///< performed by ..., authorised by ...
  std::vector<std::string> deviations;  ///< skipped points with reasons, remarks
  std::vector<std::string> statements;  ///< relates only to the item; what it is not; invented site; cautions
  std::string programVersion;
};

/// Everything the certificate of one calibration needs, already looked up.
struct CertificateSource {
  const Register* site = nullptr;
  const Channel* channel = nullptr;
  const SetupVersion* setup = nullptr;
  const Sensor* sensor = nullptr;  ///< may be nullptr
  const Plan* plan = nullptr;
  const Calibration* calibration = nullptr;
  std::string number;
  Date issued;
  std::optional<Date> dueOn;  ///< printed only when the site's customer agreed to it
};
Certificate describeCertificate(const CertificateSource& source);

/// What keeps a certificate from being issued, with the clause: no standard, no uncertainty at a point, no
/// decision rule, no issuer address ... Empty when it may be.
std::vector<std::string> certificateFaults(const CertificateSource& source);

}  // namespace spanwright
