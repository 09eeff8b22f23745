// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/keys.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "full_record.h"

namespace spanwright {
namespace {

std::string fromHex(std::string_view text) {
  std::string bytes;
  for (std::size_t i = 0; i + 1 < text.size(); i += 2) {
    bytes += static_cast<char>(std::stoi(std::string(text.substr(i, 2)), nullptr, 16));
  }
  return bytes;
}

// RFC 8032 section 7.1, test 2: a message of one byte.
TEST(Signatures, HoldForThePublishedExample) {
  const std::string key = fromHex("3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c");
  const std::string signature = fromHex(
      "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2e"
      "aeb4302aee"
      "b00d291612bb0c00");
  EXPECT_TRUE(signatureHolds(key, "\x72", signature));
  EXPECT_FALSE(signatureHolds(key, "\x73", signature));
}

TEST(Signatures, HoldForNothingButTheirTextAndKey) {
  const SecretKey one = SecretKey::make(), other = SecretKey::make();
  const std::string signature = one.sign("text");
  EXPECT_TRUE(signatureHolds(one.publicKey(), "text", signature));
  EXPECT_FALSE(signatureHolds(other.publicKey(), "text", signature));
  EXPECT_FALSE(signatureHolds(one.publicKey(), "texts", signature));
  for (std::size_t i = 0; i < signature.size(); ++i) {
    std::string bent = signature;
    bent[i] = static_cast<char>(bent[i] ^ 1);
    EXPECT_FALSE(signatureHolds(one.publicKey(), "text", bent)) << i;
  }
  EXPECT_FALSE(signatureHolds("", "text", signature));
  EXPECT_FALSE(signatureHolds(one.publicKey(), "text", ""));
}

TEST(Locks, OpenWithTheirPassphraseOnly) {
  const SecretKey key = SecretKey::make();
  const KeyLock lock = key.lock("right passphrase", test::kCheapKey);
  const auto opened = unlock(lock, "right passphrase");
  ASSERT_TRUE(opened);
  EXPECT_EQ(opened->publicKey(), key.publicKey());
  for (const char* wrong : {"", "wrong passphrase", "right passphras", "right passphrase "}) {
    EXPECT_FALSE(unlock(lock, wrong)) << wrong;
  }
  EXPECT_EQ(lock.box.find(key.publicKey()), std::string::npos)
      << "libsodium keeps the public half beside the secret";
  EXPECT_NE(lock.salt, key.lock("right passphrase", test::kCheapKey).salt);
}

TEST(Locks, ThatThisProgramNeverMakesAreRefused) {
  const SecretKey key = SecretKey::make();
  const KeyLock good = key.lock("right passphrase", test::kCheapKey);
  KeyLock greedy = good, endless = good, cut = good, salted = good;
  greedy.cost.memory = std::int64_t{1} << 40;
  endless.cost.operations = 1'000'000;
  cut.box.pop_back();
  salted.salt = "";
  for (const KeyLock* bad : {&greedy, &endless, &cut, &salted}) {
    EXPECT_THROW(unlock(*bad, "right passphrase"), std::runtime_error);
  }
}

}  // namespace
}  // namespace spanwright
