// SPDX-License-Identifier: GPL-3.0-or-later
//
// Words that stand for the same in every file people write; internal to the importers.
#pragma once

#include <string_view>
#include <utility>

#include "core/metrology/test_points.h"

namespace spanwright {

inline constexpr std::pair<std::string_view, Subject> kSubjects[] = {
    {"channel", Subject::channel}, {"sensor", Subject::sensor}, {"loop", Subject::loop}};
inline constexpr std::pair<std::string_view, Direction> kDirections[] = {{"up", Direction::up},
                                                                         {"down", Direction::down}};
/// The bytes some programs begin a UTF-8 file with.
inline constexpr std::string_view kUtf8Mark = "\xEF\xBB\xBF";

}  // namespace spanwright
