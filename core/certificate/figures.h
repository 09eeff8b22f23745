// SPDX-License-Identifier: GPL-3.0-or-later
//
// How many digits a certificate prints, and what stands in the cells of one row.
#pragma once

#include <optional>
#include <string>

#include "core/certificate/certificate.h"
#include "core/metrology/evaluate.h"

namespace spanwright {

/// Decimals that show `uncertainty` (positive, finite) to two significant digits, never below 0: 0.0123 -> 3,
/// 0.0996 -> 2 (it is 0.10), 123 -> 0. JCGM 100:2008 7.2.6: two significant digits are enough at most.
int uncertaintyDecimals(double uncertainty);
/// The uncertainty rounded to two significant digits: "0.012", "1.2", "120".
std::string uncertaintyText(double uncertainty);

/// Fewest decimals from `least` on that show `value` in full, at most `most`.
int fullDecimals(double value, int least, int most);

/// With sign: "+0.12", "-0.12", "0.00".
std::string signedText(double value, int decimals);

/// "±0.375", "-0.1 to +0.2", "at least -2.0", "at most +1.0", "none"; with at least `decimals` digits and as
/// many more (up to three) as show the limits in full.
std::string limitsText(const ErrorLimits& limits, int decimals);

/// |error| over the limit on its side; infinite for an error on a side whose limit is zero. 0 for none or an
/// open side.
double fractionOfLimit(double error, const ErrorLimits& limits);

/// What a column of one table has in common.
struct RowStyle {
  int appliedDecimals = 0;             ///< for applied values nobody typed
  double step = 0.0;                   ///< of the reading; 0 when not known
  double spanWidth = 0.0;              ///< of the reading, for % of span; 0: the column is left out
  const DecisionRule* rule = nullptr;  ///< by which it was judged, when known
};
CertificateRow certificateRow(const Reading& reading, const RowStyle& style);

/// Decimals of `text` when it is a number for `value` in `unit` (or without unit); nothing when it is not, so
/// that the number printed is never one that was not recorded.
std::optional<int> typedDecimals(const std::string& text, double value, Unit unit);

}  // namespace spanwright
