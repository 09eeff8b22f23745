// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/random.h"

namespace spanwright::sample {

namespace {

// FNV-1a, 64 bit.
std::uint64_t seedOf(std::string_view name) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : name) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211ULL;
  }
  return hash;
}

}  // namespace

Random::Random(std::string_view name) : engine_(seedOf(name)) {}

double Random::uniform() {
  return static_cast<double>(engine_() >> 11U) * 0x1.0p-53;
}

double Random::uniform(double low, double high) {
  return low + (high - low) * uniform();
}

double Random::normal() {
  double sum = -6.0;
  for (int i = 0; i < 12; ++i) {
    sum += uniform();
  }
  return sum;
}

int Random::below(int count) {
  return static_cast<int>(uniform() * count);
}

}  // namespace spanwright::sample
