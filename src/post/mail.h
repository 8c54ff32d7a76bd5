// A mail as it travels: RFC 5322 headers, MIME parts.
#pragma once
#include <string>

#include "post/sender.h"
#include "units/time.h"

namespace post {

struct Envelope {
  std::string from, from_name;  // checked by the settings
  units::UtcTime sent_at;
};

// "a@b.example" and nothing that could end a header or a command; so much of RFC 5321 as offices use, ASCII only.
[[nodiscard]] bool is_mail_address(const std::string& text);

// A header's text: as it is if it is plain and short, else RFC 2047 encoded words in folded lines. Line ends and control characters become
// blanks, so that nothing can begin a header of its own.
[[nodiscard]] std::string header_text(const std::string& utf8);

// The whole mail, lines ended by CRLF: text alone, or multipart/mixed with the attachments. Its Message-ID comes of the key, so that a mail
// sent twice is one to whoever sorts it. Requires is_mail_address of both ends.
[[nodiscard]] std::string mail_of(const Outgoing& message, const Envelope& envelope);

}  // namespace post
