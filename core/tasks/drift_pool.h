// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which subjects are alike, and their rates and scatter drawn towards each other.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/drift/step.h"
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
  std::string area;    ///< first part of the place: channels of one area live in like surroundings
  double scale = 1.0;  ///< rates are compared in this many reading units: the reading span of spanned points
  bool spansCompared = false;  ///< `scale` is a span, so units need not be the same
  double step = 0.0;           ///< smallest change the reading shows, in reading units
  bool spanned = false;        ///< errors of the subject may be told as a part of its span, whatever its unit
  // Filled by pooling, for core/tasks/drift_findings.h.
  ScatterKnown known = {};  ///< what the group says of the scatter, in reading units
  std::optional<double> scatterPValue = {};
  std::optional<double> ratePValue = {};
};

/// So many of one area, and they form a group of their own: surroundings (heat, vibration, damp) then differ
/// less than in the whole site. A choice of this program, no source.
inline constexpr std::size_t kEnoughInArea = 8;

/// Fills group, pooled rate and band of every item; without pooling, the band of its own readings. Alike are
/// items of one family at the same point, spanned ones in
/// parts of their span and others in the same unit, of one area where it holds kEnoughInArea of them.
/// Items whose scatter grows, or is far above the group's, keep the band of their own readings. Scatter is
/// not taken below that of a reading rounded to its step, step^2 / 12.
void poolLikeSubjects(std::vector<PoolEntry>& entries, Pooling pooling);

}  // namespace spanwright
