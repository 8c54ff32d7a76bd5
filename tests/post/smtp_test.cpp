// Against a mail server that fails on purpose (aiosmtpd): what came of a mail is what really happened to it.
#include <doctest/doctest.h>

#include "post/peer.h"
#include "post/smtp_sender.h"
#include "units/time.h"

using namespace post;

namespace {

units::UtcTime evening() { return *units::parse_instant("2026-07-06T22:05:09Z"); }

settings::SmtpRoad road_to(const Peer& peer, settings::MailTls tls) {
  settings::SmtpRoad road;
  road.host = "localhost";
  road.port = peer.port();
  road.tls = tls;
  road.user = "office";
  road.from = "office@trees.example";
  road.from_name = "Tree office";
  road.ca_file = peer.authority();
  road.timeout = std::chrono::seconds{3};
  return road;
}

Outgoing mail_to(const std::string& name) {
  return {"key-" + name, name + "@crews.example", "Crew B Tue Jul 7", "1) Oak Court\n.\nGO ñ\n"};
}

Outcome sent(const settings::SmtpRoad& road, const Outgoing& mail, const std::string& password = "right") {
  return SmtpSender{road, password, evening}.send(mail);
}

}  // namespace

TEST_SUITE("post") {
  TEST_CASE("a mail arrives once and whole, by both kinds of TLS") {
    if (!Peer::has_module("aiosmtpd")) return;
    for (const auto& [word, tls] :
         {std::pair{"starttls", settings::MailTls::starttls}, std::pair{"implicit", settings::MailTls::implicit}}) {
      CAPTURE(word);
      const Peer peer{"mail_server.py", {"--tls", word}};
      Outgoing mail = mail_to("lead");
      mail.subject = "Команда Б: Oak Court & a subject that is long enough to need several encoded words, one after the other";
      mail.attachments = {{"sheet.html", "text/html; charset=utf-8", "<p>Oak</p>"},
                          {"дуб.ics", "text/calendar; charset=utf-8", "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n"}};
      const Outcome outcome = sent(road_to(peer, tls), mail);
      CHECK(outcome.delivery == Delivery::delivered);
      CHECK(outcome.code == 250);
      const auto taken = peer.taken();
      REQUIRE(taken.size() == 1);
      CHECK(taken[0]["from"] == "office@trees.example");
      CHECK(taken[0]["to"][0] == "lead@crews.example");
      CHECK(taken[0]["defects"].empty());
      const auto& headers = taken[0]["headers"];
      CHECK(headers["Subject"] == mail.subject);
      CHECK(headers["From"] == "Tree office <office@trees.example>");
      CHECK(headers["Date"] == "Mon, 06 Jul 2026 22:05:09 +0000");
      REQUIRE(taken[0]["parts"].size() == 3);
      CHECK(taken[0]["parts"][0]["bytes"] == mail.text);
      CHECK(taken[0]["parts"][1]["type"] == "text/html");
      CHECK(taken[0]["parts"][1]["bytes"] == mail.attachments[0].bytes);
      CHECK(taken[0]["parts"][2]["name"] == "дуб.ics");
      CHECK(taken[0]["parts"][2]["bytes"] == mail.attachments[1].bytes);
    }
  }

  TEST_CASE("refusals, put-offs, cuts and silence are told apart") {
    if (!Peer::has_module("aiosmtpd")) return;
    const Peer peer{"mail_server.py", {"--tls", "starttls"}};
    const auto road = road_to(peer, settings::MailTls::starttls);
    struct Row {
      std::string name;
      Delivery delivery;
      int code;
    };
    for (const Row& row : std::vector<Row>{{"451", Delivery::later, 451},
                                           {"550", Delivery::refused, 550},
                                           {"data451", Delivery::later, 451},
                                           {"data554", Delivery::refused, 554},
                                           {"cut-rcpt", Delivery::later, 0},
                                           {"slow-rcpt", Delivery::later, 0},
                                           {"cut-after", Delivery::uncertain, 0},
                                           {"slow-after", Delivery::uncertain, 0},
                                           {"lead", Delivery::delivered, 250}}) {
      CAPTURE(row.name);
      const Outcome outcome = sent(road, mail_to(row.name));
      CHECK(outcome.delivery == row.delivery);
      CHECK_FALSE(outcome.configuration);
      CHECK(outcome.code == row.code);
      CHECK(outcome.reason.find("crews.example") == std::string::npos);
    }
    // A large mail cut in its middle surely did not arrive; of a small one, gone out in one piece, nobody can tell.
    Outgoing large = mail_to("cut-mid");
    CHECK(sent(road, large).delivery == Delivery::uncertain);
    large.attachments = {{"sheet.pdf", "application/pdf", std::string(20'000'000, 'x')}};
    CHECK(sent(road, large).delivery == Delivery::later);
    std::vector<std::string> names;
    for (const auto& taken : peer.taken()) names.push_back(taken["to"][0]);
    CHECK(names == std::vector<std::string>{"cut-after@crews.example", "lead@crews.example"});
  }

  TEST_CASE("a wrong password, a strange certificate and a server without TLS are the owner's to mend") {
    if (!Peer::has_module("aiosmtpd")) return;
    const Peer peer{"mail_server.py", {"--tls", "starttls"}};
    const auto road = road_to(peer, settings::MailTls::starttls);
    const Outcome wrong = sent(road, mail_to("lead"), "wrong");
    CHECK(wrong.delivery == Delivery::refused);
    CHECK(wrong.configuration);
    CHECK(wrong.code == 535);
    CHECK(wrong.reason.find("wrong password") == std::string::npos);
    auto strange = road;
    strange.ca_file.reset();
    CHECK(sent(strange, mail_to("lead")).configuration);
    CHECK(sent(strange, mail_to("lead")).delivery == Delivery::refused);
    const Peer open{"mail_server.py", {"--tls", "none"}};
    const Outcome no_tls = sent(road_to(open, settings::MailTls::starttls), mail_to("lead"));
    CHECK(no_tls.delivery == Delivery::refused);
    CHECK(no_tls.configuration);
    auto nobody = road;
    nobody.port = 1;
    CHECK(sent(nobody, mail_to("lead")).delivery == Delivery::later);
    CHECK(peer.taken().empty());
    CHECK(open.taken().empty());
  }
}
