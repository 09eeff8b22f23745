// SPDX-License-Identifier: GPL-3.0-or-later
//
// A person's signing key and the passphrase it is kept under, by libsodium: Ed25519 (RFC 8032) signatures;
// the secret half sealed with XSalsa20-Poly1305 under a key that Argon2id (RFC 9106) makes of the passphrase.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace spanwright {

/// What one try of a passphrase costs: Argon2id's passes and bytes of memory.
struct KeyCost {
  std::int64_t operations = 2;
  std::int64_t memory = std::int64_t{64} << 20;  ///< with 2 passes: libsodium's figures for work at a screen
};

/// The secret half under a passphrase.
struct KeyLock {
  std::string salt, nonce, box;
  KeyCost cost;
  bool mustChange = false;  ///< somebody else chose the passphrase: its owner changes it before signing
};

/// The secret half while it is needed; wiped from memory when it goes.
class SecretKey {
 public:
  static SecretKey make();
  SecretKey(SecretKey&&) noexcept = default;
  SecretKey& operator=(SecretKey&&) noexcept = default;

  std::string publicKey() const;                  ///< 32 bytes
  std::string sign(std::string_view text) const;  ///< 64 bytes
  KeyLock lock(std::string_view passphrase, const KeyCost& cost = {}) const;

 private:
  friend std::optional<SecretKey> unlock(const KeyLock&, std::string_view);
  struct Wipe {
    void operator()(std::array<unsigned char, 64>* bytes) const;
  };
  SecretKey();
  std::unique_ptr<std::array<unsigned char, 64>, Wipe> bytes_;
};

/// The secret half, or nothing when the passphrase is wrong. std::runtime_error when the lock is not one this
/// program makes, or memory ran out.
std::optional<SecretKey> unlock(const KeyLock& lock, std::string_view passphrase);

bool signatureHolds(std::string_view publicKey, std::string_view text, std::string_view signature);

/// Eight characters that tell people one key from another: of the SHA-256 of the public half.
std::string keyMark(std::string_view publicKey);

}  // namespace spanwright
