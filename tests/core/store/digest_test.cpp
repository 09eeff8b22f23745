// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/digest.h"

#include <gtest/gtest.h>

namespace spanwright {
namespace {

// FIPS 180-4 example computations (published by NIST with the standard): one block, two blocks, nothing.
TEST(Sha256, GivesThePublishedDigests) {
  EXPECT_EQ(hex(sha256("abc")), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(hex(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(hex(sha256("")), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Sha256, InPiecesIsTheSameAsAtOnce) {
  DigestOver over;
  over.add("abcdbcdecdefdefgefghfg");
  over.add("");
  over.add("highijhijkijkljklmklmnlmnomnopnopq");
  EXPECT_EQ(over.finish(), sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"));
  const Digest one = sha256("1"), two = sha256("2");
  EXPECT_EQ(sha256(one, two), sha256(std::string(one.view()) + std::string(two.view())));
}

TEST(Digests, AreReadBackFromTheirTextAndFromNothingElse) {
  const Digest digest = sha256("x");
  EXPECT_EQ(parseDigest(hex(digest)), digest);
  EXPECT_EQ(digestOf(digest.view()), digest);
  for (const std::string& bad :
       {std::string(), hex(digest).substr(1), hex(digest) + "0", std::string(64, 'g')}) {
    EXPECT_FALSE(parseDigest(bad)) << bad;
  }
  EXPECT_FALSE(digestOf("short"));
}

}  // namespace
}  // namespace spanwright
