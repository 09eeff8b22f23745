// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a sheet says that is taken along on a round, however it is drawn: in words, as it is to be printed.
#pragma once

#include <string>
#include <vector>

#include "core/certificate/certificate.h"

namespace spanwright {

struct RoundSheetPoint {
  std::string label;      ///< "25 % up"
  std::string applied;    ///< what to apply or command, with its unit
  std::string expected;   ///< the reading; empty when none is expected
  std::string low, high;  ///< the readings that are still within tolerance; empty where there is no limit
  std::string previous;  ///< reading as left last time and its error: "37.6 (+0.1)"; empty when there is none
};

/// One subject of one channel.
struct RoundSheetItem {
  std::string tag, title;
  std::string subject;              ///< "channel", "sensor", "loop"
  std::vector<LabelledText> facts;  ///< place, terminal, setup, plan ...
  std::vector<std::string> cautions;
  std::string readingUnit;
  std::string previous;  ///< of which calibration the column of previous values is, or why there is none
  std::vector<RoundSheetPoint> points;
  bool junction = false;  ///< mV of a couple may be fed or measured: the terminals' temperature belongs to it
  std::string problem;    ///< why there are no points, one sentence; else empty
};

struct RoundSheet {
  std::string title;  ///< "Round 3: after LC-2202"
  std::string site;
  std::string note;                   ///< of the site
  std::string day;                    ///< "2026-12-02", or empty: to be written in
  std::string technician;             ///< name, or empty
  std::vector<std::string> take;      ///< standards, each in one line
  std::vector<RoundSheetItem> items;  ///< in walking order
  std::string programVersion;
};

/// The sentences that stand before everything else on every sheet: the program does not say that work is
/// safe.
std::vector<std::string> sheetCautions();

}  // namespace spanwright
