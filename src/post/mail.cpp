#include "post/mail.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

#include "post/digest.h"
#include "units/text.h"

namespace post {
namespace {

constexpr std::size_t base64_line = 76;

bool plain(char c) { return c >= 0x20 && c < 0x7f; }

std::string without_controls(const std::string& text) {
  std::string out;
  for (const char c : text) out += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? ' ' : c;
  return out;
}

// RFC 5322 3.3, in UTC.
std::string date_text(units::UtcTime at) {
  static constexpr std::array weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  static constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::year_month_day ymd{day};
  const std::chrono::hh_mm_ss clock{at - day};
  return fmt::format("{}, {:02} {} {} {:02}:{:02}:{:02} +0000", weekdays[std::chrono::weekday{day}.c_encoding()],
                     static_cast<unsigned>(ymd.day()), months[static_cast<unsigned>(ymd.month()) - 1], static_cast<int>(ymd.year()),
                     clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

// A file name within a header (RFC 2231 where it is not plain).
std::string file_name(const std::string& name) {
  const bool simple = std::ranges::all_of(name, [](char c) { return plain(c) && c != '"' && c != '\\'; });
  if (simple) return "filename=\"" + name + "\"";
  std::string out = "filename*=utf-8''";
  for (const char c : name)
    out += std::isalnum(static_cast<unsigned char>(c)) != 0 && plain(c) ? std::string{c}
                                                                        : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  return out;
}

// A media type with parameters; anything else is bytes.
std::string type_text(const std::string& type) {
  const bool sound = type.find('/') != std::string::npos && type.size() <= 120 && std::ranges::all_of(type, plain);
  return sound ? type : "application/octet-stream";
}

std::string text_part(const std::string& text) {
  return "Content-Type: text/plain; charset=utf-8\r\nContent-Transfer-Encoding: base64\r\n\r\n" + base64(text, base64_line);
}

}  // namespace

bool is_mail_address(const std::string& text) {
  const auto at = text.find('@');
  return text.size() <= 254 && at != std::string::npos && at > 0 && at + 1 < text.size() && text.find('@', at + 1) == std::string::npos &&
         text[0] != '-' && std::ranges::all_of(text, [](char c) {
           return c > 0x20 && c < 0x7f && std::string_view{"<>()[],;:\\\""}.find(c) == std::string_view::npos;
         });
}

std::string header_text(const std::string& utf8) {
  const std::string text = without_controls(utf8);
  if (text.size() <= 60 && std::ranges::all_of(text, plain) && text.find("=?") == std::string::npos) return text;
  // At most 45 bytes a word, never within a character: 60 letters of base64 and 12 around them stay under 75.
  std::string out, word;
  const auto end_word = [&] {
    if (!word.empty()) out += (out.empty() ? "=?UTF-8?B?" : "\r\n =?UTF-8?B?") + base64(word) + "?=";
    word.clear();
  };
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = units::sequence_length(text, at);
    const std::string character = length == 0 ? "?" : text.substr(at, length);
    if (word.size() + character.size() > 45) end_word();
    word += character;
    at += std::max<std::size_t>(length, 1);
  }
  end_word();
  return out;
}

std::string mail_of(const Outgoing& message, const Envelope& envelope) {
  const std::string id = stable_name(message.key), domain = envelope.from.substr(envelope.from.find('@') + 1);
  std::string name = header_text(envelope.from_name);
  if (!name.empty() && !name.starts_with("=?")) {
    std::erase_if(name, [](char c) { return c == '"' || c == '\\'; });
    name = "\"" + name + "\"";
  }
  std::string mail = "Date: " + date_text(envelope.sent_at) + "\r\n";
  mail += "From: " + (name.empty() ? "" : name + "\r\n ") + "<" + envelope.from + ">\r\n";
  mail += "To: <" + message.to + ">\r\n";
  mail += "Subject: " + header_text(message.subject) + "\r\n";
  mail += "Message-ID: <" + id + "@" + domain + ">\r\n";
  mail += "Auto-Submitted: auto-generated\r\nMIME-Version: 1.0\r\n";
  if (message.attachments.empty()) return mail + text_part(message.text);
  // Base64 has no '=_', so no part can hold the boundary.
  const std::string boundary = "=_" + id;
  mail += "Content-Type: multipart/mixed; boundary=\"" + boundary + "\"\r\n\r\n";
  mail += "--" + boundary + "\r\n" + text_part(message.text);
  for (const Attachment& attachment : message.attachments)
    mail += "--" + boundary + "\r\nContent-Type: " + type_text(attachment.type) +
            "\r\nContent-Transfer-Encoding: base64\r\nContent-Disposition: attachment; " + file_name(without_controls(attachment.name)) +
            "\r\n\r\n" + base64(attachment.bytes, base64_line);
  return mail + "--" + boundary + "--\r\n";
}

}  // namespace post
