// SPDX-License-Identifier: GPL-3.0-or-later
//
// A unit's digest from its rows, from wherever they come, and how rows differ from what the journal knew.
#pragma once

#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/covered.h"

namespace spanwright {

/// Takes a unit's rows one after the other, in the order covered.h gives.
class UnitDigesting {
 public:
  /// `row` as RowForm writes it; `place` says to people which one it is.
  void add(std::string_view row, std::string place);
  /// Nothing when no row was added. Ends it.
  std::optional<UnitDigest> finish();

 private:
  UnitDigest unit_;
  DigestOver over_;
};

/// What stands for the content of an attachment in unitJson -> the content.
using ContentOf = std::function<std::string(const nlohmann::ordered_json& reference)>;

/// The same digest from rows as unitJson writes them. std::runtime_error with a clause when `rows` are not
/// rows of such a unit: a table or column too many or missing, a value that no row holds.
UnitDigest unitDigest(const CoveredUnit& unit, const nlohmann::ordered_json& rows, const ContentOf& content);

/// How rows differ from those an entry of the journal knew by `rows` (UnitDigest::rows), each a clause: "the
/// row "reading as left 3" was changed". Empty when they are the same.
std::vector<std::string> rowChanges(std::string_view rows, const std::optional<UnitDigest>& unit);

}  // namespace spanwright
