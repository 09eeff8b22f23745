// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/trace.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/ruling_output.h"
#include "cli/table.h"
#include "cli/trace_json.h"
#include "core/metrology/ruling.h"
#include "core/record/reference_junction.h"
#include "core/units/number.h"

namespace spanwright {

namespace {

std::string figure(double value) {
  return std::isfinite(value) ? formatSignificant(value, 6) : "open";
}

std::string brief(double value) {
  return formatSignificant(value, 3);
}

void printHead(std::ostream& out, const CalibrationTrace& trace) {
  const Calibration& calibration = trace.calibration;
  Table table({{"what"}, {"it rests on"}});
  const auto row = [&](const char* what, std::string text) { table.add({what, std::move(text)}); };
  row("calibration", fmt::format("{} of {} ({}), {}", calibration.id, calibration.channel,
                                 text(calibration.subject), trace.title));
  row("place", trace.place);
  row("performed", fmt::format("{} by {}", formatMoment(calibration.performed),
                               trace.personName.empty() ? calibration.person : trace.personName));
  row("recorded", fmt::format("{} UTC, {}", formatMoment(calibration.recordedUtc),
                              calibration.source == "entered" ? "entered" : "from " + calibration.source));
  row("certificate", trace.issued ? fmt::format("{}, issued {} UTC", trace.issued->number,
                                                formatMoment(trace.issued->issuedUtc))
                                  : "none issued");
  if (trace.setup) {
    row("setup", fmt::format("{}, in force from {} {}: {}", trace.setup->version,
                             formatMoment(trace.setup->inForceFrom),
                             trace.setupUntil ? "until " + formatMoment(*trace.setupUntil) : "and still",
                             describe(trace.setup->setup)));
  }
  if (trace.sensor) {
    row("sensor", fmt::format("{}, {}{}", trace.sensor->serial, trace.sensor->model,
                              trace.fitting ? ", fitted from " + formatMoment(trace.fitting->from) : ""));
  }
  if (trace.plan) {
    row("plan", fmt::format("{} revision {}, {}; {}; decided by {}", trace.plan->code, trace.plan->revision,
                            trace.plan->title, trace.plan->procedure, describe(trace.plan->decisionRule)));
  }
  const std::string junction = junctionText(calibration, trace.setup ? &trace.setup->setup : nullptr,
                                            trace.sensor ? &trace.sensor->range : nullptr);
  if (!junction.empty()) {
    row("reference junction", junction);
  }
  row("outcome",
      fmt::format("as found {}, as left {}", text(calibration.foundVerdict), text(calibration.leftVerdict)));
  table.print(out);
}

void printStandards(std::ostream& out, const CalibrationTrace& trace) {
  if (trace.standards.empty()) {
    return;
  }
  Table table(
      {{"standard"}, {"what"}, {"certificate"}, {"issuer"}, {"valid"}, {"on the day"}, {"traceable"}});
  for (const TracedStandard& traced : trace.standards) {
    const auto& certificate = traced.certificate;
    table.add(
        {traced.used.serial, traced.description, traced.used.certificate,
         certificate ? certificate->issuer : "",
         certificate ? formatDate(certificate->validFrom) + " to " + formatDate(certificate->validUntil) : "",
         !certificate        ? "not in the register"
         : traced.validOnDay ? "valid"
                             : "not valid",
         certificate ? certificate->traceability : ""});
  }
  out << '\n';
  table.print(out);
}

void printReadings(std::ostream& out, const CalibrationTrace& trace) {
  Table table({{"phase"},
               {"point"},
               {"typed"},
               {"applied", kRight},
               {"expected", kRight},
               {"reading", kRight},
               {"error", kRight},
               {"limits", kRight},
               {"U", kRight},
               {"verdict"}});
  for (const TracedReading& traced : trace.readings) {
    const Reading& reading = traced.reading;
    std::vector<std::string> cells{std::string(text(traced.phase)), reading.point.label};
    if (reading.skipped()) {
      cells.resize(9);
      cells.push_back("skipped: " + reading.skipReason);
    } else {
      const std::string applied = reading.appliedText.empty() ? "nominal" : reading.appliedText;
      const DecisionRule* rule = trace.plan ? &trace.plan->decisionRule : nullptr;
      cells.insert(cells.end(),
                   {applied + " / " + reading.indicatedText,
                    figure(reading.applied) + " " + std::string(displaySymbol(reading.point.appliedUnit)),
                    figure(reading.expected),
                    figure(reading.indicated) + " " + std::string(displaySymbol(reading.point.readingUnit)),
                    brief(reading.error()), brief(reading.limits.low) + " .. " + brief(reading.limits.high),
                    reading.expandedUncertainty ? brief(*reading.expandedUncertainty) : "none",
                    ruledVerdict(rule, reading)});
    }
    table.add(std::move(cells));
  }
  out << '\n';
  table.print(out);
}

void printValues(std::ostream& out, const CalibrationTrace& trace) {
  Table table({{"phase"},
               {"point"},
               {"standard"},
               {"certificate"},
               {"did"},
               {"value", kRight},
               {"its error", kRight},
               {"its U", kRight},
               {"k", kRight}});
  for (const TracedReading& traced : trace.readings) {
    for (const TracedValue& value : traced.values) {
      const bool known = !value.certificate.empty();
      table.add({std::string(text(traced.phase)), traced.reading.point.label, value.standard,
                 known ? value.certificate : "none reaches it", value.applied ? "applied" : "measured",
                 known ? figure(value.at) + " " + std::string(displaySymbol(value.certificateUnit))
                       : figure(value.value) + " " + std::string(displaySymbol(value.unit)),
                 known ? brief(value.error) : "", known ? brief(value.uncertainty) : "",
                 known ? brief(value.coverageFactor) : ""});
    }
  }
  if (!table.empty()) {
    out << '\n';
    table.print(out);
  }
}

// Sources of uncertainty of all readings, in the order they are met.
std::vector<std::string> sources(const CalibrationTrace& trace) {
  std::vector<std::string> names;
  for (const TracedReading& traced : trace.readings) {
    for (std::size_t i = 0; traced.budget && i < traced.budget->lines.size(); ++i) {
      const std::string& name = traced.budget->lines[i].name;
      if (std::find(names.begin(), names.end(), name) == names.end()) {
        names.push_back(name);
      }
    }
  }
  return names;
}

// One row for each reading: what every source contributes, in the reading's unit.
void printBudgets(std::ostream& out, const CalibrationTrace& trace) {
  const std::vector<std::string> names = sources(trace);
  if (names.empty()) {
    return;
  }
  std::vector<Table::Column> columns{{"phase"}, {"point"}};
  for (const std::string& name : names) {
    columns.push_back({name, kRight});
  }
  columns.insert(columns.end(), {{"combined", kRight}, {"k", kRight}, {"U", kRight}, {""}});
  Table table(columns);
  for (const TracedReading& traced : trace.readings) {
    if (!traced.budget) {
      continue;
    }
    std::vector<std::string> cells{std::string(text(traced.phase)), traced.reading.point.label};
    for (const std::string& name : names) {
      double squares = 0.0;
      for (const BudgetLine& line : traced.budget->lines) {
        squares += line.name == name ? std::pow(line.standardUncertainty * line.sensitivity, 2) : 0.0;
      }
      cells.push_back(squares > 0.0 ? brief(std::sqrt(squares)) : "");
    }
    cells.insert(cells.end(), {brief(traced.budget->combined), brief(traced.budget->coverageFactor),
                               brief(traced.budget->expanded),
                               std::string(displaySymbol(traced.reading.point.readingUnit))});
    table.add(std::move(cells));
  }
  out << "\nStandard uncertainties, as each contributes to the reading:\n";
  table.print(out);
}

void printFindings(std::ostream& out, const CalibrationTrace& trace) {
  out << '\n';
  for (const std::string& gap : trace.gaps) {
    out << "Missing: " << gap << ".\n";
  }
  if (trace.gaps.empty()) {
    out << "Every link of the chain is there and was valid on the day.\n";
  }
  for (const std::string& differs : trace.differs) {
    out << "Differs: " << differs << ".\n";
  }
  for (const TracedReading& traced : trace.readings) {
    for (const std::string& differs : traced.differs) {
      out << fmt::format("Differs: {}, {}: {}.\n", text(traced.phase), traced.reading.point.label, differs);
    }
  }
  if (trace.agrees()) {
    out << "The stored numbers agree with those recomputed from what was typed.\n";
  }
}

void printStandard(std::ostream& out, const StandardTrace& trace) {
  const Standard& standard = trace.standard;
  out << fmt::format("{}  {} {}, {}\n\n", standard.serial, standard.maker, standard.model,
                     standard.description);
  if (standard.certificates.empty()) {
    out << "It has no certificate.\n";
  } else {
    Table certificates({{"certificate"}, {"issuer"}, {"issued"}, {"valid"}, {"ranges"}, {"traceable"}});
    for (const StandardCertificate& each : standard.certificates) {
      std::string ranges;
      for (const CertificateRange& range : each.ranges) {
        ranges += (ranges.empty() ? "" : ", ") + std::string(displaySymbol(range.unit));
      }
      certificates.add({each.number, each.issuer, formatDate(each.issued),
                        formatDate(each.validFrom) + " to " + formatDate(each.validUntil), ranges,
                        each.traceability});
    }
    certificates.print(out);
  }
  if (trace.uses.empty()) {
    out << "\nNo calibration was made with it.\n";
  } else {
    Table uses({{"calibration", kRight},
                {"performed"},
                {"channel"},
                {"subject"},
                {"as found"},
                {"as left"},
                {"certificate"},
                {"on the day"}});
    for (const UseOfStandard& use : trace.uses) {
      uses.add({std::to_string(use.calibration), formatMoment(use.performed), use.channel,
                std::string(text(use.subject)), std::string(text(use.found)), std::string(text(use.left)),
                use.certificate, use.validOnDay ? "valid" : "not valid"});
    }
    out << '\n';
    uses.print(out);
    out << fmt::format("{} calibrations.\n", trace.uses.size());
  }
  for (const std::string& gap : trace.gaps) {
    out << "Missing: " << gap << ".\n";
  }
}

class TraceCommand : public Command {
 public:
  std::string name() const override { return "trace"; }
  std::string description() const override {
    return "what a calibration rests on, or what rests on a standard";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    auto* what = app.add_option_group("from");
    what->add_option("--calibration", calibration_, "from this calibration to its standards' certificates");
    what->add_option("--standard", serial_, "from this standard to every calibration made with it");
    what->require_option(1);
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    return calibration_ ? fromCalibration(surroundings, store) : fromStandard(surroundings, store);
  }

 private:
  int fromCalibration(const Surroundings& surroundings, const Store& store) const {
    const CalibrationTrace trace = traceCalibration(store, *calibration_);
    if (json_) {
      printJson(surroundings, traceJson(trace));
    } else {
      printHead(surroundings.out, trace);
      printStandards(surroundings.out, trace);
      printReadings(surroundings.out, trace);
      printValues(surroundings.out, trace);
      printBudgets(surroundings.out, trace);
      printFindings(surroundings.out, trace);
    }
    return trace.gaps.empty() && trace.agrees() ? kDone : kFound;
  }
  int fromStandard(const Surroundings& surroundings, const Store& store) const {
    const StandardTrace trace = traceStandard(store, serial_);
    json_ ? printJson(surroundings, traceJson(trace)) : printStandard(surroundings.out, trace);
    return trace.gaps.empty() ? kDone : kFound;
  }

  std::string record_, serial_;
  std::optional<CalibrationId> calibration_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> traceCommand() {
  return std::make_unique<TraceCommand>();
}

}  // namespace spanwright
