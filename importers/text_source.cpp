// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/text_source.h"

#include <fmt/format.h>
#include <iconv.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

#include "importers/file_words.h"

namespace spanwright {
namespace {

constexpr std::size_t kBlockSize = std::size_t{256} * 1024;
constexpr std::string_view kUtf16LeMark = "\xFF\xFE";
constexpr std::string_view kUtf16BeMark = "\xFE\xFF";
constexpr std::string_view kZipMark = "PK\x03\x04";
constexpr std::string_view kOldSpreadsheetMark = "\xD0\xCF\x11\xE0";
constexpr char kUndecodable = '\xFF';

[[noreturn]] void refuseFile(const std::filesystem::path& file, std::string what, std::string todo) {
  throw InputError(std::move(what), std::move(todo), Where{file.string(), 1, 0, {}});
}

/// UTF-16 without a mark: text of the Latin alphabet has a zero in every second byte, and UTF-8 text has
/// none.
Encoding guessed(std::string_view head) {
  std::size_t zeros[2] = {0, 0};
  const std::size_t looked = std::min<std::size_t>(head.size(), 4096) & ~std::size_t{1};
  for (std::size_t i = 0; i < looked; ++i) {
    zeros[i % 2] += head[i] == '\0' ? 1U : 0U;
  }
  const std::size_t many = looked / 8;
  if (looked >= 4 && zeros[1] > many && zeros[0] < zeros[1] / 8 + 1) {
    return Encoding::utf16le;
  }
  if (looked >= 4 && zeros[0] > many && zeros[1] < zeros[0] / 8 + 1) {
    return Encoding::utf16be;
  }
  return Encoding::utf8;
}

}  // namespace

/// iconv with what it left over between blocks.
struct TextSource::Converter {
  explicit Converter(const char* from) : handle(iconv_open("UTF-8", from)) {}
  ~Converter() {
    if (valid()) {
      iconv_close(handle);
    }
  }
  Converter(const Converter&) = delete;
  Converter& operator=(const Converter&) = delete;
  // iconv_open's own way of saying that it failed.
  bool valid() const { return handle != reinterpret_cast<iconv_t>(-1); }  // NOLINT(performance-no-int-to-ptr)

  /// Appends `input` to `out`; keeps an unfinished character for the next call, unless this is the last.
  void convert(std::string_view input, bool last, std::string& out) {
    pending.append(input);
    char* from = pending.data();
    std::size_t left = pending.size();
    char piece[16384];
    while (left > 0) {
      char* to = piece;
      std::size_t room = sizeof piece;
      const std::size_t result = iconv(handle, &from, &left, &to, &room);
      const int trouble = result == static_cast<std::size_t>(-1) ? errno : 0;
      out.append(piece, sizeof piece - room);
      if (trouble == EILSEQ) {
        const std::size_t skipped = std::min(left, unitSize);
        from += skipped;
        left -= skipped;
        out += kUndecodable;
      } else if (trouble == EINVAL) {
        break;  // the rest of a character is in the next block
      }
    }
    if (last && left > 0) {
      out += kUndecodable;
      left = 0;
    }
    pending.erase(0, pending.size() - left);
  }

  iconv_t handle;
  std::size_t unitSize = 1;
  std::string pending;
};

TextSource::TextSource(const std::filesystem::path& file, Encoding encoding)
    : file_(file), in_(nullptr, &std::fclose), block_(kBlockSize, '\0') {
  std::error_code trouble;
  if (std::filesystem::is_directory(file, trouble)) {
    throw StorageError(fmt::format("{} is a folder, not a file; name the file itself.", file.string()));
  }
  in_.reset(std::fopen(file.c_str(), "rb"));
  if (!in_) {
    throw StorageError(fmt::format("{} could not be opened ({}); check its name and that you may read it.",
                                   file.string(), std::strerror(errno)));
  }
  const auto size = std::filesystem::file_size(file, trouble);
  size_ = trouble ? 0.0 : static_cast<double>(size);
  fillBlock();
  recognise(encoding);
}

TextSource::~TextSource() = default;

void TextSource::fillBlock() {
  const std::size_t got = std::fread(block_.data(), 1, block_.size(), in_.get());
  if (got < block_.size() && std::ferror(in_.get()) != 0) {
    throw StorageError(fmt::format("{} could not be read to its end ({}); check the disk.", file_.string(),
                                   std::strerror(errno)));
  }
  read_ += static_cast<double>(got);
  rest_ = std::string_view(block_.data(), got);
}

void TextSource::recognise(Encoding encoding) {
  if (rest_.empty()) {
    refuseFile(file_, "the file is empty", "check that it was copied whole");
  }
  if (rest_.starts_with(kZipMark) || rest_.starts_with(kOldSpreadsheetMark)) {
    refuseFile(file_, "this is a spreadsheet or an archive, not text",
               "open it where it was made and save the sheet as CSV");
  }
  const bool utf8Mark = rest_.starts_with(kUtf8Mark);
  const bool leMark = rest_.starts_with(kUtf16LeMark);
  const bool beMark = rest_.starts_with(kUtf16BeMark);
  if (leMark && rest_.size() >= 4 && rest_[2] == '\0' && rest_[3] == '\0') {
    refuseFile(file_, "the file is UTF-32", "save it as UTF-8");
  }
  const Encoding marked = utf8Mark ? Encoding::utf8
                          : leMark ? Encoding::utf16le
                          : beMark ? Encoding::utf16be
                                   : Encoding::detect;
  // A mark is decisive: its bytes also spell three or two Latin-1 characters, but no text begins with those.
  if (marked != Encoding::detect) {
    encoding = marked;
  }
  if (encoding == Encoding::detect) {
    encoding = guessed(rest_);
  }
  rest_.remove_prefix(utf8Mark ? kUtf8Mark.size() : marked != Encoding::detect ? kUtf16LeMark.size() : 0);
  encodingName_ = encoding == Encoding::utf16le   ? "UTF-16LE"
                  : encoding == Encoding::utf16be ? "UTF-16BE"
                  : encoding == Encoding::latin1  ? "Windows-1252"
                                                  : "UTF-8";
  if (encoding == Encoding::utf8) {
    return;
  }
  converter_ = std::make_unique<Converter>(encodingName_ == "Windows-1252" ? "CP1252" : encodingName_.data());
  if (!converter_->valid()) {
    throw StorageError(fmt::format("this machine cannot convert {} ({}); save {} as UTF-8.", encodingName_,
                                   std::strerror(errno), file_.string()));
  }
  converter_->unitSize = encoding == Encoding::latin1 ? 1 : 2;
}

std::string_view TextSource::next() {
  while (true) {
    if (rest_.empty()) {
      fillBlock();
    }
    const std::string_view piece = rest_;
    const bool last = piece.empty();
    rest_ = {};
    if (!converter_) {
      return piece;
    }
    converted_.clear();
    converter_->convert(piece, last, converted_);
    if (last || !converted_.empty()) {
      return converted_;
    }
  }
}

double TextSource::done() const {
  return size_ > 0.0 ? std::min(1.0, read_ / size_) : 0.0;
}

}  // namespace spanwright
