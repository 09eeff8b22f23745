// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/site_file.h"
