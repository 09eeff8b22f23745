// SPDX-License-Identifier: GPL-3.0-or-later
//
// One maker per calculation, so that each class stays in its own file.
#pragma once

#include <memory>

#include "cli/commands/calc/calc.h"

namespace spanwright {}  // namespace spanwright
