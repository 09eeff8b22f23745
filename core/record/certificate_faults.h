// SPDX-License-Identifier: GPL-3.0-or-later
//
// What makes a standard's certificate one that can be kept.
#pragma once

#include <string>
#include <vector>

#include "core/record/register.h"

namespace spanwright {

/// What is wrong with a standard's certificate taken by itself, as clauses.
std::vector<std::string> certificateFaults(const StandardCertificate& certificate);

}  // namespace spanwright
