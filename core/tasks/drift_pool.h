// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which subjects are alike, and their rates drawn towards each other.
#pragma once

#include <string>
#include <vector>

#include "core/record/register.h"
#include "core/signal/point_model.h"
#include "core/tasks/status.h"

namespace spanwright {

/// Names the kind, type and range family of a subject: subjects with the same text are alike. An analog
/// point's family is its signal range, whatever it is scaled to; a couple's or RTD's its type, wires and
/// range; a threshold's or discrete output's its rated volts. `sensor` may be nullptr for the channel alone.
std::string subjectFamily(Subject subject, const ChannelSetup& setup, const SensorRange* sensor);

/// An item with what pooling needs beside it.
struct PoolEntry {
  DriftItem item;
  std::string family;  ///< empty: is not pooled
  double scale = 1.0;  ///< rates are compared in this many reading units: the reading span of spanned points
  double step = 0.0;   ///< smallest change the reading shows, in reading units
};

/// Fills pooledRate and what belongs to it. Alike are items of one family at the same point in the same unit.
/// Scatter is pooled first (few calibrations tell little about it) and not taken below that of a reading
/// rounded to its step, step^2 / 12.
void poolLikeSubjects(std::vector<PoolEntry>& entries);

}  // namespace spanwright
