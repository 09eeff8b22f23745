// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>
#include <ostream>

#include "cli/commands/calc/calculations.h"
#include "cli/commands/calc/typed.h"
#include "cli/common.h"
#include "core/record/problem.h"

namespace spanwright {

namespace {

class ConvertCalculation : public Calculation {
 public:
  std::string name() const override { return "convert"; }
  std::string description() const override { return "a value in another unit"; }
  void declare(CLI::App& app) override {
    app.add_option("VALUE", value_, "the number")->required();
    app.add_option("FROM", from_, "its unit, as psi, degF, inH2O_4C")->required();
    app.add_option("TO", to_, "the unit wanted")->required();
    app.add_flag("--difference", difference_, "a difference of temperatures: 1 K = 1 degC = 1.8 degF");
  }
  int execute(const Surroundings& surroundings, bool json) override {
    const double value = typedNumber("VALUE", value_);
    const Unit from = typedUnit("FROM", from_);
    const Unit to = typedUnit("TO", to_);
    if (!difference_ && dimension(from) == Dimension::temperature &&
        *convert(value, from, Unit::kelvin) < 0.0) {
      throw InputError(fmt::format("{} {} is below absolute zero", value_, symbol(from)),
                       "check the number, or add --difference for a difference of temperatures");
    }
    const auto result = difference_ ? convertDifference(value, from, to) : convert(value, from, to);
    if (!result) {
      throw InputError(fmt::format("{} and {} measure different things", symbol(from), symbol(to)),
                       "choose two units of the same kind");
    }
    if (!std::isfinite(*result)) {
      throw InputError(fmt::format("{} {} is too large a number in {}", value_, symbol(from), symbol(to)),
                       "choose a larger unit");
    }
    if (json) {
      printJson(surroundings, Json{{"value", *result}, {"unit", symbol(to)}});
    } else {
      surroundings.out << fmt::format("{} {}\n", shownNumber(*result, 10), displaySymbol(to));
    }
    return kDone;
  }

 private:
  std::string value_, from_, to_;
  bool difference_ = false;
};

}  // namespace

std::unique_ptr<Calculation> convertCalculation() {
  return std::make_unique<ConvertCalculation>();
}

}  // namespace spanwright
