// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/bundle_zip.h"

#include <fmt/format.h>
#include <zip.h>

#include <stdexcept>

#include "core/record/problem.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;

struct Discard {
  void operator()(zip_t* zip) const { zip_discard(zip); }
};
using Zip = std::unique_ptr<zip_t, Discard>;

struct CloseFile {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};

Zip openArchive(const fs::path& file, int flags, std::string_view todo) {
  int code = 0;
  Zip zip(zip_open(file.c_str(), flags, &code));
  if (!zip) {
    zip_error_t error;
    zip_error_init_with_code(&error, code);
    const std::string why = zip_error_strerror(&error);
    zip_error_fini(&error);
    throw StorageError(fmt::format("\"{}\" cannot be opened as a zip ({}); {}.", file.string(), why, todo));
  }
  return zip;
}

class ZipReader : public BundleReader {
 public:
  explicit ZipReader(const fs::path& file)
      : zip_(openArchive(file, ZIP_RDONLY | ZIP_CHECKCONS, "ask for the bundle again")) {}

  std::vector<std::string> names() const override {
    std::vector<std::string> all;
    const zip_int64_t count = zip_get_num_entries(zip_.get(), 0);
    for (zip_int64_t i = 0; i < count; ++i) {
      const char* name = zip_get_name(zip_.get(), static_cast<zip_uint64_t>(i), 0);
      const std::string text = name == nullptr ? "" : name;
      if (!text.ends_with('/')) {  // folders may have entries of their own
        all.push_back(text);
      }
    }
    return all;
  }

  std::string read(const std::string& name) override {
    // Beyond what the largest file of a bundle can be; what a small zip can unpack to has no other limit.
    constexpr zip_uint64_t kLargest = zip_uint64_t{1} << 30;
    zip_stat_t found;
    if (zip_stat(zip_.get(), name.c_str(), 0, &found) != 0 || found.size > kLargest) {
      throw std::runtime_error("it cannot be read from the zip");
    }
    const std::unique_ptr<zip_file_t, CloseFile> file(zip_fopen_index(zip_.get(), found.index, 0));
    std::string content(found.size, '\0');
    char beyond = 0;
    if (!file || zip_fread(file.get(), content.data(), found.size) != static_cast<zip_int64_t>(found.size) ||
        zip_fread(file.get(), &beyond, 1) != 0) {  // the checksum is looked at when the end is met
      throw std::runtime_error("it cannot be read from the zip, which is damaged there");
    }
    return content;
  }

 private:
  Zip zip_;
};

}  // namespace

void packZip(const fs::path& folder, const std::vector<std::string>& names, const fs::path& file) {
  Zip zip = openArchive(file, ZIP_CREATE | ZIP_EXCL, "choose another place");
  const auto refuse = [&] {
    throw StorageError(fmt::format("The zip {} cannot be written ({}); choose another place, or make room.",
                                   file.string(), zip_strerror(zip.get())));
  };
  for (const std::string& name : names) {
    zip_source_t* source = zip_source_file(zip.get(), (folder / name).c_str(), 0, -1);
    if (source == nullptr) {
      refuse();
    }
    if (zip_file_add(zip.get(), name.c_str(), source, ZIP_FL_ENC_UTF_8) < 0) {
      zip_source_free(source);
      refuse();
    }
  }
  if (zip_close(zip.get()) != 0) {
    refuse();
  }
  (void)zip.release();  // closing has freed it
}

std::unique_ptr<BundleReader> openZip(const fs::path& zip) {
  return std::make_unique<ZipReader>(zip);
}

}  // namespace spanwright
