// SPDX-License-Identifier: GPL-3.0-or-later
//
// Around a TOML file: reading it, collecting what is wrong with it, and names that must be there once.
#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>

#include "importers/toml_reader.h"

namespace spanwright {
namespace {

constexpr std::size_t kShownLength = 60;

/// Letters that differ, insert, delete or change: how near two names are.
std::size_t editDistance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) {
    row[j] = j;
  }
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t above = row[j];
      row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      diagonal = above;
    }
  }
  return row[b.size()];
}

}  // namespace

std::string readWholeFile(const std::filesystem::path& file, std::size_t limit) {
  std::error_code trouble;
  if (std::filesystem::is_directory(file, trouble)) {
    throw StorageError(fmt::format("{} is a folder, not a file; name the file itself.", file.string()));
  }
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> in(std::fopen(file.c_str(), "rb"), &std::fclose);
  if (!in) {
    throw StorageError(fmt::format("{} could not be opened ({}); check its name and that you may read it.",
                                   file.string(), std::strerror(errno)));
  }
  std::string text;
  std::string block(std::size_t{64} * 1024, '\0');
  while (const std::size_t got = std::fread(block.data(), 1, block.size(), in.get())) {
    text.append(block, 0, got);
    if (text.size() > limit) {
      throw StorageError(
          fmt::format("{} is larger than {} MiB, which no such file should be; check that it is "
                      "the right one.",
                      file.string(), limit / (std::size_t{1024} * 1024)));
    }
  }
  if (std::ferror(in.get()) != 0) {
    throw StorageError(fmt::format("{} could not be read to its end ({}); check the disk.", file.string(),
                                   std::strerror(errno)));
  }
  return text;
}

std::string inQuotes(std::string_view text) {
  std::string out = "\"";
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    // Shortened only between characters, not inside one of several bytes.
    if (out.size() > kShownLength && (c & 0xC0U) != 0x80U) {
      return out + "...\"";
    }
    if (c < 0x20 || c == 0x7F) {
      out += fmt::format("\\x{:02x}", c);
    } else {
      out += text[i];
    }
  }
  return out + "\"";
}

Where ProblemList::where(const toml::source_position& at) const {
  return Where{file_, static_cast<int>(at.line), static_cast<int>(at.column), {}};
}

void ProblemList::add(const toml::source_position& at, std::string what, std::string todo) {
  problems_.push_back(Problem{where(at), std::move(what), std::move(todo)});
}

void ProblemList::throwIfAny() {
  if (problems_.empty()) {
    return;
  }
  std::stable_sort(problems_.begin(), problems_.end(), [](const Problem& a, const Problem& b) {
    return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
  });
  throw InputError(std::move(problems_));
}

toml::table parseTomlFile(const std::filesystem::path& file) {
  const std::string text = readWholeFile(file);
  try {
    return toml::parse(text, file.string());
  } catch (const toml::parse_error& error) {
    ProblemList problems(file.string());
    std::string said(error.description());
    std::replace(said.begin(), said.end(), '\n', ' ');
    problems.add(error.source().begin, "this is not TOML as it should be (" + said + ")",
                 "correct it first; what follows it was not looked at");
    problems.throwIfAny();
    throw;  // not reached: a problem was added
  }
}

void NameSet::add(const std::string& name, const toml::source_position& at, ProblemList& problems) {
  if (name.empty()) {
    return;
  }
  const auto [where, isNew] = names_.emplace(name, at.line);
  if (!isNew) {
    problems.add(at,
                 fmt::format("the {} {} is already used in line {}", kind_, inQuotes(name), where->second),
                 "give each its own name");
  }
}

void NameSet::check(const TomlTable& table, std::string_view key, const std::string& name) const {
  if (name.empty() || has(name)) {
    return;
  }
  std::string near;
  // Only for names as people give them: comparing very long texts would take long and help nobody.
  std::size_t best = name.size() > 100 ? 0 : name.size() / 3 + 2;
  for (const auto& [known, line] : names_) {
    if (known.size() > name.size() + best) {
      continue;
    }
    if (const std::size_t distance = best == 0 ? 1 : editDistance(name, known); distance < best) {
      best = distance;
      near = known;
    }
  }
  table.problem(key, fmt::format("names the {} {}, which is not in this file", kind_, inQuotes(name)),
                near.empty() ? fmt::format("describe that {} here or correct the name", kind_)
                             : fmt::format("did you mean {}?", inQuotes(near)));
}

}  // namespace spanwright
