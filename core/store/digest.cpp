// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/digest.h"

#include <sodium.h>

#include <algorithm>
#include <new>
#include <stdexcept>

namespace spanwright {
namespace {

using State = crypto_hash_sha256_state;

}  // namespace

void startCryptography() {
  static const int started = sodium_init();
  if (started < 0) {
    throw std::runtime_error("the cryptographic library could not start");
  }
}

Digest sha256(std::string_view data) {
  Digest digest;
  crypto_hash_sha256(digest.bytes.data(), bytesOf(data), data.size());
  return digest;
}

Digest sha256(const Digest& first, const Digest& second) {
  DigestOver over;
  over.add(first.view());
  over.add(second.view());
  return over.finish();
}

DigestOver::DigestOver() {
  static_assert(sizeof(State) <= sizeof(state_) && alignof(State) <= 8);
  crypto_hash_sha256_init(new (state_.data()) State);
}

void DigestOver::add(std::string_view data) {
  crypto_hash_sha256_update(std::launder(reinterpret_cast<State*>(state_.data())), bytesOf(data),
                            data.size());
}

Digest DigestOver::finish() {
  Digest digest;
  crypto_hash_sha256_final(std::launder(reinterpret_cast<State*>(state_.data())), digest.bytes.data());
  return digest;
}

std::string hexOf(std::string_view bytes) {
  std::string text(bytes.size() * 2 + 1, '\0');  // libsodium ends it with a zero
  sodium_bin2hex(text.data(), text.size(), bytesOf(bytes), bytes.size());
  text.pop_back();
  return text;
}

std::string hex(const Digest& digest) {
  return hexOf(digest.view());
}

std::optional<std::string> parseHex(std::string_view text) {
  std::string bytes(text.size() / 2, '\0');
  std::size_t length = 0;
  if (sodium_hex2bin(reinterpret_cast<unsigned char*>(bytes.data()), bytes.size(), text.data(), text.size(),
                     nullptr, &length, nullptr) != 0 ||
      length * 2 != text.size()) {
    return std::nullopt;
  }
  return bytes;
}

std::optional<Digest> parseDigest(std::string_view text) {
  Digest digest;
  std::size_t length = 0;
  if (text.size() != 64 ||
      sodium_hex2bin(digest.bytes.data(), digest.bytes.size(), text.data(), text.size(), nullptr, &length,
                     nullptr) != 0 ||
      length != digest.bytes.size()) {
    return std::nullopt;
  }
  return digest;
}

std::optional<Digest> digestOf(std::string_view bytes) {
  Digest digest;
  if (bytes.size() != digest.bytes.size()) {
    return std::nullopt;
  }
  std::copy(bytes.begin(), bytes.end(), digest.bytes.begin());
  return digest;
}

}  // namespace spanwright
