// SPDX-License-Identifier: GPL-3.0-or-later
//
// Frozen: what version 3 adds. A plan may say how well the reference junction of a
// couple fed with mV is known, and what leads may add to a resistance; both are nothing in older plans.
#include "core/store/migrations/migrations.h"

namespace spanwright::migration {

const char* const kVersion3 = R"sql(
ALTER TABLE plan ADD COLUMN junction_uncertainty REAL;  -- K, expanded, k = 2
ALTER TABLE plan ADD COLUMN lead_half_width REAL;       -- ohm
)sql";

}  // namespace spanwright::migration
