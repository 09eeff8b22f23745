// SPDX-License-Identifier: GPL-3.0-or-later
//
// How each computed number comes about, for the person who reads it: what it is, its formula, and the
// document the formula follows. The headers of core say the same to whoever changes it.
#pragma once

#include <QString>
#include <vector>

namespace spanwright {

/// In the order of a channel's life, which is that of the panel.
enum class Explained {
  expected,
  error,
  limits,
  usedTolerance,
  verdict,
  decision,
  uncertainty,
  uncertaintyRatio,
  advice,
  rate,
  robustRate,
  pooledRate,
  band,
  leavesOn,
  inTolerance,
  finding,
  dueOn,
  proposedInterval,
  outcomes,
  standardUse,
  controlChart,
  planned,
  digest,
};

struct Explanation {
  QString title;
  QString formula;  ///< plain text, lines separated by \n; empty where words say it all
  QString words;
  QString source;  ///< standard and clause, or that the rule is the project's own
};

const std::vector<Explained>& allExplained();
Explanation explanation(Explained what);
/// For a tool tip: title, formula and source, one under the other.
QString shortExplanation(Explained what);
/// All of them as one page of rich text; each begins at the anchor of explanationAnchor.
QString explanationsPage();
QString explanationAnchor(Explained what);

}  // namespace spanwright
