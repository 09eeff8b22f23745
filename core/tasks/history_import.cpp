// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/history_import.h"
