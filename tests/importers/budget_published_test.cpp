// SPDX-License-Identifier: GPL-3.0-or-later
//
// Published budgets read from files and worked out, to their last printed digit. Every row of
// expected_budgets.csv is looked up by its example and quantity; a row without a rule fails.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <map>
#include <set>

#include "core/metrology/formula.h"
#include "core/metrology/monte_carlo.h"
#include "core/metrology/uncertainty.h"
#include "importers/budget_file.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

const std::string kFolder = SPANWRIGHT_REFERENCE_DIR "/statistics/";

/// One budget file, worked out; results by name.
class Worked {
 public:
  explicit Worked(const std::string& name) : file_(readBudgetFile(kFolder + "budgets/" + name + ".toml")) {
    for (const BudgetResult& result : file_.results) {
      auto answer = evaluate(file_.model, result.measurement, file_.coverage, file_.secondOrder);
      if (const auto* fault = std::get_if<BudgetFault>(&answer)) {
        throw std::runtime_error(name + ": " + fault->what);
      }
      budgets_[result.name] = std::get<ModelBudget>(answer);
    }
  }
  const ModelBudget& main() const { return budgets_.at(file_.results.front().name); }
  const ModelBudget& of(const std::string& result) const { return budgets_.at(result); }
  const ModelLine& line(const std::string& name) const {
    for (const ModelLine& each : main().lines) {
      if (each.name == name) {
        return each;
      }
    }
    throw std::runtime_error("no line " + name);
  }
  double related(const std::string& first, const std::string& second) const {
    return resultCorrelation(file_.model, of(first), of(second));
  }
  double given(const std::string& first, const std::string& second) const {
    for (const Correlation& each : file_.model.correlations) {
      const std::string& a = file_.model.inputs[each.first].name;
      const std::string& b = file_.model.inputs[each.second].name;
      if ((a == first && b == second) || (a == second && b == first)) {
        return each.coefficient;
      }
    }
    throw std::runtime_error("no correlation");
  }
  double secondOrder(const std::string& first, const std::string& second) const {
    for (const SecondOrderTerm& each : main().secondOrder) {
      const std::string& a = main().lines[each.first].name;
      const std::string& b = main().lines[each.second].name;
      if ((a == first && b == second) || (a == second && b == first)) {
        return each.variance;
      }
    }
    throw std::runtime_error("no term of " + first + " and " + second);
  }
  /// Half the width of the simulated symmetric interval.
  double simulatedHalf(int digits, std::size_t most) const {
    MonteCarloOptions options;
    options.digits = digits;
    options.maximumTrials = most;
    const auto answer = monteCarlo(file_.model, file_.results.front().measurement.function, main(), options);
    const auto& result = std::get<MonteCarloResult>(answer);
    return (result.symmetric.high - result.symmetric.low) / 2.0;
  }

 private:
  BudgetFile file_;
  std::map<std::string, ModelBudget> budgets_;
};

using Rules = std::map<std::string, std::function<double()>>;

