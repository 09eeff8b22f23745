// SPDX-License-Identifier: GPL-3.0-or-later
//
// SHA-256 (FIPS 180-4), by libsodium.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace spanwright {

/// 32 bytes.
struct Digest {
  std::array<unsigned char, 32> bytes{};
  friend bool operator==(const Digest&, const Digest&) = default;
  std::string_view view() const { return {reinterpret_cast<const char*>(bytes.data()), bytes.size()}; }
};

Digest sha256(std::string_view data);
/// Of the one followed by the other.
Digest sha256(const Digest& first, const Digest& second);

/// A digest taken piece by piece.
class DigestOver {
 public:
  DigestOver();
  void add(std::string_view data);
  /// Ends it; nothing may be added after.
  Digest finish();

 private:
  alignas(
      8) std::array<unsigned char, 128> state_{};  // holds libsodium's state, which stays out of the header
};

/// Lower-case hexadecimal, 64 characters.
std::string hex(const Digest& digest);
std::string hexOf(std::string_view bytes);
/// The bytes that hexOf writes so; nothing for a text that is none.
std::optional<std::string> parseHex(std::string_view text);
/// Nothing unless `text` is 64 hexadecimal digits.
std::optional<Digest> parseDigest(std::string_view text);
/// The digest in a column of raw bytes; nothing unless it is 32 of them.
std::optional<Digest> digestOf(std::string_view bytes);

/// As the libraries want them.
inline const unsigned char* bytesOf(std::string_view text) {
  return reinterpret_cast<const unsigned char*>(text.data());
}
inline unsigned char* bytesOf(std::string& text) {
  return reinterpret_cast<unsigned char*>(text.data());
}

/// The libraries' own start-up, once; std::runtime_error when the machine has no randomness to offer.
void startCryptography();

}  // namespace spanwright
