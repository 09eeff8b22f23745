// SPDX-License-Identifier: GPL-3.0-or-later
//
// The bench calculator: `spanwright calc NAME ...`. No record is needed; the computations are the record's
// own.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "cli/command.h"

namespace spanwright {

/// One calculation. Prints a small table with units, or one JSON document.
class Calculation {
 public:
  virtual ~Calculation() = default;
  virtual std::string name() const = 0;
  virtual std::string description() const = 0;
  /// Declares options and positionals; `--json` is declared by the calculator itself.
  virtual void declare(CLI::App& app) = 0;
  virtual int execute(const Surroundings& surroundings, bool json) = 0;
};

/// Every calculation, in the order of the help text.
std::vector<std::unique_ptr<Calculation>> allCalculations();

}  // namespace spanwright