void gumH1(Rules& rules) {
  const Worked h1("gum_h1"), second("gum_h1_second_order");
  const auto add = [&](const char* quantity, std::function<double()> rule) {
    rules[std::string("gum_h1,") + quantity] = std::move(rule);
  };
  for (const char* name : {"l_S", "d_bar", "d_1", "d_2", "Delta"}) {
    add(("u(" + std::string(name) + ")").c_str(), [=] { return h1.line(name).standardUncertainty; });
  }
  add("u(alpha_S)", [=] { return h1.line("alpha_S").standardUncertainty * 1e6; });
  add("u(d)", [=] { return h1.of("d").combined; });
  add("u(theta)", [=] { return h1.of("theta").combined; });
  add("contribution delta_alpha", [=] { return h1.line("delta_alpha").contribution; });
  add("contribution delta_theta", [=] { return h1.line("delta_theta").contribution; });
  add("u_c^2", [=] { return h1.main().combined * h1.main().combined; });
  add("u_c", [=] { return h1.main().combined; });
  add("nu_eff(d)", [=] { return h1.of("d").degreesOfFreedom; });
  add("nu_eff(l)", [=] { return h1.main().degreesOfFreedom; });
  add("nu_eff(l) truncated", [=] { return h1.main().usedDegreesOfFreedom; });
  add("k99 = t99(16)", [=] { return h1.main().coverageFactor; });
  add("U99", [=] { return h1.main().expanded; });
  add("l", [=] { return h1.main().value * 1e-6; });  // printed in mm
  add("second-order term l_S*u(dalpha)*u(theta)", [=] {
    // theta is theta_bar + Delta: two terms here.
    return std::sqrt(second.secondOrder("delta_alpha", "theta_bar") +
                     second.secondOrder("delta_alpha", "Delta"));
  });
  add("second-order term l_S*u(alpha_S)*u(dtheta)",
      [=] { return std::sqrt(second.secondOrder("alpha_S", "delta_theta")); });
  add("u_c with second-order terms", [=] { return second.main().combined; });
  add("u_c^2 from the printed contributions", [] {
    const Budget printed = combine(
        {{"l_S", 25, 1, 18}, {"d", 9.7, 1, 25.6}, {"delta_alpha", 2.9, 1, 50}, {"delta_theta", 16.6, 1, 2}});
    return printed.combined * printed.combined;
  });
}

/// `formula` of each row of a table, its columns under the names the formula uses.
std::vector<double> perRow(const std::string& table, const std::string& formula,
                           const std::vector<std::pair<std::string, std::string>>& columns) {
  std::vector<std::string> names;
  names.reserve(columns.size());
  for (const auto& [name, column] : columns) {
    names.push_back(name);
  }
  const auto parsed = Formula::parse(formula, names);
  std::vector<double> results;
  for (const test::CsvRow& row : test::readReferenceCsv(kFolder + table)) {
    std::vector<double> at;
    at.reserve(columns.size());
    for (const auto& [name, column] : columns) {
      at.push_back(test::numberIn(row, column));
    }
    results.push_back(std::get<Formula>(parsed)(at));
  }
  return results;
}

/// R, X and Z of each set of simultaneous readings: approach 2 of H.2.4.
std::vector<double> perSet(const std::string& formula) {
  return perRow("gum_h2_data.csv", formula, {{"V", "V_volt"}, {"I", "I_mA"}, {"phi", "phi_rad"}});
}

void gumH2(Rules& rules) {
  const Worked h2("gum_h2");
  const auto add = [&](const std::string& quantity, std::function<double()> rule) {
    rules["gum_h2," + quantity] = std::move(rule);
  };
  for (const std::string name : {"V", "I", "phi"}) {
    add("mean " + name, [=] { return h2.line(name).value; });
    add("s(mean " + name + ")", [=] { return h2.line(name).standardUncertainty; });
  }
  add("r(V,I)", [=] { return h2.given("V", "I"); });
  add("r(V,phi)", [=] { return h2.given("V", "phi"); });
  add("r(I,phi)", [=] { return h2.given("I", "phi"); });
  const std::map<std::string, std::string> formulas{
      {"R", "1000 * V / I * cos(phi)"}, {"X", "1000 * V / I * sin(phi)"}, {"Z", "1000 * V / I"}};
  for (const auto& [name, formula] : formulas) {
    add(name, [=, result = name] { return h2.of(result).value; });
    add("u_c(" + name + ")", [=, result = name] { return h2.of(result).combined; });
    add("approach 2 mean " + name, [text = formula] { return summarise(perSet(text)).mean; });
    add("approach 2 s(mean) " + name,
        [text = formula] { return summarise(perSet(text)).standardUncertainty; });
  }
  add("r(R,X)", [=] { return h2.related("R", "X"); });
  add("r(R,Z)", [=] { return h2.related("R", "Z"); });
  add("r(X,Z)", [=] { return h2.related("X", "Z"); });
}

