// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/round_sheet.h"

namespace spanwright {

std::vector<std::string> sheetCautions() {
  return {
      "This sheet does not say that work is safe. Whether it may begin is decided on the spot, by local "
      "codes, the "
      "site's own procedures and licensed or authorised people.",
      "Injecting a signal or forcing an output can move a real machine. Permit and isolation first; loops in "
      "manual "
      "and trips bypassed only under the site's own rules; mind stored energy and live terminals; open "
      "circuits in "
      "hazardous areas only as their certificates allow."};
}

}  // namespace spanwright
