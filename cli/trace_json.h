// SPDX-License-Identifier: GPL-3.0-or-later
//
// Traces as JSON documents.
#pragma once

#include "cli/common.h"
#include "core/tasks/trace.h"

namespace spanwright {

Json traceJson(const CalibrationTrace& trace);
Json traceJson(const StandardTrace& trace);

}  // namespace spanwright
