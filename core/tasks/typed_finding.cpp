// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/typed_finding.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "core/tasks/reach.h"
#include "core/units/number.h"
#include "core/units/text.h"

namespace spanwright {
namespace {

class FindingReader {
 public:
  FindingReader(const Standard& standard, const TypedFinding& typed) : standard_(standard), typed_(typed) {}

  std::variant<FoundErrors, std::vector<FindingProblem>> read() {
    head();
    points();
    if (!typed_.foundOn.is_not_a_date()) {
      lastGood();
    }
    if (!problems_.empty()) {
      return std::move(problems_);
    }
    return std::move(made_);
  }

 private:
  void wrong(FindingField field, Problem problem) { problems_.push_back({field, std::move(problem)}); }

  void head() {
    made_.foundOn = typed_.foundOn;
    made_.certificate = trimmed(typed_.certificate);
    made_.lastGood = trimmed(typed_.lastGood);
    made_.remark = trimmed(typed_.remark);
    if (typed_.foundOn.is_not_a_date()) {
      wrong(FindingField::foundOn, {{}, "the day of the finding is missing", "type it"});
    }
    auto factor = typedNumber(typed_.coverageFactor, "coverage factor k");
    if (auto* problem = std::get_if<Problem>(&factor)) {
      problem->todo = "write it as 2";
      wrong(FindingField::coverageFactor, std::move(*problem));
      return;
    }
    made_.coverageFactor = std::get<double>(factor);
    if (made_.coverageFactor < kLeastFactor || made_.coverageFactor > kLargestFactor) {
      wrong(FindingField::coverageFactor,
            {{},
             fmt::format("the coverage factor k is {}", formatShortest(made_.coverageFactor)),
             fmt::format("write the one of the certificate, from {} to {}", formatShortest(kLeastFactor),
                         formatShortest(kLargestFactor))});
    }
  }

  void points() {
    std::vector<Problem> wrongPoints;
    made_.ranges = readPoints(typed_.points, StatedUncertainty::maybe, wrongPoints);
    if (made_.ranges.empty() && wrongPoints.empty()) {
      wrongPoints.push_back(
          {{{}, 1, 0, {}},
           "nothing says what the standard was found to be",
           "type or paste unit, value and error, or choose the certificate that reports it"});
    }
    for (Problem& each : wrongPoints) {
      wrong(FindingField::points, std::move(each));
    }
    std::vector<Unit> told;
    for (const CertificateRange& range : made_.ranges) {
      auto fault = unitFault(standard_, range.unit);
      if (fault && std::find(told.begin(), told.end(), range.unit) == told.end()) {
        told.push_back(range.unit);
        fault->where = {{}, lineOf(range.unit), 1, {}};
        wrong(FindingField::points, std::move(*fault));
      }
    }
  }

  /// The first line of the table that names this unit.
  int lineOf(Unit unit) const {
    const auto at = std::find_if(typed_.points.begin(), typed_.points.end(), [unit](const TypedPoint& each) {
      return parseUnit(trimmed(each.unit)) == unit;
    });
    return static_cast<int>(at - typed_.points.begin()) + 1;
  }

  void lastGood() {
    try {
      lastGoodCertificate(standard_, made_);
    } catch (const InputError& refused) {
      Problem problem = refused.problems().front();
      problem.todo = "choose another one, or leave it to the program";
      wrong(FindingField::lastGood, std::move(problem));
    }
  }

  const Standard& standard_;
  const TypedFinding& typed_;
  FoundErrors made_;
  std::vector<FindingProblem> problems_;
};

}  // namespace

std::variant<FoundErrors, std::vector<FindingProblem>> readFinding(const Standard& standard,
                                                                   const TypedFinding& typed) {
  return FindingReader(standard, typed).read();
}

TypedFinding typedFinding(const FoundErrors& found) {
  return {found.foundOn,
          found.certificate,
          found.lastGood,
          found.remark,
          formatShortest(found.coverageFactor),
          typedPoints(found.ranges)};
}

FoundErrors findingOf(const StandardCertificate& certificate) {
  FoundErrors found;
  found.foundOn = certificate.issued;
  found.certificate = certificate.number;
  found.coverageFactor = certificate.coverageFactor;
  found.ranges = certificate.ranges;
  return found;
}

}  // namespace spanwright
