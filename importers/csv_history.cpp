// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/csv_history.h"
