// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/attachments.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <system_error>
#include <utility>

#include "core/record/problem.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

/// The file's content; InputError says what is wrong with it.
std::string contentToAttach(const fs::path& file) {
  const Where where{file.string(), 0, 0, {}};
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (!fs::exists(status)) {
    throw InputError("there is no such file", "check its name", where);
  }
  if (!fs::is_regular_file(status)) {
    throw InputError("this is not a file", "attach one file at a time", where);
  }
  const std::uintmax_t size = fs::file_size(file, error);
  if (!error && size > kLargestAttachment) {
    throw InputError(fmt::format("the file has {:.1f} MiB, and a record takes files of up to {} MiB",
                                 static_cast<double>(size) / (1 << 20), kLargestAttachment >> 20),
                     "attach a smaller copy, or keep it elsewhere and attach a note of where", where);
  }
  std::ifstream in(file, std::ios::binary);
  std::string content(error ? 0 : size, '\0');
  if (!in || error || !in.read(content.data(), static_cast<std::streamsize>(size)) ||
      in.peek() != std::ifstream::traits_type::eof()) {
    throw InputError("the file cannot be read to its end", "check that you may read it and that it is closed",
                     where);
  }
  if (content.empty()) {
    throw InputError("the file is empty", "attach one with something in it", where);
  }
  return content;
}

}  // namespace

std::string_view mediaTypeOf(std::string_view name) {
  // IANA's registered names of the forms that papers and pictures come in.
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 17> kTypes{
      {{".pdf", "application/pdf"},
       {".png", "image/png"},
       {".jpg", "image/jpeg"},
       {".jpeg", "image/jpeg"},
       {".tif", "image/tiff"},
       {".tiff", "image/tiff"},
       {".gif", "image/gif"},
       {".webp", "image/webp"},
       {".heic", "image/heic"},
       {".txt", "text/plain"},
       {".csv", "text/csv"},
       {".json", "application/json"},
       {".xml", "application/xml"},
       {".zip", "application/zip"},
       {".odt", "application/vnd.oasis.opendocument.text"},
       {".docx", "application/vnd.openxmlformats-officedocument.wordprocessingml.document"},
       {".xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"}}};
  const std::string ending = lower(fs::path(name).extension().string());
  for (const auto& [known, type] : kTypes) {
    if (known == ending) {
      return type;
    }
  }
  return "application/octet-stream";
}

std::int64_t attachFile(Store& store, const fs::path& file, Attachment about) {
  const std::string content = contentToAttach(file);
  about.name = file.filename().string();
  about.mediaType = mediaTypeOf(about.name);
  return store.addAttachment(about, content);
}

std::string fileNameOf(const Attachment& attachment) {
  constexpr std::size_t kLongest = 100;
  std::string safe;
  for (const char c : attachment.name) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = byte < 0x80 && (std::isalnum(byte) != 0 || c == '.' || c == '-' || c == '_');
    if (plain || !safe.ends_with('_')) {
      safe += plain ? c : '_';
    }
  }
  if (safe.size() > kLongest) {
    safe = safe.substr(safe.size() - kLongest);  // the ending tells what to open it with
  }
  return fmt::format("{}-{}", attachment.id, safe);
}

fs::path writeAttachment(const Store& store, const Attachment& attachment, const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  const fs::path file = folder / fileNameOf(attachment);
  if (error) {
    throw StorageError(
        fmt::format("The folder {} cannot be made ({}); give another.", folder.string(), error.message()));
  }
  saveAttachment(store, attachment, file);
  return file;
}

void saveAttachment(const Store& store, const Attachment& attachment, const fs::path& file) {
  if (fs::exists(file)) {
    throw StorageError(
        fmt::format("The file {} is already there; give another folder or name, a file is never overwritten.",
                    file.string()));
  }
  const std::string content = store.attachmentContent(attachment.id);
  std::ofstream out(file, std::ios::binary);
  out << content;
  out.close();
  if (!out) {
    std::error_code error;
    fs::remove(file, error);
    throw StorageError(
        fmt::format("The file {} cannot be written; give another folder, or make room.", file.string()));
  }
}

}  // namespace spanwright
