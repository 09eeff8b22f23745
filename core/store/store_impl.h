// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands behind a Store. Private to the store.
#pragma once

#include <fmt/format.h>

#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "core/record/problem.h"
#include "core/store/journal.h"
#include "core/store/register_rows.h"
#include "core/store/staging.h"
#include "core/store/store.h"

namespace spanwright {

struct Store::Impl {
  std::filesystem::path file;
  bool readOnly = false;
  std::string stopped;  ///< why nothing is written any more, or empty
  const Clock* clock = nullptr;
  std::unique_ptr<Connection> connection;
  LoadedRegister loaded;
  std::string actor;
  bool transactionOpen = false;
  std::optional<LoadedRegister>
      before;  ///< the register as it was when the open transaction first changed it
  std::unique_ptr<Staging> staging;

  const std::string& code() const { return loaded.site.site.code; }

  /// Enters into the journal, inside the open change.
  JournalHead enter(const Act& act, std::string_view person) {
    return Journal(*connection, code()).append(act, person, clock->utcNow());
  }
  JournalHead enter(const Act& act) { return enter(act, actor); }

  /// Runs `work`, which changes rows of this unit, and enters what changed.
  template <class Work>
  void enterChange(const UnitKey& unit, Work work) {
    const std::string was = unitJson(*connection, code(), unit);
    work();
    enter({acts::kChanged, unit, changeDetail(was, unitJson(*connection, code(), unit))});
  }

  Channel& channel(std::string_view tag) {
    for (Channel& channel : loaded.site.channels) {
      if (channel.tag == tag) {
        return channel;
      }
    }
    throw InputError(fmt::format("there is no channel \"{}\" in the record", tag), "check the tag");
  }

  void refuseUnlessWritable() const {
    if (readOnly) {
      connection->refuse("was opened for reading only", "open it for writing to change it");
    }
    if (!stopped.empty()) {
      throw StorageError(stopped);
    }
  }

  /// Runs `work` as one transaction, or as a part of the open one that is undone alone when it throws.
  template <class Work>
  auto write(Work work) {
    refuseUnlessWritable();
    if (transactionOpen && !connection->inTransaction()) {
      connection->refuse("could not be changed because an earlier part of the same change failed",
                         "nothing of it was saved, try again from the start");
    }
    WriteScope scope(*connection);
    if constexpr (std::is_void_v<decltype(work())>) {
      work();
      scope.commit();
    } else {
      auto result = work();
      scope.commit();
      return result;
    }
  }

  /// Changes the register in the record by `work`, then in memory by `apply`.
  template <class Work, class Apply>
  void changeRegister(Work work, Apply apply) {
    write([&] {
      reloadWhenChanged();  // nobody else can change it from here on
      work();
      raiseRegisterRevision(*connection);
    });
    if (transactionOpen && !before) {
      before = loaded;
    }
    apply();
    ++loaded.revision;
    loaded.site.index();
  }

  /// Changes rows of the register by `work(connection, site)`, then reads it again as a whole: what was
  /// changed shows in more than one place of it.
  template <class Work>
  void editRegister(Work work) {
    write([&] {
      reloadWhenChanged();  // nobody else can change it from here on
      work(*connection, std::string_view(code()));
      raiseRegisterRevision(*connection);
    });
    if (transactionOpen && !before) {
      before = loaded;
    }
    loaded = loadRegister(*connection);
  }

  void reloadWhenChanged() {
    if (registerRevision(*connection) != loaded.revision) {
      loaded = loadRegister(*connection);
    }
  }

  void undo() noexcept {
    connection->rollback();
    transactionOpen = false;
    if (before) {
      loaded = std::move(*before);
      before.reset();
      loaded.site.index();
    }
  }
};

/// 0, the key of nothing, when the name is not known.
inline std::int64_t keyOrNone(const Keys::Map& keys, std::string_view name) {
  const auto found = keys.find(std::string(name));
  return found == keys.end() ? 0 : found->second;
}

/// Faults without a place as problems.
inline std::vector<Problem> problemsOf(const std::vector<std::string>& faults) {
  std::vector<Problem> problems;
  problems.reserve(faults.size());
  for (const std::string& fault : faults) {
    problems.push_back({{}, fault, "correct it and try again"});
  }
  return problems;
}

}  // namespace spanwright
