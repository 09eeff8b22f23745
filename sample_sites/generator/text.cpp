// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/text.h"

#include <array>
#include <charconv>
#include <cmath>
#include <fstream>
#include <stdexcept>

namespace spanwright::sample {

std::string shortest(double value) {
  std::array<char, 64> buffer{};
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), result.ptr};
}

std::string fixedText(double value, int decimals) {
  std::array<char, 64> buffer{};
  const auto result =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
  std::string text(buffer.data(), result.ptr);
  if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) {
    text.erase(0, 1);
  }
  return text;
}

std::string padded(int value, int width) {
  std::string digits = std::to_string(value);
  const auto wanted = static_cast<std::size_t>(width);
  return digits.size() < wanted ? std::string(wanted - digits.size(), '0') + digits : digits;
}

double rounded(double value, double step) {
  return step > 0.0 ? std::round(value / step) * step : value;
}

double tidy(double value, int decimals) {
  const std::string text = fixedText(value, decimals);
  double result = 0.0;
  std::from_chars(text.data(), text.data() + text.size(), result);
  return result;
}

int decimals(double step) {
  int digits = 0;
  while (step > 0.0 && digits < 9 && std::abs(step - std::round(step)) > 1e-9) {
    step *= 10.0;
    ++digits;
  }
  return digits;
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    text += i == 0 ? "" : between;
    text += parts[i];
  }
  return text;
}

std::string quoted(std::string_view text) {
  return "\"" + std::string(text) + "\"";
}

std::string cell(std::string_view text, char separator) {
  if (text.find_first_of(std::string("\"\r\n") + separator) == std::string_view::npos) {
    return std::string(text);
  }
  std::string quotedText = "\"";
  for (const char c : text) {
    quotedText += c == '"' ? "\"\"" : std::string(1, c);
  }
  return quotedText + "\"";
}

std::string latin1(std::string_view utf8) {
  std::string text;
  for (std::size_t i = 0; i < utf8.size(); ++i) {
    const auto byte = static_cast<unsigned char>(utf8[i]);
    if (byte < 0x80U) {
      text += utf8[i];
    } else if ((byte == 0xC2U || byte == 0xC3U) && i + 1 < utf8.size()) {
      const auto next = static_cast<unsigned char>(utf8[++i]);
      text += static_cast<char>(((byte & 0x03U) << 6U) | (next & 0x3FU));
    } else {
      throw std::runtime_error("a text of the sample does not fit Latin-1: " + std::string(utf8));
    }
  }
  return text;
}

void writeFile(const std::string& path, const std::string& content) {
  std::ofstream file(path, std::ios::binary);
  file << content;
  file.close();
  if (!file) {
    throw std::runtime_error("cannot write " + path);
  }
}

}  // namespace spanwright::sample
