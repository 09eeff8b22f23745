// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "cli/commands/calc/calculations.h"
#include "cli/commands/calc/data_file.h"
#include "cli/commands/calc/typed.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/record/problem.h"

namespace spanwright {

namespace {

/// Segments in the order in which they first appear, each with its name.
struct NamedSegments {
  std::vector<std::string> names;
  std::vector<Segment> segments;

  Segment& named(const std::string& name) {
    const auto at = std::find(names.begin(), names.end(), name);
    const auto index = static_cast<std::size_t>(at - names.begin());
    if (at == names.end()) {
      names.push_back(name);
      segments.emplace_back();
    }
    return segments[index];
  }
};

NamedSegments readSegments(const std::string& file) {
  DataFile data(file, {"time", "error"}, {"segment"});
  NamedSegments read;
  for (std::size_t row = 0; row < data.rows(); ++row) {
    read.named(data.text(row, "segment"))
        .readings.push_back({data.number(row, "time"), data.number(row, "error"), false});
  }
  data.finish();
  for (Segment& segment : read.segments) {
    std::stable_sort(segment.readings.begin(), segment.readings.end(),
                     [](const DriftReading& a, const DriftReading& b) { return a.time < b.time; });
    segment.startTime = segment.readings.front().time;
  }
  return read;
}

class FitCalculation : public Calculation {
 public:
  std::string name() const override { return "fit"; }
  std::string description() const override {
    return "one drift rate through readings in segments, with the next reading's band";
  }
  void declare(CLI::App& app) override {
    app.add_option("DATA", file_, "a file with the columns time, error and, if there are breaks, segment")
        ->required();
    app.add_option("--at", at_, "predict the next reading at this time, in the last segment of the file");
    app.add_option("--confidence", confidence_, "of the band, between 0 and 1 (default 0.95)");
    app.add_flag("--through-zero", throughZero_, "every segment's error is zero at time 0");
  }
  int execute(const Surroundings& surroundings, bool json) override {
    const double confidence = typedNumber("--confidence", confidence_);
    if (!(confidence > 0.0 && confidence < 1.0)) {
      throw InputError(fmt::format("--confidence: {} is not between 0 and 1", confidence_), "95 % is 0.95");
    }
    const NamedSegments data = readSegments(file_);
    const auto fit = throughZero_ ? fitDriftThroughZero(data.segments) : fitDrift(data.segments);
    if (!fit) {
      throw InputError(
          "no rate can be told from these readings",
          throughZero_ ? "at least one reading away from time 0 is needed, and no number beyond 1e150"
                       : "two readings at different times in one segment are needed, and no number beyond "
                         "1e150",
          {file_, 0, 0, ""});
    }
    std::optional<Prediction> prediction;
    if (!at_.empty()) {
      prediction = predict(*fit, typedNumber("--at", at_), confidence);
    }
    json ? printDocument(surroundings, data, *fit, prediction)
         : printTable(surroundings, data, *fit, prediction, confidence);
    return kDone;
  }

 private:
  static void printDocument(const Surroundings& surroundings, const NamedSegments& data, const DriftFit& fit,
                            const std::optional<Prediction>& prediction) {
    Json document{{"rate", fit.rate},
                  {"rate_standard_error", orNull(fit.rateStandardError)},
                  {"intercepts", fit.intercepts},
                  {"intercept_standard_errors", Json::array()},
                  {"residual_sd", orNull(fit.residualSd)},
                  {"degrees_of_freedom", fit.degreesOfFreedom},
                  {"r_squared", orNull(fit.rSquared)},
                  {"robust_rate", orNull(fit.robustRate)},
                  {"readings", fit.readings},
                  {"segments", data.names}};
    for (std::size_t i = 0; i < fit.intercepts.size(); ++i) {
      document["intercept_standard_errors"].push_back(
          fit.interceptStandardErrors.empty() ? Json(nullptr) : Json(fit.interceptStandardErrors[i]));
    }
    document["prediction"] = prediction ? Json{{"at", prediction->time},
                                               {"value", prediction->value},
                                               {"low", orNull(prediction->low)},
                                               {"high", orNull(prediction->high)}}
                                        : Json(nullptr);
    printJson(surroundings, document);
  }

  static void printTable(const Surroundings& surroundings, const NamedSegments& data, const DriftFit& fit,
                         const std::optional<Prediction>& prediction, double confidence) {
    const auto shown = [](std::optional<double> value) {
      return value ? formatSignificant(*value, 6) : std::string();
    };
    Table table({{"quantity"}, {"value", kRight}, {"std. error", kRight}});
    table.add({"rate, per unit of time", shown(fit.rate), shown(fit.rateStandardError)});
    table.add({"robust rate", shown(fit.robustRate), ""});
    for (std::size_t i = 0; i < fit.intercepts.size(); ++i) {
      const std::string segment = data.names[i].empty() ? "" : fmt::format(", segment {}", data.names[i]);
      table.add({"error at time 0" + segment, shown(fit.intercepts[i]),
                 fit.interceptStandardErrors.empty() ? "" : shown(fit.interceptStandardErrors[i])});
    }
    table.add({"scatter", shown(fit.residualSd), ""});
    table.add({"degrees of freedom", std::to_string(fit.degreesOfFreedom), ""});
    table.add({"R squared", shown(fit.rSquared), ""});
    if (prediction) {
      table.add({fmt::format("next reading at {}", formatShortest(prediction->time)),
                 shown(prediction->value), ""});
      if (prediction->low) {
        const std::string percent = shownNumber(100.0 * confidence, 4);
        table.add({fmt::format("{} % band, low", percent), shown(prediction->low), ""});
        table.add({fmt::format("{} % band, high", percent), shown(prediction->high), ""});
      }
    }
    table.print(surroundings.out);
    if (!fit.residualSd) {
      surroundings.out
          << "Too few readings to tell the scatter, so there are no standard errors and no band.\n";
    }
  }

  std::string file_, at_;
  std::string confidence_ = "0.95";
  bool throughZero_ = false;
};

}  // namespace

std::unique_ptr<Calculation> fitCalculation() {
  return std::make_unique<FitCalculation>();
}

}  // namespace spanwright
