// SPDX-License-Identifier: GPL-3.0-or-later
//
// Work on a record for programs that are going to be interrupted: rounds of saves of every kind, always the
// same ones in the same order. A save is one action of a person that the program answers with "saved".
#pragma once

#include <array>
#include <filesystem>
#include <string>

#include "core/store/store.h"
#include "tests/core/store/samples.h"

namespace spanwright::test {

/// The saves of one round, in order.
enum class Save {
  beginDraft,
  firstValue,
  secondValue,
  thirdValue,
  changeDraft,
  enterVisit,
  sign,
  importHistory,
  addSetup,
  fitSensor,
  addStandardCertificate,
  issueCertificate,
  attachFile
};
inline constexpr int kSavesOfRound = 13;
/// The save of this number, counted over all rounds from 0.
struct NumberedSave {
  int round;
  Save save;
};
inline NumberedSave numbered(int number) {
  return {number / kSavesOfRound, static_cast<Save>(number % kSavesOfRound)};
}
const char* text(Save save);

/// The moment at which all work is done.
const FixedClock& workClock();
/// A new record of a small invented site: the same to the last byte of its journal each time.
Store makeBareRecord(const std::filesystem::path& file);
/// The same, and the technician has a key.
Store makeRecord(const std::filesystem::path& file);
Store openRecord(const std::filesystem::path& file, Store::Mode mode = Store::Mode::readWrite);

/// Does it. The saves of a round need those before them.
void doSave(Store& store, NumberedSave save);
/// A visit unlike any of the rounds', for programs that enter many at once.
CalibrationId enterLooseVisit(Store& store, int number);
std::optional<CalibrationId> looseVisit(const Store& store, int number);

/// All that the record says, as text; without its journal.
std::string everything(const Store& store);
/// The last entry of the journal and the hash that stands for all of it.
std::string journalEnd(const Store& store);
/// What the record holds of one round, as text; without the numbers the store allots.
std::string contentOfRound(const Store& store, int round);

/// Where the records of these tests lie: in memory when the machine offers it, because waiting for the real
/// disk at every sync takes most of the time and shows nothing about these faults.
std::filesystem::path quickFolder();

/// A record as somebody finds it who opens it for writing, which repairs what a fault left.
struct Examined {
  std::string wrong;  ///< the first finding of every check there is; empty when all is well
  std::string says;   ///< everything(), when nothing is wrong
  std::string end;    ///< journalEnd()
};
Examined examine(const std::filesystem::path& file);

}  // namespace spanwright::test
