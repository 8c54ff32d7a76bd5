#include "post/mail.h"

#include <doctest/doctest.h>

#include <sstream>

#include "text/orders.h"
#include "units/text.h"

using namespace post;

namespace {

std::string mail(const std::string& subject, const std::string& name, const std::string& file) {
  const Outgoing message{"k", "lead@crews.example", subject, "text", {{file, "text/plain\r\nX-Evil: 1", "bytes"}}};
  return mail_of(message, {"office@trees.example", name, *units::parse_instant("2026-07-06T22:05:09Z")});
}

}  // namespace

TEST_SUITE("post") {
  TEST_CASE("a mail address is one plain word with one @") {
    CHECK(is_mail_address("lead@crews.example"));
    for (const std::string text :
         {"", "lead", "@x", "x@", "a@b@c", "a b@c.d", "a@b.c\r\nRCPT TO:<d@e.f>", "<a@b.c>", "a@b.c,d@e.f", "ñ@b.c", "-f@b.c"})
      CHECK_FALSE(is_mail_address(text));
  }

  TEST_CASE("header texts are plain or encoded words, folded, never a line of their own") {
    CHECK(header_text("Crew B Tue Jul 7") == "Crew B Tue Jul 7");
    CHECK(header_text("ñ") == "=?UTF-8?B?w7E=?=");
    CHECK(header_text("a\r\nBcc: b") == "a  Bcc: b");
    CHECK(header_text("=?x?=").starts_with("=?UTF-8?B?"));
  }

  TEST_CASE("no subject, name or file name puts a header or a part of its own into a mail") {
    const std::string plain = mail("s", "n", "f");
    const auto lines_of = [](const std::string& text) {
      std::vector<std::string> names;
      std::istringstream in{text.substr(0, text.find("\r\n\r\n"))};
      for (std::string line; std::getline(in, line);)
        if (line[0] != ' ') names.push_back(line.substr(0, line.find(':')));
      return names;
    };
    for (std::uint64_t number = 0; number < 500; ++number) {
      const std::string made = mail(orders::nasty_text(3 * number), orders::nasty_text(3 * number + 1), orders::nasty_text(3 * number + 2));
      CHECK(lines_of(made) == lines_of(plain));
      CHECK(made.find("\nX-Evil") == std::string::npos);
      CHECK(made.find("\nBcc") == std::string::npos);
      std::istringstream in{made};
      for (std::string line; std::getline(in, line);) {
        CHECK(line.ends_with('\r'));
        CHECK(line.size() <= 998);  // RFC 5322 2.1.1
        CHECK(line.find('\0') == std::string::npos);
        CHECK(line != ".\r");
      }
    }
  }
}
