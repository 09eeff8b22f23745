// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/problem.h"

#include <fmt/format.h>

namespace spanwright {

std::string sentence(const Problem& problem) {
  std::string text;
  const Where& where = problem.where;
  if (!where.file.empty()) {
    text += where.file;
    if (where.line > 0) {
      text += fmt::format(":{}", where.line);
    }
    if (where.line > 0 && where.column > 0) {
      text += fmt::format(":{}", where.column);
    }
    text += ": ";
  } else if (where.line > 0) {
    text += fmt::format("line {}: ", where.line);
  }
  if (!where.columnName.empty()) {
    text += fmt::format("column \"{}\": ", where.columnName);
  }
  text += problem.what;
  if (!problem.todo.empty()) {
    text += "; " + problem.todo;
  }
  text += ".";
  return text;
}

namespace {

std::string summary(const std::vector<Problem>& problems) {
  if (problems.empty()) {
    return "The input was refused.";
  }
  if (problems.size() == 1) {
    return sentence(problems.front());
  }
  return fmt::format("{} ({} mistakes in all)", sentence(problems.front()), problems.size());
}

}  // namespace

InputError::InputError(std::vector<Problem> problems)
    : std::runtime_error(summary(problems)), problems_(std::move(problems)) {}

InputError::InputError(std::string what, std::string todo, Where where)
    : InputError(std::vector<Problem>{Problem{std::move(where), std::move(what), std::move(todo)}}) {}

}  // namespace spanwright
