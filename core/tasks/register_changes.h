// SPDX-License-Identifier: GPL-3.0-or-later
//
// Filling and changing the register by forms: who may, what is refused and where it stands in the form
// (Where::field), and what a new setup costs. Nothing is written when anything is wrong.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/typed_register.h"

namespace spanwright {

/// What a form is about.
enum class RegisterKind { site, place, person, standard, sensor, plan, interval, channel };
/// By which field one is told from another: "login", "serial", "code", "tag"; it stays once it is kept.
std::string_view nameField(RegisterKind kind);

/// Why this person may not change the register on that day: only planners and administrators may, and only
/// administrators what people may do. While nobody who may is there, anybody present may enter people, so
/// that somebody can be named. The problem's field is "by".
std::optional<Problem> editorProblem(const Register& site, std::string_view login, RegisterKind kind,
                                     Date today);

/// The register of a new site: fields of the site, "person." those of the first one, who must be an
/// administrator, "place" its first place (may be empty). InputError with all that is wrong.
Register newSite(const TypedFields& fields);

/// The fields of one that is there, by name (a place by its path); of the site for any name. Nothing when it
/// is not there.
std::optional<TypedFields> fieldsFor(const Register& site, RegisterKind kind, std::string_view name);

/// Adds what the fields say. A channel's setup stands below "setup.", a sensor fitted at once in
/// "fitting.sensor" (from the setup's moment). Answers its name; InputError with all that is wrong.
std::string addToRegister(Store& store, RegisterKind kind, const TypedFields& fields, std::string_view by);
/// Changes the one of this name to what the fields say; what tells it from others, its setups and its
/// fittings stay. A plan whose points, tolerance or rule change needs another revision. Answers its name.
std::string changeInRegister(Store& store, RegisterKind kind, std::string_view name,
                             const TypedFields& fields, std::string_view by);

/// A routine's proof that a new setup puts an end to.
struct LostProof {
  Subject subject = Subject::channel;
  CalibrationId calibration = 0;
  Date provenOn;
  std::optional<Date> dueOn;
};
struct SetupEffect {
  SetupVersion setup;           ///< as it would be kept, with its version
  std::vector<LostProof> lost;  ///< proven now, unproven from the new setup's moment on
  int judgedBefore = 0;         ///< calibrations performed after that moment, kept under the setup they had
};
/// What the setup in the fields means, in one line: "4 mA = 0 degC, 20 mA = 250 degC (4-20 mA to 0-250
/// degC)"; empty while it cannot be read.
std::string setupPreview(const TypedFields& fields, std::string_view prefix = {});
/// What the setup in the fields would do to the channel; InputError with all that is wrong. Writes nothing.
SetupEffect setupEffect(const Store& store, std::string_view channel, const TypedFields& fields);
/// Keeps it as the next version.
SetupEffect putSetupInForce(Store& store, std::string_view channel, const TypedFields& fields,
                            std::string_view by);

/// Fits a sensor (fields sensor and from) to the channel, which ends the fitting before it there and where
/// the sensor was.
void fitSensor(Store& store, std::string_view channel, const TypedFields& fields, std::string_view by);

}  // namespace spanwright
