// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/visit_file.h"
