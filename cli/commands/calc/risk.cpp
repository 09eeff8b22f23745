// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/risk.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <ostream>

#include "cli/commands/calc/calculations.h"
#include "cli/commands/calc/typed.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/metrology/decision.h"
#include "core/record/problem.h"

namespace spanwright {

namespace {

// "0.5" both ways; "-0.2:0.5", ":0.5", "-0.2:" as they say.
ErrorLimits typedTolerance(const std::string& text) {
  const auto colon = text.find(':');
  if (colon == std::string::npos) {
    const double tolerance = typedNumber("--tolerance", text);
    if (!(tolerance > 0.0)) {
      throw InputError(fmt::format("--tolerance: {} is not above 0", text),
                       "give what an error may be either way, as 0.5, or its limits, as -0.2:0.5");
    }
    return {-tolerance, tolerance};
  }
  constexpr double kOpen = std::numeric_limits<double>::infinity();
  const std::string low = text.substr(0, colon), high = text.substr(colon + 1);
  return {low.empty() ? -kOpen : typedNumber("--tolerance", low),
          high.empty() ? kOpen : typedNumber("--tolerance", high)};
}

double above0(const std::string& option, const std::string& text) {
  const double value = typedNumber(option, text);
  if (!(value > 0.0)) {
    throw InputError(fmt::format("{}: {} is not above 0", option, text), "give a number above 0");
  }
  return value;
}

void refuseIf(const std::optional<std::string>& fault, const std::string& todo) {
  if (fault) {
    throw InputError(*fault, todo);
  }
}

struct Answer {
  ErrorLimits limits;
  double standardUncertainty = 0.0, expandedUncertainty = 0.0;
  Guard guard;
  std::optional<double> ratio, error, conformance, outside;
  std::optional<double> conformanceWithSpread;  // knowing the population too
  std::optional<GlobalRisk> global;
  std::optional<Decision> decision;
};

class RiskCalculation : public Calculation {
 public:
  std::string name() const override { return "risk"; }
  std::string description() const override {
    return "guard band, and how likely a pass or a fail is wrong; exit status 1 for a fail";
  }
  void declare(CLI::App& app) override {
    app.add_option("--tolerance", tolerance_, "what an error may be: T both ways, or LOW:HIGH, :HIGH, LOW:")
        ->required();
    app.add_option("--uncertainty", uncertainty_, "expanded uncertainty of the error")->required();
    app.add_option("--coverage", coverage_, "its coverage factor (default 2)");
    app.add_option("--error", error_, "the error that was found");
    CLI::Option* spread =
        app.add_option("--spread", spread_, "standard deviation of true errors among subjects like this");
    app.add_option("--mean", mean_, "and their mean (default 0)")->needs(spread);
    CLI::Option* guard =
        app.add_option("--guard", guard_, "guard band as a multiple of the expanded uncertainty");
    CLI::Option* accept =
        app.add_option("--accept-limit", acceptLimit_, "largest error that is accepted")->excludes(guard);
    CLI::Option* limit =
        app.add_option(
               "--limit-false-accept", falseAccept_,
               "guard band that keeps the risk of false acceptance at this: over the spread when that "
               "is given, otherwise of the worst error accepted")
            ->excludes(guard)
            ->excludes(accept);
    app.add_flag("--any-spread", anySpread_, "keep that risk over subjects of whatever spread")
        ->needs(limit)
        ->excludes(spread);
  }
  int execute(const Surroundings& surroundings, bool json) override {
    const Answer answer = work();
    json ? printDocument(surroundings, answer) : printTable(surroundings, answer);
    const bool failed = answer.decision &&
                        (*answer.decision == Decision::fail || *answer.decision == Decision::conditionalFail);
    return failed ? kFound : kDone;
  }

 private:
  std::optional<Population> population() const {
    if (spread_.empty()) {
      return std::nullopt;
    }
    return Population{typedNumber("--mean", mean_), above0("--spread", spread_)};
  }

  DecisionRule rule(const ErrorLimits& limits) const {
    DecisionRule rule;
    if (!guard_.empty()) {
      rule.basis = GuardBasis::factor;
      rule.factor = typedNumber("--guard", guard_);
    } else if (!acceptLimit_.empty()) {
      rule.basis = GuardBasis::width;
      const double accept = typedNumber("--accept-limit", acceptLimit_);
      if (std::isfinite(limits.low) && std::isfinite(limits.high) && limits.low != -limits.high) {
        throw InputError(
            "--accept-limit: one number does not say both limits of a tolerance that differs by side",
            "use --guard");
      }
      rule.width = std::isfinite(limits.high) ? limits.high - accept : accept - limits.low;
    } else if (!falseAccept_.empty()) {
      rule.falseAcceptLimit = typedNumber("--limit-false-accept", falseAccept_);
      rule.population = population();
      rule.basis = anySpread_        ? GuardBasis::anyPopulation
                   : rule.population ? GuardBasis::globalRisk
                                     : GuardBasis::specificRisk;
    }
    return rule;
  }

