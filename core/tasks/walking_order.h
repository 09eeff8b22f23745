// SPDX-License-Identifier: GPL-3.0-or-later
//
// The order in which a person walks past the channels of a site.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "core/record/register.h"

namespace spanwright {

/// Rank of every place by its path: a place before what is in it, children by their own order. A place whose
/// parent is not there comes last.
std::map<std::string, int, std::less<>> placeRanks(const Register& site);

/// Rank of every channel by its tag: by place, within one as the register lists them.
std::map<std::string, int, std::less<>> channelRanks(const Register& site);

}  // namespace spanwright
