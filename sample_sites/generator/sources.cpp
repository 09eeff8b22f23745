// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/sources.h"

#include <algorithm>
#include <map>

#include "sample_sites/generator/text.h"

namespace spanwright::sample {

namespace {

using Cells = std::vector<std::string>;

std::string row(const Cells& cells, char separator) {
  Cells quotedCells;
  quotedCells.reserve(cells.size());
  for (const std::string& each : cells) {
    quotedCells.push_back(cell(each, separator));
  }
  return joined(quotedCells, std::string(1, separator)) + "\r\n";
}

std::string comma(std::string number) {
  std::replace(number.begin(), number.end(), '.', ',');
  return number;
}

/// "12.000 mA"; counts stand bare, as a display shows them.
std::string withUnit(const std::string& number, const std::string& unit) {
  return number.empty() || unit == "count" ? number : number + " " + unit;
}

// The workshop's sheets, 2018 to 2021: one row per visit, current inputs at five points up and down.

const std::vector<std::pair<std::string, std::string>> kSheetPoints{
    {"0", "up"},     {"25", "up"},   {"50", "up"},   {"75", "up"},   {"100", "up"},
    {"100", "down"}, {"75", "down"}, {"50", "down"}, {"25", "down"}, {"0", "down"}};

std::string german(const std::string& direction) {
  return direction == "up" ? "auf" : "ab";
}

bool onSheet(const Visit& visit) {
  return visit.plan == "AI-5UD" && visit.milliamps && visit.performed < when(2022, 1, 1, 0);
}

std::string sheetHeading() {
  Cells cells{"Blatt", "Messstelle", "Datum", "Prüfer", "Gerät", "Justiert", "Was", "Raum °C", "Feuchte %"};
  for (const auto& [key, direction] : kSheetPoints) {
    cells.push_back("Vorgabe " + key + " " + german(direction) + " [mA]");
    cells.push_back("Gefunden " + key + " " + german(direction));
  }
  for (const auto& [key, direction] : kSheetPoints) {
    cells.push_back("Hinterlassen " + key + " " + german(direction));
  }
  cells.emplace_back("Bemerkung");
  return row(cells, ';');
}

const Line* lineAt(const std::vector<Line>& lines, const std::string& key, const std::string& direction) {
  const auto found = std::find_if(lines.begin(), lines.end(), [&](const Line& line) {
    return line.key == key && line.direction == direction;
  });
  return found == lines.end() ? nullptr : &*found;
}

/// "mtolland" signed the sheets "M. Tolland".
std::string signedAs(const std::string& login) {
  static const std::map<std::string, std::string> names{
      {"mtolland", "M. Tolland"}, {"jfenwick", "J. Fenwick"}, {"ibrandner", "I. Brandner"}};
  return names.at(login);
}

std::string sheetRow(const Visit& visit, int number) {
  // The tag was written another way before the loop drawings were renewed.
  const bool oldTag = visit.channel == "TT-102" && yearOf(visit.performed.day) < 2021;
  Cells cells{padded(number, 4),
              oldTag ? "TT102 alt" : visit.channel,
              germanTime(visit.performed),
              signedAs(visit.person),
              joined(visit.standards, " + "),
              visit.adjusted ? "ja" : "nein",
              visit.adjusted ? "Nullpunkt und Spanne nachgestellt" : "",
              comma(fixedText(visit.temperature, 1)),
              comma(fixedText(visit.humidity, 0))};
  for (const auto& [key, direction] : kSheetPoints) {
    const Line* line = lineAt(visit.found, key, direction);
    cells.push_back(line ? comma(line->applied) : "");
    cells.push_back(line ? comma(line->reading) : "");
  }
  for (const auto& [key, direction] : kSheetPoints) {
    const Line* line = lineAt(visit.left, key, direction);
    cells.push_back(line ? comma(line->reading) : "");
  }
  cells.push_back(visit.skipped.empty() ? "" : visit.skipped.front() + " % nicht geprüft");
  return row(cells, ';');
}

// Everything else up to 2021: one row per reading, bare numbers in the point's own unit.

std::string oldLongRows(const Visit& visit) {
  std::string rows;
  const auto add = [&](const std::vector<Line>& lines, const char* phase) {
    for (const Line& line : lines) {
      rows += row({visit.channel, germanTime(visit.performed), visit.subject, phase, line.key,
                   line.direction == "up"     ? "rising"
                   : line.direction == "down" ? "falling"
                                              : "",
                   comma(line.applied), comma(line.reading), visit.person, joined(visit.standards, " "),
                   visit.adjusted ? "y" : "n", visit.adjustment, comma(fixedText(visit.temperature, 1)),
                   comma(fixedText(visit.humidity, 0)), visit.remarks},
                  ';');
    }
  };
  add(visit.found, "before");
  add(visit.left, "after");
  return rows;
}

void add(SourceFile& file, const Visit& visit, const std::string& rows) {
  file.content += rows;
  file.visits.push_back(&visit);
}

}  // namespace

std::string longHeading() {
  return row({"Tag", "Performed", "Subject", "Phase", "Point", "Direction", "Applied", "Reading",
              "Technician", "Standards", "Adjusted", "Adjustment", "Ambient degC", "Humidity %", "Remarks"},
             ',');
}

std::string longRows(const Visit& visit) {
  std::string rows;
  const auto line = [&](const char* phase, const std::string& key, const std::string& direction,
                        const std::string& applied, const std::string& reading) {
    rows +=
        row({visit.channel, shortIso(visit.performed), visit.subject, phase, key, direction, applied, reading,
             visit.person, joined(visit.standards, " "), visit.adjusted ? "yes" : "no", visit.adjustment,
             fixedText(visit.temperature, 1), fixedText(visit.humidity, 0), visit.remarks},
            ',');
  };
  const auto all = [&](const char* phase, const std::vector<Line>& lines) {
    for (const Line& each : lines) {
      line(phase, each.key, each.direction, withUnit(each.applied, each.appliedUnit),
           withUnit(each.reading, each.readingUnit));
    }
    for (const std::string& key : visit.skipped) {
      for (const std::string& direction : visit.skippedDirections) {
        line(phase, key, direction, "", visit.skipReason);
      }
    }
  };
  all("as found", visit.found);
  if (!visit.left.empty()) {
    all("as left", visit.left);
  }
  return rows;
}

std::vector<SourceFile> larkmeadSources(const History& history) {
  SourceFile sheets{"sheets-2018-2021.csv", "sheets-2018-2021.map.toml", sheetHeading(), {}};
  SourceFile other{"other-2018-2021.csv",
                   "other-2018-2021.map.toml",
                   row({"Loop", "Date", "What", "Phase", "Point %", "Way", "Given", "Shown", "By",
                        "Reference", "Adj", "Adjustment", "Room", "RH", "Notes"},
                       ';'),
                   {}};
  SourceFile recent{"history-2022-2026.csv", "history-2022-2026.map.toml", longHeading(), {}, true};
  for (const Visit& visit : history.visits) {
    if (onSheet(visit)) {
      add(sheets, visit, sheetRow(visit, static_cast<int>(sheets.visits.size()) + 1));
    } else if (visit.performed < when(2022, 1, 1, 0)) {
      add(other, visit, oldLongRows(visit));
    } else {
      add(recent, visit, longRows(visit));
    }
  }
  sheets.content = latin1(sheets.content);
  return {sheets, other, recent};
}

std::vector<SourceFile> tinySources(const History& history) {
  SourceFile file{"history.csv", "history.map.toml", longHeading(), {}, true};
  for (const Visit& visit : history.visits) {
    add(file, visit, longRows(visit));
  }
  return {file};
}

std::string visitToml(const Visit& visit) {
  std::string text = "# A visit of today's kind, for `spanwright record`. Invented, like the site.\n";
  text += "channel = " + quoted(visit.channel) + "\nsubject = " + quoted(visit.subject) +
          "\nperformed = " + isoTime(visit.performed) + "\nperson = " + quoted(visit.person) +
          "\nstandards = [" + quoted(joined(visit.standards, "\", \"")) + "]\ncautions_confirmed = true\n";
  if (visit.adjusted) {
    text += "adjustment = { adjusted = true, text = " + quoted(visit.adjustment) + " }\n";
  }
  text += "conditions = { temperature = " + fixedText(visit.temperature, 1) +
          ", humidity = " + fixedText(visit.humidity, 0) + " }\n";
  const auto readings = [&](const std::string& name, const std::vector<Line>& lines) {
    text += name + " = [\n";
    for (const Line& line : lines) {
      text +=
          "  { point = " + quoted(line.key) +
          (line.direction.empty() ? "" : ", direction = " + quoted(line.direction)) +
          (line.applied.empty() ? "" : ", applied = " + quoted(withUnit(line.applied, line.appliedUnit))) +
          ", reading = " + quoted(withUnit(line.reading, line.readingUnit)) + " },\n";
    }
    text += "]\n";
  };
  readings("as_found", visit.found);
  if (!visit.left.empty()) {
    readings("as_left", visit.left);
  }
  return text;
}

}  // namespace spanwright::sample