  Answer work() const {
    Answer answer;
    answer.limits = typedTolerance(tolerance_);
    answer.expandedUncertainty = above0("--uncertainty", uncertainty_);
    answer.standardUncertainty = answer.expandedUncertainty / above0("--coverage", coverage_);
    refuseIf(riskFault(answer.limits, answer.standardUncertainty),
             "check --tolerance, --uncertainty and --coverage");
    const DecisionRule decisionRule = rule(answer.limits);
    refuseIf(ruleFault(decisionRule, answer.limits), "2 % is 0.02; see --spread and --any-spread");
    answer.guard =
        guardFor(decisionRule, answer.limits, answer.standardUncertainty, answer.expandedUncertainty);
    answer.ratio = testUncertaintyRatio(answer.limits, answer.expandedUncertainty);
    const auto subjects = population();
    if (subjects) {
      answer.global =
          globalRisk(answer.limits, answer.guard.acceptance, *subjects, answer.standardUncertainty);
    }
    if (!error_.empty()) {
      const double error = typedNumber("--error", error_), u = answer.standardUncertainty;
      answer.error = error;
      answer.conformance = conformanceProbability(answer.limits, error, u);
      answer.outside = nonConformanceProbability(answer.limits, error, u);
      answer.decision = decide(answer.limits, answer.guard, error);
      if (subjects) {
        const Estimate estimate = estimateWithin(*subjects, error, u);
        answer.conformanceWithSpread =
            conformanceProbability(answer.limits, estimate.error, estimate.standardUncertainty);
      }
    }
    return answer;
  }

  static void printDocument(const Surroundings& surroundings, const Answer& answer) {
    const Guard& guard = answer.guard;
    const bool highSide = std::isfinite(answer.limits.high);
    const auto global = [&](double GlobalRisk::*risk) {
      return answer.global ? Json((*answer.global).*risk) : Json(nullptr);
    };
    printJson(surroundings,
              Json{{"ratio", orNull(answer.ratio)},
                   {"acceptance_limit", highSide ? guard.acceptance.high : guard.acceptance.low},
                   {"acceptance_low", orNull(guard.acceptance.low)},
                   {"acceptance_high", orNull(guard.acceptance.high)},
                   {"guard_band", guard.width},
                   {"guard_state", text(guard.state)},
                   {"standard_uncertainty", answer.standardUncertainty},
                   {"conformance_probability", orNull(answer.conformance)},
                   {"conformance_probability_with_spread", orNull(answer.conformanceWithSpread)},
                   {"specific_false_accept", orNull(answer.outside)},
                   {"global_false_accept", global(&GlobalRisk::falseAccept)},
                   {"global_false_reject", global(&GlobalRisk::falseReject)},
                   {"in_tolerance_probability", global(&GlobalRisk::inTolerance)},
                   {"accepted", answer.error ? Json(accepted(guard, *answer.error)) : Json(nullptr)},
                   {"answer", answer.decision ? Json(text(*answer.decision)) : Json(nullptr)}});
  }

  static std::string percent(double probability) { return formatSignificant(100.0 * probability, 4) + " %"; }

  static std::string words(Decision decision) {
    switch (decision) {
      case Decision::pass:
        return "pass";
      case Decision::conditionalPass:
        return "conditional pass: inside the tolerance, within the guard band";
      case Decision::conditionalFail:
        return "conditional fail: outside the tolerance, within the guard band";
      case Decision::fail:
        return "fail";
    }
    return "";
  }

  static void printTable(const Surroundings& surroundings, const Answer& answer) {
    const auto shown = [](double value) {
      return std::isfinite(value) ? formatSignificant(value, 6) : std::string("open");
    };
    Table table({{"quantity"}, {"value", Table::Align::right}});
    table.add({"tolerance", shown(answer.limits.low) + " to " + shown(answer.limits.high)});
    table.add({"test uncertainty ratio", answer.ratio ? formatSignificant(*answer.ratio, 4) : "none"});
    table.add({"guard band", shown(answer.guard.width)});
    table.add({"accepted errors",
               answer.guard.state == GuardState::found
                   ? shown(answer.guard.acceptance.low) + " to " + shown(answer.guard.acceptance.high)
                   : "none"});
    if (answer.error) {
      table.add({"error", shown(*answer.error)});
      table.add({"probability of being in tolerance", percent(*answer.conformance)});
      table.add({"risk of accepting this one", percent(*answer.outside)});
      if (answer.conformanceWithSpread) {
        table.add({"probability in tolerance, knowing the spread", percent(*answer.conformanceWithSpread)});
      }
    }
    if (answer.global) {
      table.add({"truly in tolerance, of all", percent(answer.global->inTolerance)});
      table.add({"falsely accepted, of all", percent(answer.global->falseAccept)});
      table.add({"falsely rejected, of all", percent(answer.global->falseReject)});
    }
    table.print(surroundings.out);
    if (answer.guard.state == GuardState::outOfReach) {
      surroundings.out
          << "The uncertainty is too large for that limit of false acceptance: nothing can be accepted.\n";
    } else if (answer.guard.state == GuardState::acceptsNothing) {
      surroundings.out << "The guard bands leave nothing between them: nothing can be accepted.\n";
    }
    if (answer.decision) {
      surroundings.out << "Answer: " << words(*answer.decision) << ".\n";
    }
  }

  std::string tolerance_, uncertainty_, error_, spread_, guard_, acceptLimit_, falseAccept_;
  std::string coverage_ = "2", mean_ = "0";
  bool anySpread_ = false;
};

}  // namespace

std::unique_ptr<Calculation> riskCalculation() {
  return std::make_unique<RiskCalculation>();
}

}  // namespace spanwright
