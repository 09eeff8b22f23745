// SPDX-License-Identifier: GPL-3.0-or-later
//
// Passphrases from the terminal, unseen, or from a file.
#pragma once

#include <string>

#include "core/store/store.h"
#include "core/tasks/signing.h"

namespace spanwright {

/// The first line of `file`; with an empty name typed at the terminal after `prompt`, twice for a new one.
/// InputError when the file cannot be read, there is no terminal, or the two differ.
std::string passphraseFrom(const std::string& file, const std::string& prompt, bool isNew);

/// The person with their passphrase; a new one is asked for where they have none yet.
Signer signerFrom(const Store& store, const std::string& person, const std::string& file);

}  // namespace spanwright
