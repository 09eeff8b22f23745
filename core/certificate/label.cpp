// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/label.h"

namespace spanwright {

std::string labelText(const ChannelLabel& label) {
  std::string text = label.tag;
  const auto add = [&text](const char* word, const std::string& value) {
    if (!value.empty()) {
      text += '\n';
      text += word;
      text += value;
    }
  };
  add("", label.subject);
  add("calibrated ", label.calibrated);
  add("due ", label.due);
  add("certificate ", label.certificate);
  return text;
}

}  // namespace spanwright
