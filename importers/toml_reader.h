// SPDX-License-Identifier: GPL-3.0-or-later
//
// TOML read strictly: every mistake is collected with its line and column, reading goes on, and the caller
// throws them all at once. Used by every TOML importer.
#pragma once

#include <toml++/toml.h>
#include <filesystem>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/record/problem.h"
#include "core/units/time.h"
#include "core/units/unit.h"

namespace spanwright {

/// The whole file as text. StorageError when it cannot be read or is larger than `limit` bytes.
std::string readWholeFile(const std::filesystem::path& file,
                          std::size_t limit = std::size_t{64} * 1024 * 1024);

/// `text` in double quotes, control characters written out and long texts shortened, for messages.
std::string inQuotes(std::string_view text);

/// The mistakes found in one file so far.
class ProblemList {
 public:
  explicit ProblemList(std::string file) : file_(std::move(file)) {}
  void add(const toml::source_position& at, std::string what, std::string todo);
  std::size_t count() const { return problems_.size(); }
  Where where(const toml::source_position& at) const;
  /// Throws InputError with all of them, in the order of the file; does nothing when there are none.
  void throwIfAny();

 private:
  std::string file_;
  std::vector<Problem> problems_;
};

/// StorageError when unreadable, InputError when it is not TOML (the parser stops at its first syntax error).
toml::table parseTomlFile(const std::filesystem::path& file);

/// What a number must be, both ends allowed unless open.
struct Bounds {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  bool lowOpen = false;
};
inline constexpr Bounds kAnyNumber{};
inline constexpr Bounds kNotNegative{0.0};
inline constexpr Bounds kPositive{0.0, std::numeric_limits<double>::infinity(), true};

template <typename T>
using Choices = std::span<const std::pair<std::string_view, T>>;

/// One table of a file. Each key asked for becomes a known key; finish() reports the others. A `need...`
/// reports a key that is missing; a value of the wrong kind is always reported, and the fallback returned.
class TomlTable {
 public:
  /// `name` is how messages call it: "[[plan]] \"AI-5UD\"". `fallback` is its place when the parser knows
  /// none.
  TomlTable(const toml::table& table, std::string name, ProblemList& problems,
            toml::source_position fallback = {});

  const std::string& name() const { return name_; }
  void rename(std::string name) { name_ = std::move(name); }
  ProblemList& problems() const { return *problems_; }
  /// Where the table begins.
  toml::source_position at() const { return at_; }
  /// Where the key's value stands; where the table begins when there is none.
  toml::source_position at(std::string_view key) const;
  bool has(std::string_view key) const { return table_->contains(key); }
  bool isTable(std::string_view key) const { return (*table_)[key].is_table(); }
  /// A mistake about this key's value: `what` follows "<key> of <table> ".
  void problem(std::string_view key, std::string_view what, std::string todo) const;

  std::string text(std::string_view key, std::string fallback = {});
  std::string needText(std::string_view key);
  /// A reading's text: a bare number is refused, because TOML reads 4.020 as 4.02 and the digits tell the
  /// resolution.
  std::string typedText(std::string_view key);
  std::vector<std::string> texts(std::string_view key);
  bool yes(std::string_view key, bool fallback);
  std::optional<double> maybeNumber(std::string_view key, Bounds bounds = kAnyNumber);
  double number(std::string_view key, double fallback, Bounds bounds = kAnyNumber);
  double needNumber(std::string_view key, Bounds bounds = kAnyNumber);
  int whole(std::string_view key, int fallback, int low, int high);
  std::optional<Date> date(std::string_view key);
  std::optional<Date> needDate(std::string_view key);
  std::optional<Moment> moment(std::string_view key);
  std::optional<Moment> needMoment(std::string_view key);
  std::optional<Unit> unit(std::string_view key);
  std::optional<Unit> needUnit(std::string_view key);

  struct Number {
    double value;
    toml::source_position at;
  };
  std::vector<Number> numbers(std::string_view key);
  struct Text {
    std::string value;
    toml::source_position at;
  };
  std::vector<Text> placedTexts(std::string_view key);

  template <typename T>
  std::optional<T> choice(std::string_view key, Choices<T> choices);
  template <typename T>
  std::optional<T> needChoice(std::string_view key, Choices<T> choices);

  std::optional<TomlTable> table(std::string_view key);
  std::optional<TomlTable> needTable(std::string_view key);
  /// A list of tables ([[key]] or key = [{...}, ...]); none when the key is missing.
  std::vector<TomlTable> tables(std::string_view key, std::string_view itemName);

  struct Key {
    std::string name;
    toml::source_position at;  ///< of the key itself
  };
  /// Every key, for tables whose keys are names given by the writer. All count as known.
  std::vector<Key> keys();
  /// Counts the key as known without reading it.
  void know(std::string_view key) { known_.emplace(key); }
  /// Reports every key that was never asked for, with the known ones.
  void finish();

 private:
  const toml::node* get(std::string_view key);
  const toml::node* need(std::string_view key, std::string_view expected);
  void wrongKind(std::string_view key, const toml::node& node, std::string_view expected) const;
  std::optional<double> numberIn(std::string_view key, const toml::node& node, Bounds bounds) const;
  std::optional<Moment> momentIn(std::string_view key, const toml::node& node) const;
  std::optional<Date> dateIn(std::string_view key, const toml::node& node) const;
  std::optional<Unit> unitIn(std::string_view key, const toml::node& node) const;
  std::optional<std::string> choiceIn(std::string_view key, const toml::node& node,
                                      const std::vector<std::string_view>& names) const;
  template <typename T>
  std::optional<T> pick(std::string_view key, const toml::node& node, Choices<T> choices) const;

  const toml::table* table_;
  std::string name_;
  ProblemList* problems_;
  toml::source_position at_;
  std::set<std::string, std::less<>> known_;
};

/// Names that must be there once: reports the second use with the line of the first.
class NameSet {
 public:
  explicit NameSet(std::string kind) : kind_(std::move(kind)) {}
  /// Empty names are ignored: they were reported as missing.
  void add(const std::string& name, const toml::source_position& at, ProblemList& problems);
  bool has(std::string_view name) const { return names_.contains(name); }
  /// Reports a name that is not there, with the nearest few that are.
  void check(const TomlTable& table, std::string_view key, const std::string& name) const;

 private:
  std::string kind_;
  std::map<std::string, toml::source_index, std::less<>> names_;
};

template <typename T>
std::optional<T> TomlTable::pick(std::string_view key, const toml::node& node, Choices<T> choices) const {
  std::vector<std::string_view> names;
  names.reserve(choices.size());
  for (const auto& choice : choices) {
    names.push_back(choice.first);
  }
  const auto found = choiceIn(key, node, names);
  if (!found) {
    return std::nullopt;
  }
  for (const auto& choice : choices) {
    if (choice.first == *found) {
      return choice.second;
    }
  }
  return std::nullopt;
}

template <typename T>
std::optional<T> TomlTable::choice(std::string_view key, Choices<T> choices) {
  const toml::node* node = get(key);
  return node == nullptr ? std::nullopt : pick(key, *node, choices);
}

template <typename T>
std::optional<T> TomlTable::needChoice(std::string_view key, Choices<T> choices) {
  const toml::node* node = need(key, "one of the words listed in sample_sites/README.md");
  return node == nullptr ? std::nullopt : pick(key, *node, choices);
}

}  // namespace spanwright
