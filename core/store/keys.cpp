// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/keys.h"

#include <sodium.h>

#include <stdexcept>

#include "core/store/digest.h"

namespace spanwright {
namespace {

static_assert(crypto_sign_SECRETKEYBYTES == 64);

// More than any lock of ours asks for; a row that asks for more was tampered with.
constexpr std::int64_t kMostMemory = std::int64_t{1} << 30;
constexpr std::int64_t kMostOperations = 20;

/// What the passphrase makes of itself; wiped when it goes.
class BoxKey {
 public:
  BoxKey(std::string_view passphrase, const KeyLock& lock) {
    if (lock.salt.size() != crypto_pwhash_SALTBYTES || lock.cost.operations < 1 ||
        lock.cost.operations > kMostOperations ||
        lock.cost.memory < static_cast<std::int64_t>(crypto_pwhash_MEMLIMIT_MIN) ||
        lock.cost.memory > kMostMemory) {
      throw std::runtime_error("the key is not kept as this program keeps keys");
    }
    if (crypto_pwhash(bytes_.data(), bytes_.size(), passphrase.data(), passphrase.size(), bytesOf(lock.salt),
                      static_cast<unsigned long long>(lock.cost.operations),
                      static_cast<std::size_t>(lock.cost.memory), crypto_pwhash_ALG_ARGON2ID13) != 0) {
      throw std::runtime_error("there was not enough memory to try the passphrase");
    }
  }
  BoxKey(const BoxKey&) = delete;
  BoxKey& operator=(const BoxKey&) = delete;
  ~BoxKey() { sodium_memzero(bytes_.data(), bytes_.size()); }
  const unsigned char* data() const { return bytes_.data(); }

 private:
  std::array<unsigned char, crypto_secretbox_KEYBYTES> bytes_{};
};

}  // namespace

void SecretKey::Wipe::operator()(std::array<unsigned char, 64>* bytes) const {
  sodium_memzero(bytes->data(), bytes->size());
  delete bytes;
}

SecretKey::SecretKey() : bytes_(new std::array<unsigned char, 64>{}) {}

SecretKey SecretKey::make() {
  startCryptography();
  SecretKey key;
  std::array<unsigned char, crypto_sign_PUBLICKEYBYTES> publicHalf{};
  crypto_sign_keypair(publicHalf.data(), key.bytes_->data());
  return key;
}

std::string SecretKey::publicKey() const {
  std::string publicHalf(crypto_sign_PUBLICKEYBYTES, '\0');
  crypto_sign_ed25519_sk_to_pk(bytesOf(publicHalf), bytes_->data());
  return publicHalf;
}

std::string SecretKey::sign(std::string_view text) const {
  std::string signature(crypto_sign_BYTES, '\0');
  crypto_sign_detached(bytesOf(signature), nullptr, bytesOf(text), text.size(), bytes_->data());
  return signature;
}

KeyLock SecretKey::lock(std::string_view passphrase, const KeyCost& cost) const {
  KeyLock lock;
  lock.cost = cost;
  lock.salt.resize(crypto_pwhash_SALTBYTES);
  lock.nonce.resize(crypto_secretbox_NONCEBYTES);
  randombytes_buf(lock.salt.data(), lock.salt.size());
  randombytes_buf(lock.nonce.data(), lock.nonce.size());
  const BoxKey key(passphrase, lock);
  lock.box.resize(bytes_->size() + crypto_secretbox_MACBYTES);
  crypto_secretbox_easy(bytesOf(lock.box), bytes_->data(), bytes_->size(), bytesOf(lock.nonce), key.data());
  return lock;
}

std::optional<SecretKey> unlock(const KeyLock& lock, std::string_view passphrase) {
  startCryptography();
  SecretKey secret;
  if (lock.nonce.size() != crypto_secretbox_NONCEBYTES ||
      lock.box.size() != secret.bytes_->size() + crypto_secretbox_MACBYTES) {
    throw std::runtime_error("the key is not kept as this program keeps keys");
  }
  const BoxKey key(passphrase, lock);
  if (crypto_secretbox_open_easy(secret.bytes_->data(), bytesOf(lock.box), lock.box.size(),
                                 bytesOf(lock.nonce), key.data()) != 0) {
    return std::nullopt;
  }
  return secret;
}

bool signatureHolds(std::string_view publicKey, std::string_view text, std::string_view signature) {
  startCryptography();
  return publicKey.size() == crypto_sign_PUBLICKEYBYTES && signature.size() == crypto_sign_BYTES &&
         crypto_sign_verify_detached(bytesOf(signature), bytesOf(text), text.size(), bytesOf(publicKey)) == 0;
}

std::string keyMark(std::string_view publicKey) {
  constexpr std::size_t kLength = 8;
  return hex(sha256(publicKey)).substr(0, kLength);
}

}  // namespace spanwright
