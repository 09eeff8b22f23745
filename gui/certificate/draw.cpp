// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/draw.h"
