// SPDX-License-Identifier: GPL-3.0-or-later
//
// A certificate as somebody holds it: its PDF, or the data that goes with it.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>

namespace spanwright {

struct HandedOutCertificate {
  std::string data;  ///< the JSON document, certificate_data.h
  /// Of a PDF: every word on its pages with how often it stands there, and what tells the paper apart. Empty
  /// for data alone.
  std::map<std::string, int> words;
  int pages = 0;
  double paperWidth = 0.0;  ///< in points of 1/72 inch
};

/// The words on a PDF's pages. InputError when the file is none or cannot be read.
std::map<std::string, int> pdfWords(const std::filesystem::path& file);

/// `dataName` is what the data is called inside a PDF. InputError when the file cannot be read, is neither a
/// PDF nor such data, or is a PDF without it.
HandedOutCertificate readCertificateFile(const std::filesystem::path& file, std::string_view dataName);

}  // namespace spanwright
