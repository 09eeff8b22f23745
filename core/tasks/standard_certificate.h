// SPDX-License-Identifier: GPL-3.0-or-later
//
// A standard's certificate as a person types it, or pastes its table, made into one that can be kept.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/record/problem.h"
#include "core/record/register.h"
#include "core/store/store.h"

namespace spanwright {

/// One line of the table of points. An empty unit or resolution is that of the line above; a line with
/// another unit or resolution begins another range.
struct TypedPoint {
  std::string unit, resolution, nominal, error, uncertainty;
  bool empty() const;
  bool operator==(const TypedPoint&) const = default;
};
struct TypedCertificate {
  std::string number, issuer, traceability;
  Date issued, validFrom, validUntil;
  std::string coverageFactor;
  std::vector<TypedPoint> points;  ///< empty lines are passed over
};

/// A number with a point or a comma; else what is wrong with it as the number of `what`.
std::variant<double, Problem> typedNumber(std::string_view text, std::string_view what);

enum class StatedUncertainty { always, maybe };
/// The ranges of such a table, points in rising order. What is wrong is added to `problems`, with its line of
/// the table and its cell by Where::column, from 1. An uncertainty that may be missing is 0 then.
std::vector<CertificateRange> readPoints(const std::vector<TypedPoint>& points, StatedUncertainty uncertainty,
                                         std::vector<Problem>& problems);
/// The table of these ranges, as it would be typed.
std::vector<TypedPoint> typedPoints(const std::vector<CertificateRange>& ranges);

/// The certificate, points in rising order within a range; or everything that is wrong, a line of the table
/// by Where::line. Numbers with a point or a comma. A certificate without points says nothing of the standard
/// and is refused.
std::variant<StandardCertificate, std::vector<Problem>> readCertificate(const TypedCertificate& typed);

/// Keeps it. `person` by login is named in the journal; empty: nobody. InputError with all that is wrong, or
/// when the standard has a certificate of this number.
void addCertificate(Store& store, std::string_view standard, const TypedCertificate& typed,
                    std::string_view person);

/// Lines of a table as it is copied from a spreadsheet or a text: cells parted by tabs, or else by
/// semicolons. Five cells are unit, resolution, nominal, error, uncertainty; four leave out the resolution
/// and three the unit as well. A first line that holds no number is taken for headings and left out.
std::vector<TypedPoint> pastedPoints(std::string_view text);

}  // namespace spanwright