void gumH3(Rules& rules) {
  const Worked line("gum_h3"), centred("gum_h3_centred");
  const auto add = [&](const char* quantity, std::function<double()> rule) {
    rules[std::string("gum_h3,") + quantity] = std::move(rule);
  };
  add("b(30 degC)", [=] { return line.main().value; });
  add("u_c[b(30 degC)]", [=] { return line.main().combined; });
  add("U95[b(30 degC)] using t95(9)", [=] { return line.main().expanded; });
  add("y1' (intercept at t_mean)", [=] { return line.of("b(mean)").value; });
  add("s(y1')", [=] { return line.of("b(mean)").combined; });
  add("y1 (intercept at t0=20 degC)", [=] { return centred.main().value; });
  add("s(y1)", [=] { return centred.main().combined; });
  add("r(y1,y2)", [=] { return centred.related("y1", "y2"); });
}

/// Count rates of H.4, less background and brought back to the beginning, per cycle.
std::vector<double> countRates(const std::string& of) {
  return perRow("gum_h4_data.csv", "(C - C_B) / 60 * exp(1.25894e-4 * t)",
                {{"C", "C_" + of}, {"C_B", "C_B"}, {"t", "t_" + of + "_min"}});
}

void gumH4(Rules& rules) {
  const Worked rates("gum_h4"), ratios("gum_h4_ratios");
  const auto add = [&](const std::string& quantity, std::function<double()> rule) {
    rules["gum_h4," + quantity] = std::move(rule);
  };
  const std::vector<double> sample = countRates("x"), standard = countRates("S");
  std::vector<double> quotients;
  for (std::size_t i = 0; i < sample.size(); ++i) {
    const std::string cycle = " cycle " + std::to_string(i + 1);
    quotients.push_back(sample[i] / standard[i]);
    add("R_x" + cycle, [value = sample[i]] { return value; });
    add("R_S" + cycle, [value = standard[i]] { return value; });
    add("R" + cycle, [value = quotients[i]] { return value; });
  }
  // The files hold the rates worked out; they are those of the table.
  EXPECT_NEAR(rates.line("R_x").value, summarise(sample).mean, 1e-9);
  EXPECT_NEAR(rates.line("R_S").value, summarise(standard).mean, 1e-9);
  EXPECT_NEAR(ratios.line("R").value, summarise(quotients).mean, 1e-11);
  for (const std::string name : {"R_x", "R_S"}) {
    add("mean " + name, [=] { return rates.line(name).value; });
    add("s(mean " + name + ")", [=] { return rates.line(name).standardUncertainty; });
  }
  add("mean R", [=] { return ratios.line("R").value; });
  add("s(mean R)", [=] { return ratios.line("R").standardUncertainty; });
  add("R_x/R_S", [=] { return rates.of("ratio").value; });
  add("u(R_x/R_S)", [=] { return rates.of("ratio").combined; });
  add("r(R_x,R_S)", [=] { return rates.given("R_x", "R_S"); });
  add("A_x approach 1", [=] { return rates.main().value; });
  add("u_c(A_x) approach 1", [=] { return rates.main().combined; });
  add("A_x approach 2", [=] { return ratios.main().value; });
  add("u_c(A_x) approach 2", [=] { return ratios.main().combined; });
}

void gumH5(Rules& rules) {
  const Worked days("gum_h5");
  rules["gum_h5,grand mean"] = [=] { return days.main().value; };
  rules["gum_h5,s(daily means)"] = [=] {
    return days.line("daily means").standardUncertainty * std::sqrt(10.0) * 1e6;
  };
  rules["gum_h5,s(mean) with between-day effect (9 dof)"] = [=] {
    EXPECT_EQ(days.main().degreesOfFreedom, 9.0);
    return days.main().combined * 1e6;
  };
}

