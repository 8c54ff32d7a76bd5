// Digests that other sides check, and names that stay the same for the same key.
#pragma once
#include <string>
#include <string_view>

namespace post {

// FIPS 180-4; raw 32 bytes.
[[nodiscard]] std::string sha256(std::string_view bytes);
// RFC 2104 with SHA-256; raw 32 bytes.
[[nodiscard]] std::string hmac_sha256(std::string_view secret, std::string_view bytes);

[[nodiscard]] std::string hex(std::string_view bytes);
// RFC 4648; in lines of `line` characters ended by CRLF, 0: one line without an end.
[[nodiscard]] std::string base64(std::string_view bytes, std::size_t line = 0);

// A name for files and headers, 32 hexadecimal digits, the same for the same key.
[[nodiscard]] std::string stable_name(std::string_view key);

}  // namespace post
