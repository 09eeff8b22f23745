// SPDX-License-Identifier: GPL-3.0-or-later
//
// A place that cannot be written: one sentence, and nothing left behind.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <csignal>

#include "core/record/problem.h"
#include "gui/certificate/draw.h"
#include "tests/core/certificate/example.h"

namespace spanwright {
namespace {

class UnwritableCertificate : public testing::Test {
 protected:
  void SetUp() override {
    example::fiveUpDown(made_);
    certificate_ = describeCertificate(made_.source());
    ASSERT_TRUE(folder_.isValid());
  }
  QStringList entries() const {
    return QDir(folder_.path())
        .entryList(QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot);
  }
  std::string refusal(const QString& file) {
    try {
      writeCertificatePdf(certificate_, file);
    } catch (const StorageError& error) {
      return error.what();
    }
    ADD_FAILURE() << "written to " << file.toStdString();
    return "";
  }
  QTemporaryDir folder_;
  example::Example made_;
  Certificate certificate_;
};

TEST_F(UnwritableCertificate, MissingFolderIsNamed) {
  const QString file = folder_.filePath(QStringLiteral("missing/c.pdf"));
  const std::string sentence = refusal(file);
  EXPECT_THAT(sentence, testing::HasSubstr(file.toStdString()));
  EXPECT_THAT(sentence, testing::EndsWith("."));
  EXPECT_TRUE(entries().isEmpty());
}

TEST_F(UnwritableCertificate, FolderInItsPlaceStays) {
  ASSERT_TRUE(QDir(folder_.path()).mkdir(QStringLiteral("c.pdf")));
  refusal(folder_.filePath(QStringLiteral("c.pdf")));
  EXPECT_EQ(entries(), QStringList{QStringLiteral("c.pdf")});
}

/// Files may not grow beyond `bytes` while this lives: what a full disk looks like to a program.
class SmallDisk {
 public:
  explicit SmallDisk(rlim_t bytes) {
    EXPECT_EQ(getrlimit(RLIMIT_FSIZE, &before_), 0);
    handler_ = std::signal(SIGXFSZ, SIG_IGN);
    const rlimit small{bytes, before_.rlim_max};
    EXPECT_EQ(setrlimit(RLIMIT_FSIZE, &small), 0);
  }
  ~SmallDisk() {
    setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, handler_);
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;

 private:
  rlimit before_{};
  void (*handler_)(int) = nullptr;
};

TEST_F(UnwritableCertificate, FullDiskLeavesNothing) {
  for (const rlim_t bytes : {rlim_t{0}, rlim_t{1}, rlim_t{4096}, rlim_t{20000}}) {
    const SmallDisk disk(bytes);
    refusal(folder_.filePath(QStringLiteral("c.pdf")));
    EXPECT_TRUE(entries().isEmpty()) << bytes;
  }
}

TEST_F(UnwritableCertificate, FullDiskKeepsTheFileThatWasThere) {
  const QString file = folder_.filePath(QStringLiteral("c.pdf"));
  ASSERT_GT(writeCertificatePdf(certificate_, file), 0);
  QFile before(file);
  ASSERT_TRUE(before.open(QIODevice::ReadOnly));
  const QByteArray bytes = before.readAll();
  before.close();
  ASSERT_GT(bytes.size(), 20000);  // or the limits above would not bite
  {
    const SmallDisk disk(4096);
    refusal(file);
  }
  QFile after(file);
  ASSERT_TRUE(after.open(QIODevice::ReadOnly));
  EXPECT_EQ(after.readAll(), bytes);
  EXPECT_EQ(entries(), QStringList{QStringLiteral("c.pdf")});
}

}  // namespace
}  // namespace spanwright
