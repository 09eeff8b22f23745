// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/standard_certificate.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "core/record/certificate_faults.h"
#include "core/units/number.h"
#include "core/units/text.h"
#include "core/units/unit.h"

namespace spanwright {
namespace {

class PointReader {
 public:
  PointReader(StatedUncertainty uncertainty, std::vector<Problem>& problems)
      : mayBeMissing_(uncertainty == StatedUncertainty::maybe), problems_(problems) {}

  std::vector<CertificateRange> read(const std::vector<TypedPoint>& points) {
    int line = 0;
    for (const TypedPoint& point : points) {
      ++line;
      if (!point.empty()) {
        take(point, line);
      }
    }
    for (CertificateRange& range : ranges_) {
      std::stable_sort(range.points.begin(), range.points.end(),
                       [](const auto& a, const auto& b) { return a.nominal < b.nominal; });
      const auto twice =
          std::adjacent_find(range.points.begin(), range.points.end(),
                             [](const auto& a, const auto& b) { return a.nominal == b.nominal; });
      if (twice != range.points.end()) {
        wrong(0, 0,
              fmt::format("the point {} {} stands in the table twice", formatShortest(twice->nominal),
                          displaySymbol(range.unit)),
              "leave one of them out");
      }
    }
    return std::move(ranges_);
  }

 private:
  enum Column { kUnit = 1, kResolution, kNominal, kError, kUncertainty };

  void wrong(int line, int column, std::string what, std::string todo) {
    problems_.push_back({{{}, line, column, {}}, std::move(what), std::move(todo)});
  }

  std::optional<double> number(std::string_view text, int line, Column column, std::string_view what) {
    auto read = typedNumber(text, what);
    if (auto* problem = std::get_if<Problem>(&read)) {
      wrong(line, column, std::move(problem->what), std::move(problem->todo));
      return std::nullopt;
    }
    return std::get<double>(read);
  }

  void takeUnit(std::string_view text, int line) {
    if (!text.empty()) {
      unitGiven_ = true;
      unit_ = parseUnit(text);
      if (!unit_) {
        wrong(line, kUnit, fmt::format("the unit \"{}\" is not known", text),
              "write it as mA, V, mV, ohm or degC");
      }
    } else if (!unitGiven_) {
      wrong(line, kUnit, "the unit is missing", "write it on the first line, as mA, V, mV, ohm or degC");
    }
  }

  std::optional<double> uncertaintyOf(const TypedPoint& point, int line) {
    if (mayBeMissing_ && trimmed(point.uncertainty).empty()) {
      return 0.0;
    }
    const auto uncertainty = number(point.uncertainty, line, kUncertainty, "uncertainty");
    if (uncertainty && *uncertainty <= 0.0) {
      wrong(line, kUncertainty,
            fmt::format("the uncertainty {} is not above zero", formatShortest(*uncertainty)),
            "write the expanded uncertainty of the certificate");
    }
    return uncertainty;
  }

  void take(const TypedPoint& point, int line) {
    takeUnit(trimmed(point.unit), line);
    if (!trimmed(point.resolution).empty()) {
      resolution_ = number(point.resolution, line, kResolution, "resolution").value_or(0.0);
      if (resolution_ < 0.0) {
        wrong(line, kResolution, "the resolution is below zero", "write the last digit's step, or 0");
      }
    }
    const auto nominal = number(point.nominal, line, kNominal, "nominal value");
    const auto error = number(point.error, line, kError, "error");
    const auto uncertainty = uncertaintyOf(point, line);
    if (!unit_ || !nominal || !error || !uncertainty) {
      return;
    }
    if (ranges_.empty() || ranges_.back().unit != *unit_ || ranges_.back().resolution != resolution_) {
      ranges_.push_back({*unit_, resolution_, {}});
    }
    ranges_.back().points.push_back({*nominal, *error, *uncertainty});
  }

  bool mayBeMissing_;
  std::vector<Problem>& problems_;
  std::vector<CertificateRange> ranges_;
  std::optional<Unit> unit_;
  bool unitGiven_ = false;
  double resolution_ = 0.0;
};

class CertificateReader {
 public:
  explicit CertificateReader(const TypedCertificate& typed) : typed_(typed) {}

  std::variant<StandardCertificate, std::vector<Problem>> read() {
    head();
    made_.ranges = readPoints(typed_.points, StatedUncertainty::always, problems_);
    if (made_.ranges.empty() && problems_.empty()) {
      wrong("the certificate has no points", "type or paste its table of errors and uncertainties");
    }
    if (problems_.empty()) {
      for (const std::string& fault : certificateFaults(made_)) {
        wrong(fault, "correct it");
      }
    }
    if (!problems_.empty()) {
      return std::move(problems_);
    }
    return std::move(made_);
  }