void gumOthers(Rules& rules) {
  const Worked ten("gum_ten_resistors"), apart("gum_ten_resistors_uncorrelated"), dmm("gum_dmm_1V"),
      g("gum_g");
  rules["gum_ten_resistors,u_c of ten 1 kohm resistors in series, fully correlated"] = [=] {
    return ten.main().combined;
  };
  rules["gum_ten_resistors,u_c if the correlation is (wrongly) ignored"] = [=] {
    return apart.main().combined;
  };
  rules["gum_dmm_1V,half-width a"] = [] {
    const auto parsed = Formula::parse("14e-6 * reading + 2e-6 * range", {"reading", "range"});
    return std::get<Formula>(parsed)(std::vector<double>{0.928571, 1.0}) * 1e6;
  };
  rules["gum_dmm_1V,u(delta V)"] = [=] { return dmm.line("dV").standardUncertainty * 1e6; };
  rules["gum_dmm_1V,u_c(V)"] = [=] { return dmm.main().combined * 1e6; };
  rules["gum_dmm_1V,relative u_c"] = [=] { return dmm.main().combined / dmm.main().value * 1e6; };
  rules["gum_g,nu_eff of the three-factor product example"] = [=] { return g.main().degreesOfFreedom; };
  rules["gum_g,combined relative u"] = [=] { return g.main().combined; };
  rules["gum_g,t95(19)"] = [] { return studentFactor(0.95, 19); };
  rules["gum_g,U95 relative"] = [=] { return g.main().expanded; };
  rules["gum_g,dof of a type B u reliable to 25 %"] = [] { return degreesOfFreedomFrom(0.25); };
  rules["gum_g,dof of a type B u reliable to 50 %"] = [] { return degreesOfFreedomFrom(0.50); };
  std::vector<double> readings;
  for (const test::CsvRow& row : test::readReferenceCsv(kFolder + "gum_4_4_3_temperatures.csv")) {
    readings.push_back(test::numberIn(row, "t_degC"));
  }
  const ReadingsSummary summary = summarise(readings);
  rules["gum_4_4_3,mean"] = [=] { return summary.mean; };
  rules["gum_4_4_3,s(t_k)"] = [=] { return summary.standardUncertainty * std::sqrt(20.0); };
  rules["gum_4_4_3,s(mean)"] = [=] { return summary.standardUncertainty; };
  const Worked bounds("gum_4_4");
  rules["gum_4_4_3,u of a rectangular distribution 96..104 degC"] = [=] {
    return bounds.line("rectangular").standardUncertainty;
  };
  rules["gum_4_4_3,u of a triangular distribution 96..104 degC"] = [=] {
    return bounds.line("triangular").standardUncertainty;
  };
}

void supplements(Rules& rules) {
  const Worked normal("jcgm101_additive_normal"), equal("jcgm101_additive_rectangular");
  const Worked unequal("jcgm101_additive_unequal");
  const auto additive = [&](const char* quantity, std::function<double()> rule) {
    rules[std::string("jcgm101_additive,") + quantity] = std::move(rule);
  };
  additive("normal inputs: u(y)", [=] { return normal.main().combined; });
  additive("normal inputs: 95 % half-interval", [=] { return normal.main().expanded; });
  // Simulated here: 1.3 million trials are steady to 0.005, half of the last printed digit.
  additive("four equal rectangular inputs: analytic 95 % half-interval",
           [=] { return equal.simulatedHalf(3, 1'300'000); });
  additive("four equal rectangular inputs: exact cdf check",
           [=] { return equal.simulatedHalf(3, 1'300'000); });
  additive("fourth input sd 10: first-order u(y)", [=] { return unequal.main().combined; });
  additive("fourth input sd 10: first-order 95 % half-interval", [=] { return unequal.main().expanded; });
  additive("fourth input sd 10: Monte Carlo 95 % half-interval",
           [=] { return unequal.simulatedHalf(3, 1'300'000); });
  const Worked rtd("jcgm102_rtd_single"), implicit("jcgm102_rtd_single_implicit");
  const auto platinum = [&](const char* quantity, std::function<double()> rule) {
    rules[std::string("jcgm102_rtd_single,") + quantity] = std::move(rule);
  };
  platinum("theta", [=] { return rtd.main().value; });
  platinum("u(theta)", [=] { return rtd.main().combined; });
  platinum("c_y", [=] { return implicit.line("theta").sensitivity; });
  platinum("c_R0", [=] { return implicit.line("R0").sensitivity; });
  platinum("c_A", [=] { return implicit.line("A").sensitivity; });
  platinum("c_B", [=] { return implicit.line("B").sensitivity; });
  platinum("c_RS", [=] { return implicit.line("RS").sensitivity; });
  platinum("c_r", [=] { return implicit.line("r").sensitivity; });
}

