// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/csv_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <boost/locale/utf.hpp>

namespace spanwright {
namespace {

/// The first byte that is no part of UTF-8, or npos.
std::size_t firstNotUtf8(std::string_view text) {
  using Traits = boost::locale::utf::utf_traits<char>;
  const char* at = text.data();
  const char* const end = at + text.size();
  while (at != end) {
    if (static_cast<unsigned char>(*at) < 0x80) {
      ++at;
      continue;
    }
    const char* const character = at;
    const auto code = Traits::decode(at, end);
    if (code == boost::locale::utf::illegal || code == boost::locale::utf::incomplete) {
      return static_cast<std::size_t>(character - text.data());
    }
  }
  return std::string_view::npos;
}

bool plainAscii(std::string_view text) {
  unsigned char all = 0;
  for (const char c : text) {
    all = static_cast<unsigned char>(all | static_cast<unsigned char>(c));
  }
  return all < 0x80;
}

}  // namespace

bool CsvRecord::blank() const {
  return std::all_of(cells.begin(), cells.end(), [](std::string_view cell) {
    return cell.find_first_not_of(" \t") == std::string_view::npos;
  });
}

CsvReader::CsvReader(TextSource& source, char separator) : source_(source), separator_(separator) {
  fill();
  // Files of old Macs and of some instruments end their lines with a carriage return only.
  if (buffer_.find('\n') == std::string::npos && buffer_.find('\r') != std::string::npos) {
    lineEnd_ = '\r';
  }
}

bool CsvReader::fill() {
  if (begin_ > 0) {
    buffer_.erase(0, begin_);
    begin_ = 0;
  }
  const std::string_view piece = source_.next();
  buffer_.append(piece);
  atEnd_ = atEnd_ || piece.empty();
  return !atEnd_;
}

/// The end of the line that begins at begin_, reading on as far as needed.
CsvReader::Line CsvReader::findLine(std::size_t& end) {
  std::size_t searched = 0;
  while (true) {
    const auto found = buffer_.find(lineEnd_, begin_ + searched);
    end = found == std::string::npos ? buffer_.size() : found;
    if (found != std::string::npos) {
      return end - begin_ > kLongestRecord ? Line::tooLong : Line::found;
    }
    searched = pending().size();
    if (searched > kLongestRecord) {
      return Line::tooLong;
    }
    if (!fill()) {
      end = buffer_.size();
      return pending().empty() ? Line::none : Line::found;
    }
  }
}

bool CsvReader::skipLine() {
  std::size_t end = 0;
  const Line line = findLine(end);
  if (line != Line::none) {
    CsvRecord passedOver;
    skipLongLine(passedOver);
  }
  return line != Line::none;
}

bool CsvReader::next(CsvRecord& record) {
  record.cells.clear();
  record.fault.clear();
  record.faultColumn = 0;
  record.lastWithoutLineEnd = false;
  record.line = line_ + 1;
  std::size_t end = 0;
  const Line found = findLine(end);
  if (found == Line::none) {
    return false;
  }
  if (found == Line::tooLong) {
    skipLongLine(record);
    return true;
  }
  if (pending().substr(0, end - begin_).find('"') == std::string_view::npos) {
    splitPlain(end);
    finish(record, end);
    return true;
  }
  Split split = splitQuoted(end);
  while (split == Split::needsMore && !atEnd_ && pending().size() <= kLongestRecord) {
    fill();
    split = splitQuoted(end);
  }
  if (split == Split::done) {
    finish(record, end);
    return true;
  }
  record.faultColumn = static_cast<int>(cells_.size()) + 1;
  refuseLine(record, split == Split::strayText ? "text follows the closing quote of a cell"
                                               : "a quote opens a cell and is never closed");
  return true;
}

void CsvReader::skipLongLine(CsvRecord& record) {
  record.fault = fmt::format("the line is longer than {} bytes", kLongestRecord);
  ++line_;
  while (true) {
    const auto found = buffer_.find(lineEnd_, begin_);
    if (found != std::string::npos) {
      begin_ = found + 1;
      return;
    }
    begin_ = buffer_.size();
    if (!fill()) {
      record.lastWithoutLineEnd = true;
      return;
    }
  }
}

void CsvReader::splitPlain(std::size_t end) {
  cells_.clear();
  const std::size_t last = end > begin_ && buffer_[end - 1] == '\r' ? end - 1 : end;
  const std::string_view upToLast = std::string_view(buffer_).substr(0, last);
  std::size_t from = begin_;
  while (true) {
    const std::size_t cut = std::min(upToLast.find(separator_, from), last);
    cells_.push_back({from, cut - from, false});
    if (cut == last) {
      return;
    }
    from = cut + 1;
  }
}

/// The cell whose opening quote stands at `at`; leaves `at` after the closing quote. Nothing when there is
/// none yet.
std::optional<CsvReader::Cell> CsvReader::quotedCell(std::size_t& at) const {
  Cell cell{at + 1, 0, false};
  at = cell.from;
  while (true) {
    const auto quote = buffer_.find('"', at);
    // A quote as the very last byte may be the first half of a doubled one.
    if (quote == std::string::npos || (quote + 1 == buffer_.size() && !atEnd_)) {
      return std::nullopt;
    }
    if (quote + 1 < buffer_.size() && buffer_[quote + 1] == '"') {
      cell.doubledQuotes = true;
      at = quote + 2;
      continue;
    }
    at = quote + 1;
    cell.size = quote - cell.from;
    return cell;
  }
}

CsvReader::Cell CsvReader::plainCell(std::size_t& at) const {
  const char stops[] = {separator_, lineEnd_, '\0'};
  Cell cell{at, 0, false};
  at = std::min(buffer_.find_first_of(stops, at, 2), buffer_.size());
  cell.size = at - cell.from;
  if (cell.size > 0 && buffer_[at - 1] == '\r' && (at == buffer_.size() || buffer_[at] == lineEnd_)) {
    --cell.size;
  }
  return cell;
}

CsvReader::Split CsvReader::splitQuoted(std::size_t& end) {
  cells_.clear();
  std::size_t at = begin_;
  while (true) {
    const bool quote = at < buffer_.size() && buffer_[at] == '"';
    const auto cell = quote ? quotedCell(at) : std::optional(plainCell(at));
    if (!cell || (at == buffer_.size() && !atEnd_)) {
      return Split::needsMore;
    }
    cells_.push_back(*cell);
    if (at < buffer_.size() && buffer_[at] == '\r' && at + 1 < buffer_.size() &&
        buffer_[at + 1] == lineEnd_) {
      ++at;
    }
    if (at == buffer_.size() || buffer_[at] == lineEnd_) {
      end = at;
      return Split::done;
    }
    if (buffer_[at] != separator_) {
      cells_.pop_back();
      return Split::strayText;
    }
    ++at;
  }
}

void CsvReader::finish(CsvRecord& record, std::size_t end) {
  const std::string_view whole = std::string_view(buffer_).substr(begin_, end - begin_);
  const bool suspicious = !plainAscii(whole) || whole.find('\0') != std::string_view::npos;
  line_ += 1 + static_cast<int>(std::count(whole.begin(), whole.end(), lineEnd_));
  record.lastWithoutLineEnd = end == buffer_.size();
  begin_ = std::min(end + 1, buffer_.size());
  record.cells.reserve(cells_.size());
  for (const Cell& cell : cells_) {
    std::size_t size = cell.size;
    if (cell.doubledQuotes) {
      // In place: the text only gets shorter, and nothing reads this part of the buffer again.
      size = 0;
      for (std::size_t i = 0; i < cell.size; ++i) {
        buffer_[cell.from + size++] = buffer_[cell.from + i];
        i += buffer_[cell.from + i] == '"' ? 1U : 0U;
      }
    }
    record.cells.push_back(std::string_view(buffer_).substr(cell.from, size));
  }
  if (suspicious) {
    checkText(record);
  }
}

void CsvReader::checkText(CsvRecord& record) const {
  for (std::size_t i = 0; i < record.cells.size(); ++i) {
    const std::string_view cell = record.cells[i];
    if (cell.find('\0') != std::string_view::npos) {
      record.fault = "the cell holds a NUL byte";
    } else if (const auto at = firstNotUtf8(cell); at != std::string_view::npos) {
      record.fault =
          source_.encodingName() == "UTF-8"
              ? fmt::format(
                    "byte {} of the cell (0x{:02X}) is not UTF-8; if the file is Latin-1, set encoding = "
                    "\"latin-1\" in the mapping",
                    at + 1, static_cast<unsigned char>(cell[at]))
              : fmt::format("the cell holds what {} does not have, at byte {}", source_.encodingName(),
                            at + 1);
    }
    if (!record.fault.empty()) {
      record.faultColumn = static_cast<int>(i) + 1;
      return;
    }
  }
}

void CsvReader::refuseLine(CsvRecord& record, std::string why) {
  record.fault = std::move(why);
  record.cells.clear();
  const auto found = buffer_.find(lineEnd_, begin_);
  record.lastWithoutLineEnd = found == std::string::npos;
  begin_ = record.lastWithoutLineEnd ? buffer_.size() : found + 1;
  ++line_;
}

}  // namespace spanwright
