// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/formula.h"

#include <muParser.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

namespace spanwright {
namespace {

using One = double (*)(double);
using Two = double (*)(double, double);

double signOf(double x) {
  return x > 0.0 ? 1.0 : (x < 0.0 ? -1.0 : 0.0);
}

constexpr std::array<std::pair<const char*, One>, 18> kOne{{{"sin", std::sin},
                                                            {"cos", std::cos},
                                                            {"tan", std::tan},
                                                            {"asin", std::asin},
                                                            {"acos", std::acos},
                                                            {"atan", std::atan},
                                                            {"sinh", std::sinh},
                                                            {"cosh", std::cosh},
                                                            {"tanh", std::tanh},
                                                            {"asinh", std::asinh},
                                                            {"acosh", std::acosh},
                                                            {"atanh", std::atanh},
                                                            {"exp", std::exp},
                                                            {"ln", std::log},
                                                            {"log10", std::log10},
                                                            {"log2", std::log2},
                                                            {"sqrt", std::sqrt},
                                                            {"abs", std::fabs}}};
constexpr std::array<std::pair<const char*, Two>, 2> kTwo{{{"atan2", std::atan2}, {"hypot", std::hypot}}};
constexpr const char* kSign = "sign";
constexpr const char* kPi = "pi";

bool isLetter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}
bool isDigit(char c) {
  return c >= '0' && c <= '9';
}

bool taken(std::string_view name) {
  const auto named = [&](const auto& entry) { return name == entry.first; };
  return std::any_of(kOne.begin(), kOne.end(), named) || std::any_of(kTwo.begin(), kTwo.end(), named) ||
         name == kSign || name == kPi;
}

/// What the parser would take but a formula must not hold: an assignment, a text, several formulas.
std::optional<FormulaFault> foreignSign(const std::string& text) {
  if (text.find_first_not_of(" \t\r\n") == std::string::npos) {
    return FormulaFault{0, "is empty"};
  }
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '"') {
      return FormulaFault{i, "holds a text; only numbers and inputs can be computed with"};
    }
    if (text[i] == '=') {
      const bool second = i > 0 && std::string_view("=<>!").find(text[i - 1]) != std::string_view::npos;
      const bool first = i + 1 < text.size() && text[i + 1] == '=';
      if (!second && !first) {
        return FormulaFault{i, "holds \"=\"; only the right-hand side is written"};
      }
    }
  }
  return std::nullopt;
}

struct Word {
  std::size_t position = 0;
  std::string text;
};
/// The names in a formula; the "e" of 1.5e-3 is none.
std::vector<Word> wordsOf(const std::string& text) {
  std::vector<Word> words;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i + 1;
    if (isLetter(text[i])) {
      while (end < text.size() && (isLetter(text[end]) || isDigit(text[end]))) {
        ++end;
      }
      words.push_back({i, text.substr(i, end - i)});
    } else if (isDigit(text[i]) || text[i] == '.') {
      while (end < text.size() && (isDigit(text[end]) || text[end] == '.')) {
        ++end;
      }
      if (end < text.size() && (text[end] == 'e' || text[end] == 'E')) {
        const bool sign = end + 1 < text.size() && (text[end + 1] == '+' || text[end + 1] == '-');
        const std::size_t digits = end + (sign ? 2 : 1);
        end = digits < text.size() && isDigit(text[digits]) ? digits : end;
      }
    }
    i = end;
  }
  return words;
}

FormulaFault faultFrom(const mu::Parser::exception_type& error, const std::string& text) {
  const int shown = error.GetPos();
  const std::size_t position =
      shown < 0 ? text.size() : std::min(static_cast<std::size_t>(shown), text.size());
  const std::string& token = error.GetToken();
  if (token.empty() || position >= text.size()) {
    return {position, "ends before it is complete, or a bracket is not closed"};
  }
  if (error.GetCode() == mu::ecTOO_MANY_PARAMS || error.GetCode() == mu::ecTOO_FEW_PARAMS) {
    return {position, "gives " + token + " the wrong number of values"};
  }
  return {position, "is not understood at \"" + token + "\""};
}

}  // namespace

struct Formula::Parts {
  mu::Parser parser;
  std::vector<double> values;
  std::vector<bool> used;
};

Formula::Formula(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Formula::Formula(Formula&& other) noexcept = default;
Formula& Formula::operator=(Formula&& other) noexcept = default;
Formula::~Formula() = default;

bool usableName(std::string_view name) {
  return !name.empty() && isLetter(name.front()) &&
         std::all_of(name.begin(), name.end(), [](char c) { return isLetter(c) || isDigit(c); }) &&
         !taken(name);
}

std::variant<Formula, FormulaFault> Formula::parse(const std::string& text,
                                                   const std::vector<std::string>& names) {
  if (auto fault = foreignSign(text)) {
    return *std::move(fault);
  }
  std::vector<bool> used(names.size(), false);
  for (const Word& word : wordsOf(text)) {
    const auto input = std::find(names.begin(), names.end(), word.text);
    if (input != names.end()) {
      used[static_cast<std::size_t>(input - names.begin())] = true;
    } else if (!taken(word.text)) {
      const std::string more = word.text == "log" ? " (write ln or log10)" : "";
      return FormulaFault{word.position,
                          "uses \"" + word.text + "\", which is no input and no function" + more};
    }
  }
  auto parts = std::make_unique<Parts>();
  parts->used = std::move(used);
  parts->values.assign(names.size(), 1.0);
  mu::Parser& parser = parts->parser;
  try {
    parser.ClearFun();
    parser.ClearConst();
    for (const auto& [name, function] : kOne) {
      parser.DefineFun(name, function);
    }
    for (const auto& [name, function] : kTwo) {
      parser.DefineFun(name, function);
    }
    parser.DefineFun(kSign, signOf);
    parser.DefineConst(kPi, std::numbers::pi);
    for (std::size_t i = 0; i < names.size(); ++i) {
      assert(usableName(names[i]));
      parser.DefineVar(names[i], &parts->values[i]);
    }
    parser.SetExpr(text);
    int results = 0;
    parser.Eval(results);
    if (results != 1) {
      return FormulaFault{0, "holds several formulas, separated by commas"};
    }
  } catch (const mu::Parser::exception_type& error) {
    return faultFrom(error, text);
  }
  return Formula(std::move(parts));
}

double Formula::operator()(std::span<const double> values) const {
  assert(values.size() == parts_->values.size());
  std::copy(values.begin(), values.end(), parts_->values.begin());
  return parts_->parser.Eval();
}

bool Formula::uses(std::size_t input) const {
  return parts_->used.at(input);
}

}  // namespace spanwright
