// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/place_readings.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

#include "core/tasks/visit.h"
#include "core/units/text.h"

namespace spanwright {
namespace {

class Placing {
 public:
  Placing(const VisitSheet& sheet, Phase phase, DecimalSign sign, bool historic)
      : sheet_(sheet), phase_(phase), sign_(sign), historic_(historic) {}

  PlacedReadings run(const std::vector<ProposedReading>& proposed) {
    for (const ProposedReading& reading : proposed) {
      const TestPoint* point = locate(reading);
      if (point == nullptr) {
        ++notPlaced_;
        continue;
      }
      taken_.push_back(point->sequence);
      auto judged = judge(sheet_, *point, reading.typed, {}, sign_);
      if (const auto* trouble = std::get_if<TypedProblem>(&judged)) {
        add(fmt::format("{}, {}: {}", text(phase_), point->label, trouble->what), trouble->todo,
            reading.placeOf(trouble->inApplied));
      } else {
        result_.readings.push_back(std::get<Reading>(std::move(judged)));
      }
    }
    std::sort(result_.readings.begin(), result_.readings.end(),
              [](const Reading& a, const Reading& b) { return a.point.sequence < b.point.sequence; });
    if (tooMany_ > 0) {
      add(fmt::format("{} has {} more than the {} of plan {}", text(phase_),
                      tooMany_ == 1 ? "1 reading" : fmt::format("{} readings", tooMany_),
                      sheet_.points.size() == 1 ? "1 point" : fmt::format("{} points", sheet_.points.size()),
                      sheet_.plan->code),
          "leave out what does not belong to the plan", firstTooMany_);
    }
    if (!historic_ && !proposed.empty()) {
      checkMissing();
    }
    return std::move(result_);
  }

 private:
  void add(std::string what, std::string todo, const Where& where = {}) {
    result_.problems.push_back({where, std::move(what), std::move(todo)});
  }

  void checkMissing() {
    std::vector<std::string> missing;
    for (const TestPoint& point : sheet_.points) {
      if (std::find(taken_.begin(), taken_.end(), point.sequence) == taken_.end()) {
        missing.push_back(point.label);
      }
    }
    // A reading that found no point of its own has been reported already and is likely one of these.
    if (missing.size() > static_cast<std::size_t>(notPlaced_)) {
      add(fmt::format("{} lacks {} of {} points: {}", text(phase_), missing.size(), sheet_.points.size(),
                      fmt::join(missing, ", ")),
          "give each a reading, or the reason why it was skipped");
    }
  }

  /// The sheet's point a reading is for; nullptr after saying why there is none.
  const TestPoint* locate(const ProposedReading& reading) {
    if (reading.sequence > 0) {
      return bySequence(reading);
    }
    if (!trimmed(reading.key).empty()) {
      return byKey(reading);
    }
    if (const auto applied = appliedOf(reading)) {
      return byApplied(reading, *applied);
    }
    return inOrder(reading);
  }

  const TestPoint* bySequence(const ProposedReading& reading) {
    const auto& points = sheet_.points;
    if (static_cast<std::size_t>(reading.sequence) > points.size()) {
      add(fmt::format("{} has a reading for line {}, but plan {} has {} lines", text(phase_),
                      reading.sequence, sheet_.plan->code, points.size()),
          "leave it out, or open the sheet anew if the plan was changed", reading.where);
      return nullptr;
    }
    const TestPoint& point = points[static_cast<std::size_t>(reading.sequence) - 1];
    if (std::find(taken_.begin(), taken_.end(), point.sequence) != taken_.end()) {
      addTwice(point.label, reading.where);
      return nullptr;
    }
    return &point;
  }

  const TestPoint* byKey(const ProposedReading& reading) {
    const auto find = [&](const std::vector<int>& taken) {
      return matchPoint(sheet_.points, taken, *sheet_.model, std::string_view(reading.key), std::nullopt,
                        reading.direction);
    };
    if (const TestPoint* point = find(taken_)) {
      return point;
    }
    if (const TestPoint* point = find({})) {
      addTwice(point->label, reading.where);
      return nullptr;
    }
    const std::string_view direction = text(reading.direction);
    add(fmt::format("{}: \"{}\"{}{} is not a point of plan {}", text(phase_), trimmed(reading.key),
                    direction.empty() ? "" : " ", direction, sheet_.plan->code),
        fmt::format("its points are {}", fmt::join(pointLabels(), ", ")), reading.where);
    return nullptr;
  }

  const TestPoint* byApplied(const ProposedReading& reading, double applied) {
    const auto find = [&](const std::vector<int>& taken) {
      return matchPoint(sheet_.points, taken, *sheet_.model, std::nullopt, applied, reading.direction);
    };
    if (const TestPoint* point = find(taken_)) {
      return point;
    }
    if (const TestPoint* point = find({})) {
      addTwice(point->label, reading.where);
      return nullptr;
    }
    add(fmt::format("{}: no point of plan {} is applied at \"{}\"", text(phase_), sheet_.plan->code,
                    trimmed(reading.typed.appliedText)),
        "correct the applied value, or name the point", reading.where);
    return nullptr;
  }

  const TestPoint* inOrder(const ProposedReading& reading) {
    for (const TestPoint& point : sheet_.points) {
      const bool free = std::find(taken_.begin(), taken_.end(), point.sequence) == taken_.end();
      if (free && (reading.direction == Direction::none || reading.direction == point.direction)) {
        return &point;
      }
    }
    if (tooMany_++ == 0) {
      firstTooMany_ = reading.where;
    }
    return nullptr;
  }

  void addTwice(const std::string& label, const Where& where) {
    add(fmt::format("{}: {} is given twice", text(phase_), label), "leave one of them out", where);
  }

  /// The applied value when it was typed and can tell the point; what cannot be understood is reported by
  /// judging it.
  std::optional<double> appliedOf(const ProposedReading& reading) const {
    const auto typed = parseQuantity(reading.typed.appliedText, sign_);
    const bool hasValues = std::any_of(sheet_.points.begin(), sheet_.points.end(),
                                       [](const TestPoint& point) { return point.role == PointRole::value; });
    if (!typed || !hasValues) {
      return std::nullopt;
    }
    const Unit own = sheet_.model->appliedSpan().unit;
    if (!typed->unit || *typed->unit == own) {
      return typed->value;
    }
    if (const auto same = convert(typed->value, *typed->unit, own)) {
      return same;
    }
    const Expected result = sheet_.model->normaliseApplied({typed->value, *typed->unit}, sheet_.junction());
    const double* value = std::get_if<double>(&result);
    return value != nullptr ? std::optional(*value) : std::nullopt;
  }

  /// Every point of the plan once, without directions and runs.
  std::vector<std::string> pointLabels() const {
    std::vector<std::string> keys;
    for (const TestPoint& point : sheet_.points) {
      if (std::find(keys.begin(), keys.end(), pointKey(point)) == keys.end()) {
        keys.push_back(pointKey(point));
      }
    }
    return keys;
  }

  const VisitSheet& sheet_;
  const Phase phase_;
  const DecimalSign sign_;
  const bool historic_;
  PlacedReadings result_;
  std::vector<int> taken_;
  int notPlaced_ = 0;
  int tooMany_ = 0;
  Where firstTooMany_;
};

}  // namespace

PlacedReadings placeReadings(const VisitSheet& sheet, const std::vector<ProposedReading>& proposed,
                             Phase phase, DecimalSign sign, bool historic) {
  return Placing(sheet, phase, sign, historic).run(proposed);
}

}  // namespace spanwright
