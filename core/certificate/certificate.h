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
#include "core/record/life.h"
#include "core/record/register.h"

namespace spanwright {

struct LabelledText {
  std::string label;
  std::string value;
};

/// Every number as it is to be printed, without its unit (that stands in the heading). A cell that does not
/// apply is empty.
struct CertificateRow {
  std::string point;      ///< "25 % up", "25 % up, run 2"
  std::string applied;    ///< a number, or in words what was done ("ramped up", "commanded on")
  std::string appliedAs;  ///< as it was typed, when that was converted ("80.31 ohm")
  std::string expected, reading, error;
  std::string readAs;         ///< likewise ("98.6 degF")
  std::string low, high;      ///< limits of error; empty on a side that is open
  std::string limits;         ///< both in one cell: "±0.375", "-0.1 to +0.2", "at least -2.0"
  std::string percentOfSpan;  ///< the error in % of reading span
  std::string fraction;       ///< |error| over the limit on its side
  std::string uncertainty;    ///< expanded, two significant digits
  std::string coverage;       ///< k
  std::string verdict;        ///< "pass", "fail", "not judged", "skipped"
  std::string note;           ///< skip reason, "inside one step"
};
/// One table of rows that share their units.
struct CertificateTable {
  Phase phase = Phase::asFound;
  std::string title;                     ///< "As found", "As left: alarm levels"
  std::string appliedUnit, readingUnit;  ///< as shown to people
  std::vector<CertificateRow> rows;
  std::string conclusion;  ///< "As found: pass; 10 of 10 points are inside their limits"
};
/// A column of a table that has anything in it: what its heading says, and where its cells are.
struct CertificateColumn {
  std::string heading;
  std::string unit;  ///< "1" for a plain number; empty for words
  std::string CertificateRow::*cell = nullptr;
  bool number = false;  ///< set flush right
};
/// The columns of `table` from left to right, without those that are empty in every row. The note is not
/// among them: it stands below the table.
std::vector<CertificateColumn> certificateColumns(const CertificateTable& table);

struct CertificateStandard {
  std::string serial, description, certificate, issuer, validFrom, validUntil, traceability;
};

/// One mark of the error chart.
struct ChartMark {
  double percent = 0.0;          ///< nominal, % of span; for a chart by category the category's index from 0
  double error = 0.0;            ///< reading units
  double low = 0.0, high = 0.0;  ///< limits there; infinite on a side that is open
  bool asLeft = false;
  Direction direction = Direction::none;
};
/// Errors against their limits: over % of span, or side by side for points that have no place on a span.
struct CertificateChart {
  std::string title;
  std::string unit;                     ///< of the errors
  std::vector<std::string> categories;  ///< names of the places along the axis; empty: the axis is % of span
  std::vector<ChartMark> marks;
};

/// An electronic signature as the certificate prints it (21 CFR 11.50: name, date and time, meaning).
struct CertificateSignature {
  LifeAct act = LifeAct::performed;
  std::string name;
  std::string login;
  Moment atUtc;
  std::string reason;
  std::string keyMark;  ///< tells one key of a person from another
};
/// What ties the certificate to the record; hexadecimal digests.
struct CertificateAnchor {
  CalibrationId calibration = 0;
  std::int64_t journalEntry = 0;  ///< the entry that issued it
  std::string journalHash;
  std::string recordDigest;  ///< of the calibration's rows
};

struct Certificate {
  std::string title;   ///< "Calibration certificate"
  std::string number;  ///< empty in a preview
  int revision = 1;    ///< above 1 it is printed beside the number
  std::string mark;    ///< "Unsigned" and the like, drawn across the head; empty when none
  std::string issueDate;
  std::vector<std::string> issuer, customer;
  std::string placeOfWork;
  std::vector<LabelledText> item, setup, method, work, conditions;
  std::vector<CertificateTable> tables;
  std::string foundConclusion, leftConclusion;  ///< one sentence each, over all tables of that phase
  std::string adjustment;                       ///< what was adjusted, or that nothing was
  std::vector<CertificateChart> charts;
  std::vector<CertificateStandard> standards;
  std::vector<LabelledText> decision;  ///< rule, specification, what it covers, result
  std::vector<LabelledText> people;    ///< performed by ..., and who signed what when
  std::vector<LabelledText> record;  ///< where the record holds it: calibration, journal, digest of its rows
  std::vector<std::string> signatures;  ///< captions of the lines to be signed by hand
  std::vector<std::string> deviations;  ///< skipped points with reasons, remarks
  std::vector<std::string> statements;  ///< relates only to the item; what it is not; invented site; cautions
  std::optional<CertificateAnchor> anchor;  ///< what `record` says, for data that goes with it
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
  std::string number;  ///< empty: a preview
  int revision = 1;
  Date issued;                                   ///< of this revision; not-a-date in a preview
  std::vector<CertificateSignature> signatures;  ///< in their order, all that were given up to this revision
  std::optional<CertificateAnchor> anchor;       ///< nothing in a preview
  std::string correctedCertificate;  ///< number of the certificate of the calibration this one corrects
  std::optional<Date> dueOn;         ///< printed only when the site's customer agreed to it
};
/// Needs site, channel and calibration; what else is missing is left out (certificateFaults names it).
Certificate describeCertificate(const CertificateSource& source);

/// What keeps a certificate from being issued, each a clause that ends with the clause of ISO/IEC 17025:2017
/// in brackets: no standard, no uncertainty at a point, no decision rule, no issuer address ... Empty when it
/// may be. Needs site and calibration; a missing channel, setup, sensor or plan is a fault like any other.
std::vector<std::string> certificateFaults(const CertificateSource& source);

}  // namespace spanwright
