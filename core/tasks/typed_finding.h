// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was found of a standard as a person types it, made into a finding whose reach can be asked for.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "core/record/found.h"
#include "core/record/problem.h"
#include "core/tasks/standard_certificate.h"

namespace spanwright {

struct TypedFinding {
  Date foundOn;
  std::string certificate;  ///< that reports it; may be empty
  std::string lastGood;     ///< number of the last good certificate where the person decides it; else empty
  std::string remark;
  std::string coverageFactor;
  std::vector<TypedPoint> points;  ///< empty lines are passed over; an uncertainty may be missing

  bool operator==(const TypedFinding&) const = default;
};

enum class FindingField { foundOn, lastGood, coverageFactor, points };

/// One mistake and the field it is in; in the table by Where::line and Where::column, from 1.
struct FindingProblem {
  FindingField field = FindingField::points;
  Problem problem;
};

/// The finding, or everything that is wrong with it for this standard.
std::variant<FoundErrors, std::vector<FindingProblem>> readFinding(const Standard& standard,
                                                                   const TypedFinding& typed);

/// As it would be typed.
TypedFinding typedFinding(const FoundErrors& found);

/// What a certificate of the standard reports, on the day it was issued.
FoundErrors findingOf(const StandardCertificate& certificate);

}  // namespace spanwright
