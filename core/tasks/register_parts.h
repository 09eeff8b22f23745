// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the changes of the register have in common. Private to them.
#pragma once

#include <string>
#include <string_view>

#include "core/tasks/register_changes.h"

namespace spanwright {

/// Is anybody present who may change this?
bool anybodyMay(const Register& site, RegisterKind kind, Date today);
/// Adds the editorProblem, if there is one.
void checkEditor(const Store& store, std::string_view login, RegisterKind kind, FieldReader& reader);
/// InputError with what the reader collected.
void throwIfAny(FieldReader& reader);
/// InputError when there is none.
const Channel& channelOf(const Register& site, std::string_view tag);
/// nullptr when there is none.
const Place* placeOf(const Register& site, std::string_view path);

/// What is written while it lives is in this person's name.
class ActingAs {
 public:
  ActingAs(Store& store, std::string_view login) : store_(store) { store_.actAs(std::string(login)); }
  ~ActingAs() { store_.actAs({}); }
  ActingAs(const ActingAs&) = delete;
  ActingAs& operator=(const ActingAs&) = delete;

 private:
  Store& store_;
};

}  // namespace spanwright
