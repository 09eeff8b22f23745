// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>
#include <ostream>

#include "cli/commands/calc/calculations.h"
#include "cli/commands/calc/data_file.h"
#include "cli/commands/calc/typed.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/metrology/run_figures.h"
#include "core/record/problem.h"

namespace spanwright {

namespace {

struct Ends {
  double low = 0.0, high = 0.0;
};

Ends typedEnds(const std::string& text) {
  const auto colon = text.find(':');
  if (colon == std::string::npos || text.find(':', colon + 1) != std::string::npos) {
    throw InputError(fmt::format("--span: \"{}\" is not a range", text), "write it as 4:20");
  }
  const Ends ends{typedNumber("--span", text.substr(0, colon)),
                  typedNumber("--span", text.substr(colon + 1))};
  if (ends.low == ends.high) {
    throw InputError("--span: a span needs two ends that differ", "write it as 4:20");
  }
  return ends;
}

std::vector<RunReading> readRun(const std::string& file, const Ends& span) {
  DataFile data(file, {"direction", "applied", "reading"}, {"cycle"});
  std::vector<RunReading> readings;
  for (std::size_t row = 0; row < data.rows(); ++row) {
    const double applied = data.number(row, "applied");
    RunReading reading{applied, data.number(row, "reading"), Direction::none, 1};
    const auto direction = parseDirection(data.text(row, "direction"));
    if (direction && *direction != Direction::none) {
      reading.direction = *direction;
    } else {
      data.refuse(row, "direction", fmt::format("\"{}\" is not a direction", data.text(row, "direction")),
                  "write up or down: from which side the point was approached");
    }
    if (data.has("cycle")) {
      const double cycle = data.number(row, "cycle");
      if (cycle >= 1.0 && cycle <= 1e6 && cycle == std::floor(cycle)) {
        reading.cycle = static_cast<int>(cycle);
      } else if (!std::isnan(cycle)) {
        data.refuse(row, "cycle", fmt::format("\"{}\" is not the number of a cycle", data.text(row, "cycle")),
                    "count them 1, 2, 3");
      }
    }
    readings.push_back(reading);
  }
  data.finish();
  if (!data.has("cycle")) {
    numberCycles(readings, span.low, span.high);
  }
  if (const auto fault = runFault(readings, span.low, span.high)) {
    throw InputError(*fault, "correct the file or --span", {file, 0, 0, ""});
  }
  return readings;
}

class RunCalculation : public Calculation {
 public:
  std::string name() const override { return "run"; }
  std::string description() const override {
    return "zero, span, linearity, hysteresis and repeatability of a run up and down";
  }
  void declare(CLI::App& app) override {
    app.add_option("POINTS", file_,
                   "a file with the columns direction, applied, reading and, if known, cycle")
        ->required();
    app.add_option("--span", span_, "LOW:HIGH of the reading; the reading should be what is applied")
        ->required();
  }
  int execute(const Surroundings& surroundings, bool json) override {
    const Ends span = typedEnds(span_);
    const std::vector<RunReading> readings = readRun(file_, span);
    const RunFigures figures = runFigures(readings, span.low, span.high);
    json ? printDocument(surroundings, readings, figures) : printTable(surroundings, figures);
    return kDone;
  }

 private:
  static void printDocument(const Surroundings& surroundings, const std::vector<RunReading>& readings,
                            const RunFigures& figures) {
    int cycles = 0;
    for (const RunReading& reading : readings) {
      cycles = std::max(cycles, reading.cycle);
    }
    Json points = Json::array();
    for (const PointErrors& point : figures.points) {
      points.push_back({{"percent", point.percent},
                        {"up", orNull(point.up)},
                        {"down", orNull(point.down)},
                        {"average", point.average}});
    }
    printJson(surroundings, Json{{"zero_error", orNull(figures.zeroError)},
                                 {"span_error", orNull(figures.spanError)},
                                 {"max_error", figures.maximumError},
                                 {"inaccuracy_high", figures.inaccuracyHigh},
                                 {"inaccuracy_low", figures.inaccuracyLow},
                                 {"linearity_terminal", orNull(figures.linearityTerminal)},
                                 {"linearity_best", orNull(figures.linearityBest)},
                                 {"linearity_zero", orNull(figures.linearityZero)},
                                 {"hysteresis", orNull(figures.hysteresis)},
                                 {"hysteresis_within_cycle", orNull(figures.hysteresisWithinCycle)},
                                 {"repeatability", orNull(figures.repeatability)},
                                 {"readings", readings.size()},
                                 {"cycles", cycles},
                                 {"points", points}});
  }

  static void printTable(const Surroundings& surroundings, const RunFigures& figures) {
    const auto shown = [](std::optional<double> value) {
      return value ? formatFixed(*value, 4) : std::string("not shown");
    };
    Table table({{"figure"}, {"% of span", kRight}});
    table.add({"zero error", shown(figures.zeroError)});
    table.add({"span error", shown(figures.spanError)});
    table.add({"maximum error (averages)", shown(figures.maximumError)});
    table.add({"inaccuracy, highest error", shown(figures.inaccuracyHigh)});
    table.add({"inaccuracy, lowest error", shown(figures.inaccuracyLow)});
    table.add({"linearity, terminal-based (plus or minus)", shown(figures.linearityTerminal)});
    table.add({"linearity, best straight line (plus or minus)", shown(figures.linearityBest)});
    table.add({"linearity, zero-based (plus or minus)", shown(figures.linearityZero)});
    table.add({"hysteresis, of averages", shown(figures.hysteresis)});
    table.add({"hysteresis and dead band, within a cycle", shown(figures.hysteresisWithinCycle)});
    table.add({"non-repeatability", shown(figures.repeatability)});
    table.print(surroundings.out);
    Table points({{"point, % of span", kRight}, {"up", kRight}, {"down", kRight}, {"average", kRight}});
    for (const PointErrors& point : figures.points) {
      points.add({formatFixed(point.percent, 2), point.up ? formatFixed(*point.up, 4) : "",
                  point.down ? formatFixed(*point.down, 4) : "", formatFixed(point.average, 4)});
    }
    surroundings.out << "\nMean errors, % of span:\n";
    points.print(surroundings.out);
  }

  std::string file_, span_;
};

}  // namespace

std::unique_ptr<Calculation> runCalculation() {
  return std::make_unique<RunCalculation>();
}

}  // namespace spanwright
