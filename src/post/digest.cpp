#include "post/digest.h"

#include <openssl/evp.h>
#include <openssl/hmac.h>

#include <array>

namespace post {
namespace {

std::string as_text(const std::array<unsigned char, EVP_MAX_MD_SIZE>& bytes, unsigned length) {
  return {bytes.begin(), bytes.begin() + length};
}

}  // namespace

std::string sha256(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned length = 0;
  EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr);
  return as_text(digest, length);
}

std::string hmac_sha256(std::string_view secret, std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned length = 0;
  const std::string data{bytes};
  HMAC(EVP_sha256(), secret.data(), static_cast<int>(secret.size()), reinterpret_cast<const unsigned char*>(data.data()), data.size(),
       digest.data(), &length);
  return as_text(digest, length);
}

std::string hex(std::string_view bytes) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    out += digits[byte >> 4];
    out += digits[byte & 15u];
  }
  return out;
}

std::string base64(std::string_view bytes, std::size_t line) {
  constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  std::size_t in_line = 0;
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    unsigned three = 0;
    const std::size_t count = std::min<std::size_t>(3, bytes.size() - at);
    for (std::size_t i = 0; i < 3; ++i) three = three << 8 | (i < count ? static_cast<unsigned char>(bytes[at + i]) : 0u);
    for (std::size_t i = 0; i < 4; ++i) out += i <= count ? letters[three >> (18 - 6 * i) & 63u] : '=';
    in_line += 4;
    if (line != 0 && (in_line >= line || at + 3 >= bytes.size())) {
      out += "\r\n";
      in_line = 0;
    }
  }
  return out;
}

std::string stable_name(std::string_view key) { return hex(sha256(key)).substr(0, 32); }

}  // namespace post
