// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/visit_problems.h"

#include <utility>

namespace spanwright {

std::optional<VisitPart> partAbout(const QString& what) {
  static const std::pair<const char*, VisitPart> kWords[] = {
      {"caution", VisitPart::cautions},
      {"reference junction", VisitPart::junction},
      {"standard", VisitPart::standards},
      {"the visit's date", VisitPart::when},
      {"no date", VisitPart::when},
      {"technician", VisitPart::person},
      {"person", VisitPart::person},
      {"nobody", VisitPart::person},
      {"before the visit", VisitPart::person},
      {"ambient temperature", VisitPart::conditions},
      {"humidity", VisitPart::conditions},
  };
  for (const auto& [words, part] : kWords) {
    if (what.contains(QLatin1String(words))) {
      return part;
    }
  }
  return std::nullopt;
}

bool aboutWhatWasDone(const QString& what) {
  return what.contains(QStringLiteral("was adjusted")) || what.contains(QStringLiteral("was repaired"));
}

}  // namespace spanwright
