// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/certificate_file.h"

#include <fmt/format.h>
#include <poppler-document.h>
#include <poppler-embedded-file.h>
#include <poppler-page.h>

#include <fstream>
#include <memory>
#include <sstream>

#include "core/record/problem.h"

namespace spanwright {
namespace {

/// Certificates of this program are far smaller; what is larger is something else.
constexpr std::uintmax_t kLargest = std::uintmax_t{64} << 20;

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& what,
                         const std::string& todo) {
  Where where;
  where.file = file.string();
  throw InputError(what, todo, where);
}

std::string contentOf(const std::filesystem::path& file) {
  std::error_code error;
  const std::uintmax_t size = std::filesystem::file_size(file, error);
  if (error || !std::filesystem::is_regular_file(file)) {
    refuse(file, "the certificate cannot be read", "name the PDF, or the data that goes with it");
  }
  if (size > kLargest) {
    refuse(file, "the file is too large for a certificate", "name the PDF, or the data that goes with it");
  }
  std::ifstream in(file, std::ios::binary);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  if (!in) {
    refuse(file, "the certificate cannot be read", "name the PDF, or the data that goes with it");
  }
  return bytes.str();
}

std::unique_ptr<poppler::document> openPdf(const std::filesystem::path& file, const std::string& content) {
  poppler::set_debug_error_function([](const std::string&, void*) {}, nullptr);
  std::unique_ptr<poppler::document> document(
      poppler::document::load_from_raw_data(content.data(), static_cast<int>(content.size())));
  if (!document || document->is_locked()) {
    refuse(file, "the file is damaged or no PDF", "name the certificate as it was handed out");
  }
  return document;
}

void addWords(const poppler::document& document, HandedOutCertificate& out) {
  out.pages = document.pages();
  for (int i = 0; i < out.pages; ++i) {
    const std::unique_ptr<poppler::page> page(document.create_page(i));
    if (!page) {
      continue;
    }
    out.paperWidth = page->page_rect().width();
    const poppler::byte_array bytes = page->text().to_utf8();
    std::istringstream text(std::string(bytes.begin(), bytes.end()));
    for (std::string word; text >> word;) {
      ++out.words[word];
    }
  }
}

}  // namespace

std::map<std::string, int> pdfWords(const std::filesystem::path& file) {
  const std::string content = contentOf(file);
  HandedOutCertificate out;
  addWords(*openPdf(file, content), out);
  return out.words;
}

HandedOutCertificate readCertificateFile(const std::filesystem::path& file, std::string_view dataName) {
  const std::string content = contentOf(file);
  HandedOutCertificate out;
  if (!content.starts_with("%PDF")) {
    const std::size_t first = content.find_first_not_of(" \t\r\n");
    if (first == std::string::npos || content[first] != '{') {
      refuse(file, "the file is neither a PDF nor the data of a certificate",
             "name the certificate as it was handed out");
    }
    out.data = content;
    return out;
  }
  const auto document = openPdf(file, content);
  for (const poppler::embedded_file* embedded : document->embedded_files()) {
    if (embedded->is_valid() && embedded->name() == dataName) {
      const poppler::byte_array bytes = embedded->data();
      out.data.assign(bytes.begin(), bytes.end());
    }
  }
  if (out.data.empty()) {
    refuse(file, fmt::format("the PDF holds no \"{}\"", dataName),
           "name a certificate as this program issued it; a print or a scan can only be compared by eye");
  }
  addWords(*document, out);
  return out;
}

}  // namespace spanwright
