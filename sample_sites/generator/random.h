// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random numbers that are the same on every machine and compiler.
#pragma once

#include <cstdint>
#include <random>
#include <string_view>

namespace spanwright::sample {

/// The engine is fixed by the C++ standard, the distributions of <random> are not; hence the own transforms.
class Random {
 public:
  /// Each thing that varies has a stream of its own, named by what it is, so that one more channel leaves the
  /// readings of all others as they were.
  explicit Random(std::string_view name);

  /// In [0, 1), 53 bits.
  double uniform();
  double uniform(double low, double high);
  /// Mean 0, variance 1: twelve uniforms less six (Irwin-Hall). Only additions, so every platform agrees to
  /// the last bit, which a logarithm or cosine would not promise. Never beyond 6.
  double normal();
  /// 0 .. count - 1.
  int below(int count);
  bool chance(double probability) { return uniform() < probability; }

 private:
  std::mt19937_64 engine_;
};

}  // namespace spanwright::sample
