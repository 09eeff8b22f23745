// SPDX-License-Identifier: GPL-3.0-or-later
//
// What becomes of a calibration after it was recorded, and who may do it.
//
//   recorded ── performed ── reviewed ── approved
//                  │            │           │
//                  └ sent back ─┘           │        sent back: signed as performed again, or corrected
//   any of them ── withdrawn, or superseded by a correction: the end
//
// Each step but superseded is signed. No step is left out: what is approved was reviewed, what is reviewed
// was performed (ISO/IEC 17025:2017 7.8.1.1; 21 CFR 11.10(f) and (g)). Nobody reviews, approves, sends back
// or withdraws as reviewer what they performed themselves.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "core/record/calibration.h"
#include "core/record/problem.h"
#include "core/record/register.h"
#include "core/units/time.h"

namespace spanwright {

enum class LifeAct { performed, reviewed, approved, sentBack, withdrawn, superseded };
enum class LifeState { recorded, performed, reviewed, approved, sentBack, withdrawn, superseded };

struct LifeEvent {
  std::int64_t id = 0;  ///< 0 until stored
  CalibrationId calibration = 0;
  LifeAct act = LifeAct::performed;
  std::string person;            ///< login
  Moment atUtc;                  ///< whole seconds
  std::string reason;            ///< sent back, withdrawn; a remark for the others
  CalibrationId correction = 0;  ///< superseded: by which calibration
  std::string digest;            ///< of the calibration's rows then, 32 bytes
  std::int64_t key = 0;          ///< the person's key by its number; 0: unsigned
  std::string signature;         ///< Ed25519, 64 bytes
};

/// After events in their order; recorded when there are none.
LifeState stateAfter(std::span<const LifeEvent> events);
LifeState stateAfter(LifeAct last);
/// Neither withdrawn nor superseded: its readings count for drift.
bool counts(LifeState state);
/// Counts, and was not sent back: it can prove a setup and start an interval.
bool proves(LifeState state);

/// What an act needs besides a person's passphrase.
struct ActRequest {
  LifeAct act = LifeAct::performed;
  std::string person;  ///< login
  std::string reason;
  Date today;
};
/// Why this person may not do this to the calibration now, or nothing. Not for superseded, which the record
/// does itself.
std::optional<Problem> actFault(const Register& site, const Calibration& calibration,
                                std::span<const LifeEvent> events, const ActRequest& request);
/// Why `correction` cannot take the place of `corrected`, or nothing.
std::optional<Problem> correctionFault(const Calibration& corrected, std::span<const LifeEvent> events,
                                       const Calibration& correction);

/// The text that is signed: every field on its own line, texts with their length. `publicKey` 32 bytes.
std::string signedText(std::string_view site, const LifeEvent& event, std::string_view publicKey);

std::string_view text(LifeAct act);      // "performed", "reviewed", "approved", "sent back" ...
std::string_view text(LifeState state);  // the same words, and "recorded"
std::optional<LifeAct> parseLifeAct(std::string_view text);
std::optional<LifeState> parseLifeState(std::string_view text);

}  // namespace spanwright
