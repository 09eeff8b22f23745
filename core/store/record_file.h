// SPDX-License-Identifier: GPL-3.0-or-later
//
// A record's file: making one so that a failure leaves nothing behind, and opening one only when it is whole,
// ours and not newer than this program. Private to the store.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>

#include "core/store/sqlite_connection.h"

namespace spanwright {

/// Makes a file whole or not at all: `make` fills one beside it, which then gets the name. StorageError when
/// `file` is there already; it is never overwritten.
void makeFile(const std::filesystem::path& file,
              const std::function<void(const std::filesystem::path&)>& make);

/// Makes the tables in a file beside `file`, lets `fill` write into them, and only then gives the file its
/// name. StorageError when `file` is there already; it is never overwritten.
void createRecordFile(const std::filesystem::path& file, const std::function<void(Connection&)>& fill);

/// Opens and checks; brings an older record to the present version unless `readOnly`. Without `whole` only
/// the head of a record of the present version is looked at.
std::unique_ptr<Connection> openRecordFile(const std::filesystem::path& file, bool readOnly, bool whole);

/// What opening without `whole` leaves out, on a connection of its own. StorageError when something is found,
/// InputError "cancelled" when `goOn` says false, which it is asked all the time.
void checkRecordFile(const std::filesystem::path& file, std::function<bool()> goOn);

/// Opens for reading only, as far as the file is ours and of the present version; what its rows say is not
/// looked at.
std::unique_ptr<Connection> openForChecking(const std::filesystem::path& file);

}  // namespace spanwright
