// SPDX-License-Identifier: GPL-3.0-or-later
//
// An invented register with everything in it, random calibrations, and what the store's tests share.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <random>
#include <string>

#include "core/record/problem.h"
#include "core/store/store.h"

namespace spanwright::test {

/// A folder of its own for one test, gone afterwards.
class Folder {
 public:
  Folder();
  explicit Folder(const std::filesystem::path& in);
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
  const std::filesystem::path& path() const { return path_; }
  std::vector<std::string> names() const;  ///< of what is in it, sorted

 private:
  std::filesystem::path path_;
};

class FixedClock : public Clock {
 public:
  explicit FixedClock(std::string_view local, std::string_view utc = {});
  Moment localNow() const override { return local; }
  Moment utcNow() const override { return utc; }
  Moment local, utc;
};

Moment at(std::string_view text);
Date on(std::string_view text);

Register sampleRegister();
/// A calibration that fits the sample register; everything in it is random, infinite limits and skips
/// included.
Calibration randomCalibration(std::mt19937_64& random);
/// A small plain one on the channel, `readings` of them as found.
Calibration plainCalibration(std::string_view channel, std::string_view performed, int readings = 5);

/// Makes the record kept as records/version_N.sql: always the same.
void makeSampleRecord(const std::filesystem::path& file);

/// Every field as text, numbers to the last bit: equal texts mean equal values. Field lists are structured
/// bindings, so a field added to a type stops this from compiling until it is listed.
std::string everything(const Register& site);
std::string everything(const Calibration& calibration);
std::string everything(const CalibrationSummary& summary);
std::string everything(const Draft& draft);

/// Runs `work` and returns what StorageError said; fails the test when none came.
template <class Work>
std::string refusal(Work work) {
  try {
    work();
  } catch (const StorageError& error) {
    return error.what();
  }
  ADD_FAILURE() << "no StorageError";
  return {};
}

/// The same for InputError.
template <class Work>
std::string inputRefusal(Work work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.what();
  }
  ADD_FAILURE() << "no InputError";
  return {};
}

/// One sentence for people: begins with the file's name, has a full stop only at its end, tells what to do.
void expectSentence(const std::string& text, const std::filesystem::path& file);

}  // namespace spanwright::test
