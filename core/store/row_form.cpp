// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/row_form.h"

#include "core/units/number.h"

namespace spanwright {
namespace {

struct Writer {
  std::string& text;

  void operator()(std::monostate) const { text += 'n'; }
  void operator()(std::int64_t value) const { text += 'i' + std::to_string(value); }
  void operator()(double value) const { text += 'r' + formatShortest(value); }
  void operator()(std::string_view value) const { counted('t', value); }
  void operator()(Bytes value) const { counted('b', value.view); }

  void counted(char kind, std::string_view value) const {
    text += kind;
    text += std::to_string(value.size());
    text += ':';
    text += value;
  }
};

}  // namespace

RowForm& RowForm::add(std::string_view column, const RowValue& value) {
  text_ += column;
  text_ += ':';
  std::visit(Writer{text_}, value);
  text_ += '\n';
  return *this;
}

}  // namespace spanwright
