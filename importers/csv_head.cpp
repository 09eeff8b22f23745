// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/csv_head.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/units/text.h"
#include "importers/csv_rejects.h"
#include "importers/toml_reader.h"

namespace spanwright {
namespace {

/// "Applied [mA]" or "Applied (mA)" as name and unit text; the whole heading and nothing when it has no
/// brackets.
std::pair<std::string_view, std::string_view> splitUnit(std::string_view heading) {
  if (heading.empty() || (heading.back() != ']' && heading.back() != ')')) {
    return {heading, {}};
  }
  const auto open = heading.rfind(heading.back() == ']' ? '[' : '(');
  if (open == std::string_view::npos) {
    return {heading, {}};
  }
  return {trimmed(heading.substr(0, open)), trimmed(heading.substr(open + 1, heading.size() - open - 2))};
}

class Binder {
 public:
  Binder(const CsvRecord& record, const CsvMapping& mapping, const std::string& file)
      : mapping_(mapping), file_(file), line_(record.line) {
    for (const auto cell : record.cells) {
      head_.headings.emplace_back(trimmed(cell));
    }
    head_.width = head_.headings.size();
    used_.resize(head_.width, false);
  }

  CsvHead bind() {
    for (std::size_t i = 0; i < kFieldCount; ++i) {
      const auto field = static_cast<Field>(i);
      if (const auto& wanted = mapping_.column(field)) {
        head_.columns[i] = find(*wanted, ruleFor(field));
      }
    }
    for (const WideReading& wanted : mapping_.readings) {
      BoundReading bound{&wanted, std::nullopt, find(wanted.reading, &mapping_.readingUnit)};
      if (wanted.applied) {
        bound.applied = find(*wanted.applied, &mapping_.appliedUnit);
      }
      head_.readings.push_back(std::move(bound));
    }
    for (std::size_t i = 0; i < head_.width; ++i) {
      if (!used_[i] && head_.headings[i] != kRefusedHeading) {
        head_.unnamed.push_back(i);
      }
    }
    if (!problems_.empty()) {
      throw InputError(std::move(problems_));
    }
    return std::move(head_);
  }

 private:
  const UnitRule* ruleFor(Field field) const {
    switch (field) {
      case Field::applied:
      case Field::appliedFound:
      case Field::appliedLeft:
        return &mapping_.appliedUnit;
      case Field::reading:
      case Field::readingFound:
      case Field::readingLeft:
        return &mapping_.readingUnit;
      default:
        return nullptr;
    }
  }

  void problem(std::size_t index, const std::string& heading, std::string what, std::string todo) {
    problems_.push_back(
        {Where{file_, line_, static_cast<int>(index), heading}, std::move(what), std::move(todo)});
  }

  /// Columns whose heading is `wanted`; by their names without units when none is, and units are in the
  /// headings.
  std::vector<std::size_t> matches(const std::string& wanted, bool unitInHeading) const {
    std::vector<std::size_t> found;
    for (const bool withoutUnit : {false, true}) {
      for (std::size_t i = 0; i < head_.width; ++i) {
        const auto name =
            withoutUnit ? splitUnit(head_.headings[i]).first : std::string_view(head_.headings[i]);
        if (name == wanted) {
          found.push_back(i);
        }
      }
      if (!found.empty() || !unitInHeading) {
        break;
      }
    }
    return found;
  }

  BoundColumn find(const Heading& wanted, const UnitRule* rule) {
    const bool unitInHeading = rule != nullptr && rule->inHeading;
    const auto found = matches(wanted.text, unitInHeading);
    if (found.empty()) {
      problem(0, "",
              fmt::format("no column is headed {}, which line {} of the mapping names", inQuotes(wanted.text),
                          wanted.where.line),
              fmt::format("the headings are {}", allHeadings()));
      return {};
    }
    BoundColumn column{found.front(), head_.headings[found.front()], std::nullopt};
    for (const std::size_t index : found) {
      used_[index] = true;
    }
    if (found.size() > 1) {
      problem(found[1] + 1, column.heading,
              fmt::format("two columns are headed {}, and it cannot be told which is meant",
                          inQuotes(wanted.text)),
              "rename one of them");
    }
    if (unitInHeading) {
      const auto unitText = splitUnit(column.heading).second;
      column.unit = parseUnit(unitText);
      if (!column.unit || unitText.empty()) {
        problem(column.index + 1, column.heading,
                unitText.empty() ? "the heading has no unit"
                                 : fmt::format("{} is not a unit", inQuotes(unitText)),
                "write the unit in brackets as in \"Applied [mA]\", or name it under [units] of the mapping");
      }
    } else if (rule != nullptr) {
      column.unit = rule->unit;
    }
    return column;
  }

  std::string allHeadings() const {
    constexpr std::size_t kShown = 40;
    std::string all;
    for (std::size_t i = 0; i < std::min(kShown, head_.width); ++i) {
      all += (i == 0 ? "" : ", ") + inQuotes(head_.headings[i]);
    }
    return head_.width > kShown ? all + fmt::format(" and {} more", head_.width - kShown) : all;
  }

  const CsvMapping& mapping_;
  const std::string& file_;
  int line_;
  CsvHead head_;
  std::vector<bool> used_;
  std::vector<Problem> problems_;
};

}  // namespace

CsvHead bindHead(const CsvRecord& record, const CsvMapping& mapping, const std::string& file) {
  return Binder(record, mapping, file).bind();
}

void checkNames(const CsvMapping& mapping, const Register& site) {
  std::vector<Problem> problems;
  const auto check = [&problems](bool known, std::string_view kind, const Meaning& meaning) {
    if (!known) {
      problems.push_back({meaning.where,
                          fmt::format("the {} {} is not in the register", kind, inQuotes(meaning.name)),
                          "correct the name in the mapping"});
    }
  };
  if (mapping.channel) {
    check(site.channel(mapping.channel->name) != nullptr, "channel", *mapping.channel);
  }
  if (mapping.person) {
    check(site.person(mapping.person->name) != nullptr, "person", *mapping.person);
  }
  for (const auto& standard : mapping.standards) {
    check(site.standard(standard.name) != nullptr, "standard", standard);
  }
  for (const auto& [word, person] : mapping.personWords) {
    check(site.person(person.name) != nullptr, "person", person);
  }
  for (const auto& [word, standard] : mapping.standardWords) {
    check(site.standard(standard.name) != nullptr, "standard", standard);
  }
  for (const auto& [alias, tag] : mapping.aliases) {
    check(site.channel(tag.name) != nullptr, "channel", tag);
    if (alias != tag.name && site.channel(alias) != nullptr) {
      problems.push_back({tag.where,
                          fmt::format("the alias {} is itself a channel of the register", inQuotes(alias)),
                          "remove the alias; a tag stands for its own channel"});
    }
  }
  if (!problems.empty()) {
    throw InputError(std::move(problems));
  }
}

}  // namespace spanwright
