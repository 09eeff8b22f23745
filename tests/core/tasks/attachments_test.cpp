// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/attachments.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

#include "tests/core/store/samples.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;

class Attaching : public testing::Test {
 protected:
  Attaching() : store_(Store::create(folder_ / "site.record", test::sampleRegister(), clock_)) {}

  fs::path file(const std::string& name, const std::string& content) const {
    std::ofstream(folder_ / name, std::ios::binary) << content;
    return folder_ / name;
  }
  static Attachment aboutChannel() {
    Attachment about;
    about.channel = "AI-001";
    return about;
  }
  std::string refused(const fs::path& path) {
    return test::inputRefusal([&] { attachFile(store_, path, aboutChannel()); });
  }

  test::Folder folder_;
  test::FixedClock clock_{"2026-11-20T10:00:00", "2026-11-20T09:00:00"};
  Store store_;
};

TEST_F(Attaching, GoesInAndComesOutByteForByte) {
  std::string all;
  for (int i = 0; i < 70000; ++i) {
    all += static_cast<char>(i * 7);
  }
  const std::int64_t id = attachFile(store_, file("Sheet 1.PDF", all), aboutChannel());
  const Attachment kept = store_.attachments().at(0);
  EXPECT_EQ(kept.id, id);
  EXPECT_EQ(kept.name, "Sheet 1.PDF");
  EXPECT_EQ(kept.mediaType, "application/pdf");
  EXPECT_EQ(kept.size, 70000);
  EXPECT_EQ(kept.sha256, sha256(all));
  const fs::path out = writeAttachment(store_, kept, folder_ / "out");
  EXPECT_EQ(out.filename().string(), fmt::format("{}-Sheet_1.PDF", id));
  std::ifstream in(out, std::ios::binary);
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(in), {}), all);
  EXPECT_NE(test::refusal([&] { writeAttachment(store_, kept, folder_ / "out"); }).find("already there"),
            std::string::npos);
}

TEST_F(Attaching, WhatCannotBeTakenIsRefusedInOneSentence) {
  EXPECT_NE(refused(folder_ / "missing").find("there is no such file"), std::string::npos);
  EXPECT_NE(refused(folder_.path()).find("not a file"), std::string::npos);
  EXPECT_NE(refused(file("empty.txt", "")).find("the file is empty"), std::string::npos);
  const fs::path large = file("large.bin", "x");
  fs::resize_file(large, kLargestAttachment + 1);  // a hole: takes no room
  EXPECT_NE(refused(large).find("up to 100 MiB"), std::string::npos);
  if (geteuid() != 0) {  // root reads everything
    const fs::path closed = file("closed.txt", "x");
    fs::permissions(closed, fs::perms::none);
    EXPECT_NE(refused(closed).find("cannot be read"), std::string::npos);
  }
  Attachment nothing;
  EXPECT_NE(test::inputRefusal([&] {
              attachFile(store_, file("a.txt", "a"), nothing);
            }).find("name exactly one of them"),
            std::string::npos);
  EXPECT_TRUE(store_.attachments().empty());
}

TEST_F(Attaching, TheLargestFileIsTaken) {
  const fs::path large = file("large.bin", "x");
  fs::resize_file(large, kLargestAttachment);
  attachFile(store_, large, aboutChannel());
  EXPECT_EQ(store_.attachments().at(0).size, static_cast<std::int64_t>(kLargestAttachment));
}

TEST(MediaType, ByTheEnding) {
  EXPECT_EQ(mediaTypeOf("a.JPG"), "image/jpeg");
  EXPECT_EQ(mediaTypeOf("a.tar.csv"), "text/csv");
  EXPECT_EQ(mediaTypeOf("a.unheard"), "application/octet-stream");
  EXPECT_EQ(mediaTypeOf("pdf"), "application/octet-stream");
}

TEST(FileName, IsOneThatEveryFileSystemTakes) {
  Attachment a;
  a.id = 3;
  a.name = "../../etc/pass wd\n\xc3\xa4\\.txt";
  EXPECT_EQ(fileNameOf(a), "3-.._.._etc_pass_wd_.txt");
  a.name = std::string(300, 'x') + ".pdf";
  EXPECT_EQ(fileNameOf(a).size(), 102U);
  EXPECT_TRUE(fileNameOf(a).ends_with("x.pdf"));
}

}  // namespace
}  // namespace spanwright
