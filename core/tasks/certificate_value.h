// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which values of a reading a standard has to vouch for, where they stand on its certificate, and what the
// certificate says there.
#pragma once

#include <optional>
#include <vector>

#include "core/tasks/visit.h"

namespace spanwright {

/// A value that a standard has to vouch for: what it applied, or what it measured.
struct MeasuredValue {
  double value = 0.0;
  Unit unit = Unit::none;
  bool applied = false;
  /// What it was told in, when that is another quantity (mV for a temperature); a certificate's range of this
  /// quantity comes before its others.
  Unit toldIn = Unit::none;
};

/// What the standards measure at a reading: the applied value at inputs, the observed one at outputs, switch
/// points and states, both at a sensor whose output is electrical.
std::vector<MeasuredValue> measuredValues(const VisitSheet& sheet, const Reading& reading);

/// Can this certificate vouch for such values at all, whatever their size?
bool coversUnit(const VisitSheet& sheet, const StandardCertificate& certificate, const MeasuredValue& value);
/// And for this one: inside a range's nominal values or up to 5 % of its width beyond them, where the
/// figures of the nearer end are used.
bool coversValue(const VisitSheet& sheet, const StandardCertificate& certificate, const MeasuredValue& value);

/// Where a value stands on one range of a certificate.
struct Placed {
  const CertificateRange* range = nullptr;
  double at = 0.0;  ///< in the range's unit; through the sensor function where that is another quantity
};
/// On the first of the ranges that takes the value and reaches it as coversValue says, those of the quantity
/// it was told in before the others; nothing when none does.
std::optional<Placed> placeOn(const VisitSheet& sheet, const std::vector<CertificateRange>& ranges,
                              const MeasuredValue& value);
/// A figure of the certificate there, linear between its values, the nearer end's beyond them.
double figureAt(const Placed& placed, double CertificatePoint::*figure);
/// Is it beyond the outermost values?
bool beyondPoints(const Placed& placed);
/// `at` of the range's unit as a value of `unit`, through the sensor function when they are different
/// quantities.
std::optional<double> fromRange(const VisitSheet& sheet, double at, Unit rangeUnit, Unit unit);

/// One standard range that vouches for a value.
struct Backing {
  const Standard* standard = nullptr;
  const StandardCertificate* certificate = nullptr;
  Placed placed;
};
/// Of several standards whose certificate of the day reaches the value the first named counts.
std::optional<Backing> backingFor(const VisitSheet& sheet, const std::vector<const Standard*>& standards,
                                  const MeasuredValue& value);

/// What a certificate says of the standard's error at a value of `unit`, in that unit; nothing when it does
/// not reach so far.
std::optional<double> errorOn(const StandardCertificate& certificate, double value, Unit unit);

}  // namespace spanwright