void calibrations(Rules& rules) {
  const Worked s2("ea402_s2"), s3("ea402_s3"), s9("ea402_s9");
  rules["ea402_s2,m_X"] = [=] { return s2.main().value; };
  rules["ea402_s2,u(m_X) from the limits"] = [=] { return s2.main().combined * 1e3; };
  rules["ea402_s2,u(m_X) from the printed contributions"] = [] {
    return combine({{"m_S", 22.5}, {"dm_D", 8.95}, {"dm", 14.4}, {"dm_C", 5.77}, {"dB", 5.77}}).combined;
  };
  rules["ea402_s2,U (k=2)"] = [=] { return s2.main().expanded * 1e3; };
  rules["ea402_s3,mean r"] = [=] { return s3.line("r").value; };
  rules["ea402_s3,u(r)"] = [=] { return s3.line("r").standardUncertainty * 1e6; };
  rules["ea402_s3,R_X"] = [=] { return s3.main().value; };
  rules["ea402_s3,u(R_X)"] = [=] { return s3.main().combined * 1e3; };
  rules["ea402_s3,U (k=2)"] = [=] { return s3.main().expanded * 1e3; };
  rules["ea402_s9,E_X"] = [=] { return s9.main().value; };
  rules["ea402_s9,u(E_X)"] = [=] { return s9.main().combined; };
  rules["ea402_s9,k (dominant rectangular)"] = [=] { return s9.main().coverageFactor; };
  rules["ea402_s9,U"] = [=] { return s9.main().expanded; };
}

TEST(PublishedBudgets, ToTheLastPrintedDigit) {
  Rules rules;
  gumH1(rules);
  gumH2(rules);
  gumH3(rules);
  gumH4(rules);
  gumH5(rules);
  gumOthers(rules);
  supplements(rules);
  calibrations(rules);
  // Printed arithmetic that mixes rounded numerators with other terms has no place in a program.
  const std::set<std::string> mixed{"gum_h1,nu_eff(l) from the printed values, numerator 1002^2",
                                    "gum_h1,nu_eff(d) from the printed values"};
  // Pooled from readings, not from a file: tests/core/tasks/point_uncertainty_test.cpp.
  const std::set<std::string> elsewhere{"gum_h5,s_W"};
  std::size_t reproduced = 0;
  for (const test::CsvRow& row : test::readReferenceCsv(kFolder + "expected_budgets.csv")) {
    const std::string key = row.at("example") + "," + row.at("quantity");
    if (mixed.contains(key) || elsewhere.contains(key)) {
      continue;
    }
    const auto rule = rules.find(key);
    if (rule == rules.end()) {
      ADD_FAILURE() << "no rule for " << key;
      continue;
    }
    if (row.at("published").empty()) {
      const double recomputed = test::numberIn(row, "recomputed");
      EXPECT_NEAR(rule->second(), recomputed, 1e-9 * std::abs(recomputed)) << key;
    } else {
      // The bound is half of the last printed digit; a wider one is explained in the row's note.
      EXPECT_NEAR(rule->second(), test::numberIn(row, "published"),
                  test::numberIn(row, "tolerance") * (1.0 + 1e-9))
          << key << ", recomputed " << row.at("recomputed");
    }
    ++reproduced;
  }
  EXPECT_EQ(reproduced, 133U);
  EXPECT_EQ(rules.size(), 133U);
}

}  // namespace
}  // namespace spanwright