 private:
  void wrong(std::string what, std::string todo) {
    problems_.push_back({{}, std::move(what), std::move(todo)});
  }

  void head() {
    made_.number = trimmed(typed_.number);
    made_.issuer = trimmed(typed_.issuer);
    made_.traceability = trimmed(typed_.traceability);
    made_.issued = typed_.issued;
    made_.validFrom = typed_.validFrom;
    made_.validUntil = typed_.validUntil;
    if (made_.number.empty()) {
      wrong("the certificate has no number", "type the number that stands on it");
    }
    if (made_.issuer.empty()) {
      wrong("the certificate has no issuer", "type who issued it");
    }
    auto factor = typedNumber(typed_.coverageFactor, "coverage factor k");
    if (auto* problem = std::get_if<Problem>(&factor)) {
      problems_.push_back(std::move(*problem));
    } else {
      made_.coverageFactor = std::get<double>(factor);
    }
  }

  const TypedCertificate& typed_;
  StandardCertificate made_;
  std::vector<Problem> problems_;
};

std::vector<std::string> cellsOf(std::string_view line) {
  const char sign = line.find('\t') != std::string_view::npos ? '\t' : ';';
  std::vector<std::string> cells;
  for (std::size_t from = 0; from <= line.size();) {
    const std::size_t to = std::min(line.find(sign, from), line.size());
    cells.emplace_back(trimmed(line.substr(from, to - from)));
    from = to + 1;
  }
  return cells;
}

bool holdsNumber(const std::vector<std::string>& cells) {
  return std::any_of(cells.begin(), cells.end(), [](const std::string& cell) {
    return parseNumber(cell, DecimalSign::either).has_value();
  });
}

}  // namespace

bool TypedPoint::empty() const {
  const auto blank = [](const std::string& each) { return trimmed(each).empty(); };
  return blank(unit) && blank(resolution) && blank(nominal) && blank(error) && blank(uncertainty);
}

std::variant<double, Problem> typedNumber(std::string_view text, std::string_view what) {
  if (const auto parsed = parseNumber(text, DecimalSign::either)) {
    return parsed->value;
  }
  return Problem{{},
                 trimmed(text).empty() ? fmt::format("the {} is missing", what)
                                       : fmt::format("the {} \"{}\" is not a number", what, trimmed(text)),
                 "write it as 0.0012"};
}

std::vector<CertificateRange> readPoints(const std::vector<TypedPoint>& points, StatedUncertainty uncertainty,
                                         std::vector<Problem>& problems) {
  return PointReader(uncertainty, problems).read(points);
}

std::vector<TypedPoint> typedPoints(const std::vector<CertificateRange>& ranges) {
  std::vector<TypedPoint> typed;
  for (const CertificateRange& range : ranges) {
    for (const CertificatePoint& point : range.points) {
      const bool first = &point == range.points.data();
      typed.push_back({first ? std::string(displaySymbol(range.unit)) : std::string(),
                       first ? formatShortest(range.resolution) : std::string(),
                       formatShortest(point.nominal), formatShortest(point.error),
                       point.uncertainty > 0.0 ? formatShortest(point.uncertainty) : std::string()});
    }
  }
  return typed;
}

std::variant<StandardCertificate, std::vector<Problem>> readCertificate(const TypedCertificate& typed) {
  return CertificateReader(typed).read();
}

void addCertificate(Store& store, std::string_view standard, const TypedCertificate& typed,
                    std::string_view person) {
  auto read = readCertificate(typed);
  if (auto* problems = std::get_if<std::vector<Problem>>(&read)) {
    throw InputError(std::move(*problems));
  }
  store.actAs(std::string(person));
  try {
    store.addStandardCertificate(standard, std::get<StandardCertificate>(read));
  } catch (...) {
    store.actAs({});
    throw;
  }
  store.actAs({});
}

std::vector<TypedPoint> pastedPoints(std::string_view text) {
  std::vector<TypedPoint> points;
  bool first = true;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = std::min(text.find('\n', from), text.size());
    const std::string_view line = text.substr(from, to - from);
    from = to + 1;
    if (trimmed(line).empty()) {
      continue;
    }
    std::vector<std::string> cells = cellsOf(line);
    if (std::exchange(first, false) && !holdsNumber(cells)) {
      continue;
    }
    if (cells.size() == 3) {
      cells.insert(cells.begin(), 2, "");
    } else if (cells.size() == 4) {
      cells.insert(cells.begin() + 1, "");
    }
    cells.resize(5);
    points.push_back({cells[0], cells[1], cells[2], cells[3], cells[4]});
  }
  return points;
}

}  // namespace spanwright
