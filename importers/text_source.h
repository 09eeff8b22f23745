// SPDX-License-Identifier: GPL-3.0-or-later
//
// A text file of any of the usual encodings as a stream of UTF-8, a block at a time.
#pragma once

#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "importers/csv_history.h"

namespace spanwright {

class TextSource {
 public:
  /// A byte order mark goes before `encoding`. `detect` goes by the zero bytes of UTF-16, else takes UTF-8.
  /// Latin-1 cannot be told from damaged UTF-8, so it must be declared; it is read as Windows-1252, which
  /// adds printable characters only. StorageError when the file cannot be opened; InputError when it is empty
  /// or of a kind that holds no text.
  TextSource(const std::filesystem::path& file, Encoding encoding);
  ~TextSource();
  TextSource(const TextSource&) = delete;
  TextSource& operator=(const TextSource&) = delete;

  /// The next piece, valid until the next call; empty at the end. What the encoding does not have comes as
  /// the byte 0xFF, which UTF-8 never has, so that the line it stands in can be refused by name. StorageError
  /// when the disk fails.
  std::string_view next();

  const std::filesystem::path& file() const { return file_; }
  /// "UTF-8", "UTF-16LE", "UTF-16BE" or "Windows-1252".
  std::string_view encodingName() const { return encodingName_; }
  /// How much of the file was handed out, 0..1.
  double done() const;

 private:
  struct Converter;

  void fillBlock();
  void recognise(Encoding encoding);

  std::filesystem::path file_;
  std::unique_ptr<std::FILE, int (*)(std::FILE*)> in_;
  std::string block_;
  std::string_view rest_;  // of block_, not yet handed out
  std::string_view encodingName_;
  std::unique_ptr<Converter> converter_;  // none for UTF-8
  std::string converted_;
  double size_ = 0.0;
  double read_ = 0.0;
};

}  // namespace spanwright
