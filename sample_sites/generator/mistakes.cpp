// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/mistakes.h"

#include <algorithm>
#include <stdexcept>

#include "sample_sites/generator/sources.h"
#include "sample_sites/generator/text.h"

namespace spanwright::sample {

namespace {

/// The last channel visit to `tag`, cut to its first three readings and moved to a free day in October 2026.
Visit visitTo(const History& history, const std::string& tag, unsigned dayOfMonth) {
  const auto found = std::find_if(history.visits.rbegin(), history.visits.rend(), [&](const Visit& visit) {
    return visit.channel == tag && visit.subject == "channel" && visit.skipped.empty();
  });
  if (found == history.visits.rend()) {
    throw std::runtime_error("no visit to " + tag + " to make a mistake in");
  }
  Visit visit = *found;
  visit.performed = when(2026, 10, dayOfMonth, 10, 20);
  visit.person = "mtolland";
  visit.found.resize(3);
  visit.left.clear();
  visit.adjusted = false;
  visit.adjustment.clear();
  visit.remarks.clear();
  return visit;
}

/// Writes visits one below the other and notes what is wrong with each.
class Pages {
 public:
  Pages() { sheet_.expected = "mistake,first_line,last_line,line,heading,reason\n"; }

  /// `reading`: the line of the visit (0 first) that holds the mistake, -1 when it is the visit's as a whole.
  void add(const std::string& mistake, const Visit& visit, int reading, const std::string& heading,
           const std::string& reason) {
    const std::string rows = longRows(visit);
    const int count = static_cast<int>(std::count(rows.begin(), rows.end(), '\n'));
    sheet_.csv += rows;
    const std::string line = reading < 0 ? "" : std::to_string(next_ + reading);
    sheet_.expected += joined({cell(mistake, ','), std::to_string(next_), std::to_string(next_ + count - 1),
                               line, heading, cell(reason, ',')},
                              ",") +
                       "\n";
    next_ += count;
  }

  MistakeSheet take() {
    sheet_.csv.insert(0, longHeading());
    return std::move(sheet_);
  }

 private:
  MistakeSheet sheet_;
  int next_ = 2;  // below the heading
};

void namesAndDates(const History& history, Pages& sheet) {
  Visit visit = visitTo(history, "PT-111", 19);
  visit.channel = "PT-11I";
  sheet.add("wrong tag", visit, 0, "Tag", "PT-11I");

  visit = visitTo(history, "VT-116", 19);
  const auto known = std::find_if(history.visits.rbegin(), history.visits.rend(),
                                  [](const Visit& each) { return each.channel == "VT-116"; });
  visit.performed = known->performed;
  visit.found[1].reading = "25.31";
  sheet.add("the same visit again with another reading", visit, -1, "", "already");

  visit = visitTo(history, "TT-401", 20);
  visit.performed = when(2027, 1, 12, 10, 20);
  sheet.add("a date in the future", visit, -1, "", "future");

  visit = visitTo(history, "TV-121", 20);
  visit.standards = {"MM-2195"};
  sheet.add("a standard whose certificate ran out", visit, -1, "", "MM-2195");

  visit = visitTo(history, "MT-206", 21);
  visit.performed = when(2024, 6, 12, 10, 20);
  visit.standards = {"LC-2201"};
  sheet.add("a setup that was not in force then", visit, -1, "", "setup");

  visit = visitTo(history, "SC-122", 21);
  visit.person = "jfenwick";
  sheet.add("someone who had left", visit, -1, "", "jfenwick");
}

void values(const History& history, Pages& sheet) {
  Visit visit = visitTo(history, "TT-102", 22);
  visit.found[2].reading = "412.00";
  sheet.add("a reading the converter cannot give", visit, 2, "Reading", "cannot be");

  visit = visitTo(history, "FT-313", 22);
  visit.found[1].applied = "50.000";  // meant 5.000: the point at 25 %
  sheet.add("decimal point moved in what was applied", visit, 1, "Applied", "too far");

  visit = visitTo(history, "PT-207", 23);
  visit.found[2].applied = "21.000";  // meant 12.000
  sheet.add("digits swapped", visit, 2, "Applied", "too far");

  visit = visitTo(history, "TE-103", 23);
  std::erase(visit.found[2].reading, '.');
  sheet.add("decimal point lost", visit, 2, "Reading", "cannot be");

  visit = visitTo(history, "QT-403", 26);
  visit.found[0].appliedUnit = "V";
  sheet.add("wrong unit", visit, 0, "Applied", "in V");

  visit = visitTo(history, "FT-114", 26);
  visit.found[1].reading = "nan";
  visit.found[1].readingUnit = "count";  // no unit behind it
  sheet.add("not a number", visit, 1, "Reading", "not a number");

  visit = visitTo(history, "QT-404", 27);
  visit.adjusted = true;
  visit.adjustment = "zero trimmed";
  sheet.add("adjusted but nothing read afterwards", visit, -1, "", "no as-left");
}

}  // namespace

MistakeSheet larkmeadMistakes(const History& history) {
  Pages sheet;
  namesAndDates(history, sheet);
  values(history, sheet);
  return sheet.take();
}

}  // namespace spanwright::sample
