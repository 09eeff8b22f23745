// SPDX-License-Identifier: GPL-3.0-or-later
#include <unistd.h>

#include <exception>
#include <iostream>

#include "cli/command.h"

int main(int argc, char** argv) {
  using namespace spanwright;
  const Surroundings surroundings{std::cout, std::cerr, isatty(STDERR_FILENO) == 1, systemClock()};
  try {
    return run(argc, argv, surroundings);
  } catch (const std::exception& error) {
    std::cerr << "The program met something it did not expect and stopped: " << error.what()
              << ". Nothing after the last message was written.\n";
    return kStorage;
  }
}
