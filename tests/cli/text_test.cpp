// The outbox through whole commands: real servers, real outcomes, states as docs/model/text.md promises.
#include <doctest/doctest.h>

#include <future>
#include <nlohmann/json.hpp>

#include "app/outbox.h"
#include "book_of_tests.h"
#include "post/digest.h"
#include "post/peer.h"

namespace {

using Json = nlohmann::json;

const std::string evening = "2026-07-06T22:00Z";  // 5 pm in Chicago

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

units::UtcTime at(const std::string& instant) { return *units::parse_instant(instant); }

// An office of one crew that takes texts, and another that takes mail.
class Office {
 public:
  Office() {
    auto book = of_tests_.place().open();
    keep(book, {add("crew", "B",
                    {{"name", "Crew B"},
                     {"phone", "+15550100"},
                     {"texts_agreed_on", "2026-04-01"},
                     {"works_from", "07:00"},
                     {"works_until", "16:00"}}),
                add("crew", "M", {{"name", "Crew M"}, {"email", "lead@crews.example"}, {"road", "email"}})});
    ::setenv("SAPDRAW_TEST_MAIL_PASSWORD", "right", 1);
  }

  static app::Composed message(const std::string& crew = "B") {
    app::Composed one;
    one.reader = {app::ReaderKind::crew, crew};
    one.day = *units::parse_day("2026-07-07");
    one.road = crew == "M" ? book::Road::email : book::Road::text;
    one.subject = crew == "M" ? "Crew M Tue Jul 7" : "";
    one.text = "Crew " + crew + " Tue Jul 7\n1) Oak Court: GO";
    one.order = R"({"stops": [{"code": "elm-1"}]})";
    one.jobs = {"J1"};
    one.zone = "America/Chicago";
    one.made_at = at(evening);
    one.not_after = at("2026-07-07T13:00Z");
    return one;
  }

  // Messages to so many crews, N1, N2...
  std::vector<app::Composed> to_crews(int count, const book::Fields& fields) const {
    std::vector<app::Composed> all;
    auto book = of_tests_.place().open();
    for (int i = 1; i <= count; ++i) {
      const std::string id = "N" + std::to_string(i);
      book::Fields set = fields;
      set["name"] = "Crew " + id;
      keep(book, {add("crew", id, set)});
      all.push_back(message(id));
      all.back().road = fields.contains("email") ? book::Road::email : book::Road::text;
    }
    return all;
  }

  std::vector<app::Queued> queue(const std::vector<app::Composed>& messages) const {
    auto book = of_tests_.place().open();
    return app::queue_messages(book, messages, ann());
  }
  void queued(const app::Composed& message) const { CHECK(queue({message}).front().faults.empty()); }

  [[nodiscard]] Ran send(const std::string& config, const std::string& now = evening, Arguments more = {}) const {
    Arguments arguments{"text", "send", "--json", "--config", config, "--now", now};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return of_tests_.run(arguments);
  }
  [[nodiscard]] Json status(Arguments more = {}) const {
    Arguments arguments{"text", "status", "--json"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return Json::parse(of_tests_.done(arguments))["messages"];
  }
  // The one message to a crew.
  [[nodiscard]] Json of(const std::string& crew = "B") const {
    const Json all = status({"--crew", crew});
    REQUIRE(all.size() == 1);
    return all[0];
  }
  [[nodiscard]] const BookOfTests& book() const { return of_tests_; }
  [[nodiscard]] std::string config(const std::string& text) const { return of_tests_.file("config.toml", "[post]\n" + text); }

 private:
  BookOfTests of_tests_;
};

std::string gateway(const Peer& peer, const std::string& path, const std::string& more = "") {
  return "sending = \"on\"\ntexts = \"http\"\noffice = \"+15550199\"\n[post.http]\naddress = \"https://localhost:" +
         std::to_string(peer.port()) + path + "\"\nca_file = \"" + peer.authority().string() + "\"\ntimeout_s = 1\n" + more +
         "[post.http.form]\nto = \"{to}\"\nbody = \"{text}\"\n";
}
const std::string with_key = "idempotency_header = \"Idempotency-Key\"\n";

std::string mails(const Peer& peer, bool trusted = true) {
  return "sending = \"on\"\noffice = \"desk@trees.example\"\n[post.smtp]\nhost = \"localhost\"\nport = " + std::to_string(peer.port()) +
         "\nuser = \"office\"\nsecret_variable = \"SAPDRAW_TEST_MAIL_PASSWORD\"\nfrom = \"office@trees.example\"\ntimeout_s = 2\n" +
         (trusted ? "ca_file = \"" + peer.authority().string() + "\"\n" : "");
}

}  // namespace

TEST_SUITE("cli: text") {
  TEST_CASE("nothing leaves until the owner has turned sending on") {
    const Office office;
    const Peer peer{"gateway.py", {}};
    office.queued(Office::message());
    std::string off = gateway(peer, "/ok");
    off.replace(off.find("\"on\""), 4, "\"off\"");
    const Ran ran = office.send(office.config(off));
    CHECK(ran.exit == 3);
    CHECK(ran.err == "config.toml: post.sending: expected \"on\": nothing is sent until the owner says so\n");
    CHECK(peer.taken().empty());
    CHECK(office.of()["state"] == "queued");
  }

  TEST_CASE("a message leaves once, and what crew B got on Tuesday, when and by which road has an answer") {
    const Office office;
    const Peer peer{"gateway.py", {}};
    const std::string config = office.config(gateway(peer, "/ok", with_key));
    CHECK(office.send(config).exit == 1);
    office.queued(Office::message());
    CHECK(office.queue({Office::message()}).front().already_there);
    CHECK(office.send(config).exit == 0);
    CHECK(office.send(config).exit == 1);
    CHECK(office.queue({Office::message()}).front().already_there);
    CHECK(office.send(config).exit == 1);
    REQUIRE(peer.taken().size() == 1);
    CHECK(peer.taken()[0]["headers"]["Idempotency-Key"] == "crew B 2026-07-07 evening");
    const Json sent = office.status({"--crew", "B", "--day", "2026-07-07"})[0];
    CHECK(sent["state"] == "sent");
    CHECK(sent["road"] == "text");
    CHECK(sent["sent_at"] == evening);
    CHECK(sent["sent_to"] == "+15550100");
    CHECK(sent["tries"] == 1);
    CHECK(sent["code"] == 200);
    CHECK(sent["text"] == "Crew B Tue Jul 7\n1) Oak Court: GO");
    CHECK(sent["order"]["stops"][0]["code"] == "elm-1");
    const std::string told = office.book().done({"text", "status", "--crew", "B", "--day", "2026-07-07"});
    for (const char* part : {"Crew B", "evening", "text", "sent", "2026-07-06 5:00 pm to +15550100", "| 1) Oak Court: GO"})
      CHECK_MESSAGE(holds(told, part), told);
    CHECK(office.status({"--crew", "B", "--day", "2026-07-08"}).empty());
    CHECK(office.status({"--state", "queued"}).empty());
    CHECK(office.book().run({"text", "status", "--crew", "Z"}).exit == 3);
    CHECK(holds(office.book().done({"book", "check"}), "sound"));
  }

  TEST_CASE("two processes that send at once deliver each message once") {
    const Office office;
    const Peer peer{"gateway.py", {}};
    const std::string config = office.config(gateway(peer, "/ok"));
    const auto messages = office.to_crews(12, {{"phone", "+15550100"}, {"texts_agreed_on", "2026-04-01"}});
    auto first = std::async(std::launch::async, [&] { return office.queue(messages); });
    const auto second = office.queue(messages);
    const auto queued = first.get();
    for (std::size_t i = 0; i < messages.size(); ++i) {
      CHECK(queued[i].faults.empty());
      CHECK(queued[i].already_there != second[i].already_there);
    }
    auto other = std::async(std::launch::async, [&] { return office.send(config); });
    const Ran one = office.send(config);
    CHECK(one.exit <= 1);
    CHECK(other.get().exit <= 1);
    CHECK(peer.taken().size() == messages.size());
    CHECK(office.status({"--state", "sent"}).size() == messages.size());
  }

  TEST_CASE("each answer of a gateway leads to the state that is promised") {
    struct Row {
      std::string path, more, state;
      int tries, code;
      std::string next;
    };
    const Peer peer{"gateway.py", {}};
    for (const Row& row : std::vector<Row>{{"/status/401", "", "queued", 0, 401, "2026-07-06T22:0"},
                                           {"/status/429/600", "", "queued", 1, 429, "2026-07-06T22:1"},
                                           {"/status/500", "", "queued", 1, 500, "2026-07-06T22:0"},
                                           {"/status/400", "", "failed", 1, 400, ""},
                                           {"/hang", "", "uncertain", 1, 0, ""},
                                           {"/cut", with_key, "queued", 1, 0, "2026-07-06T22:0"}}) {
      CAPTURE(row.path);
      const Office office;
      const auto before = peer.taken().size();
      office.queued(Office::message());
      const Ran ran = office.send(office.config(gateway(peer, row.path, row.more)));
      CHECK(ran.exit == 4);
      CHECK(holds(ran.err, "evening text to crew B about 2026-07-07: "));
      const Json message = office.of();
      CHECK(message["state"] == row.state);
      CHECK(message["tries"] == row.tries);
      CHECK(message["code"] == (row.code == 0 ? Json(nullptr) : Json(row.code)));
      CHECK(message["reason"].is_string());
      if (row.next.empty())
        CHECK(message["next_try_at"].is_null());
      else
        CHECK(holds(message["next_try_at"], row.next));
      // The office is told of what somebody has to look at; the gateway was asked once for each.
      const bool told = row.state == "failed" || row.state == "uncertain";
      CHECK(office.status({"--day", "2026-07-07"}).size() == (told ? 2 : 1));
      CHECK(peer.taken().size() - before == (told ? 2 : 1));
    }
  }

  TEST_CASE("a gateway that refuses the office is asked once a run, and burns no message") {
    const Office office;
    const Peer peer{"gateway.py", {}};
    office.queue(office.to_crews(3, {{"phone", "+15550100"}, {"texts_agreed_on", "2026-04-01"}}));
    const Ran ran = office.send(office.config(gateway(peer, "/status/403")));
    CHECK(ran.exit == 4);
    CHECK(holds(ran.err, "texts: nothing more is sent by it now"));
    CHECK(peer.taken().size() == 1);
    for (const Json& message : office.status()) {
      CHECK(message["state"] == "queued");
      CHECK(message["tries"] == 0);
    }
    CHECK(office.send(office.config(gateway(peer, "/ok")), "2026-07-06T22:30Z").exit == 0);
    CHECK(peer.taken().size() == 4);
  }

  TEST_CASE("out of time after the gateway took it: with a key it is sent again under the same, without it waits for a person") {
    const Peer peer{"gateway.py", {}};
    {
      const Office office;
      const std::string config = office.config(gateway(peer, "/hang-once", with_key));
      office.queued(Office::message());
      CHECK(office.send(config).exit == 4);
      CHECK(office.of()["state"] == "queued");
      CHECK(office.send(config, "2026-07-06T22:05Z").exit == 0);
      CHECK(office.of()["state"] == "sent");
      REQUIRE(peer.taken().size() == 2);
      CHECK(peer.taken()[0]["headers"]["Idempotency-Key"] == peer.taken()[1]["headers"]["Idempotency-Key"]);
    }
    const Office office;
    const std::string config = office.config(gateway(peer, "/hang-once?again"));
    office.queued(Office::message());
    CHECK(office.send(config).exit == 4);
    CHECK(office.of()["state"] == "uncertain");
    CHECK(office.send(config, "2026-07-06T22:30Z").exit == 1);
    CHECK(office.of()["tries"] == 1);
    const std::string id = office.of()["id"];
    CHECK(holds(office.book().done({"text", "resend", id}), "queued"));
    CHECK(office.send(config, "2026-07-06T22:30Z").exit == 0);
    CHECK(office.of()["state"] == "sent");
  }

  TEST_CASE("a gateway that stays away is tried so often, then the office is told once") {
    const Office office;
    const Peer down{"gateway.py", {}};
    const std::string owner = office.book().file("owner.json", R"({"office.sending.most_tries": {"value": 2, "unit": "1"}})");
    office.queued(Office::message());
    const std::string config = office.config(gateway(down, "/status/503"));
    CHECK(office.send(config, evening, {"--owner", owner}).exit == 4);
    CHECK(office.of()["state"] == "queued");
    CHECK(office.send(config, "2026-07-06T22:00Z", {"--owner", owner}).exit == 1);  // not yet
    CHECK(office.send(config, "2026-07-06T22:02Z", {"--owner", owner}).exit == 4);
    CHECK(office.of()["state"] == "failed");
    CHECK(down.taken().size() == 3);
    const Peer up{"gateway.py", {}};
    CHECK(office.send(office.config(gateway(up, "/ok")), "2026-07-06T22:10Z").exit == 0);
    REQUIRE(up.taken().size() == 1);
    CHECK(holds(up.taken()[0]["body"], "to=%2B15550199"));
    CHECK(holds(up.taken()[0]["body"], "Not%20sent%3A%20evening%20text%20to%20crew%20B"));
    CHECK(office.status({"--day", "2026-07-07"}).size() == 2);
  }

  TEST_CASE("each outcome of a mail server leads to the state that is promised") {
    if (!Peer::has_module("aiosmtpd")) return;
    const Peer peer{"mail_server.py", {"--tls", "starttls"}};
    struct Row {
      std::string name, state;
      int code;
    };
    const Office office;
    const std::vector<Row> rows{{"451", "queued", 451},        {"data451", "queued", 451}, {"550", "failed", 550},
                                {"data554", "failed", 554},    {"cut-rcpt", "queued", 0},  {"cut-mid", "uncertain", 0},
                                {"cut-after", "uncertain", 0}, {"fine", "sent", 250}};
    for (const Row& row : rows) {
      auto book = office.book().place().open();
      keep(book, {add("crew", row.name, {{"name", row.name}, {"email", row.name + "@crews.example"}})});
      app::Composed mail = Office::message("M");
      mail.reader.id = row.name;
      mail.attachments = {{"day.ics", "text/calendar; charset=utf-8", "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n"}};
      office.queued(mail);
    }
    CHECK(office.send(office.config(mails(peer))).exit == 4);
    for (const Row& row : rows) {
      CAPTURE(row.name);
      const Json message = office.of(row.name);
      CHECK(message["state"] == row.state);
      CHECK(message["code"] == (row.code == 0 ? Json(nullptr) : Json(row.code)));
    }
    // Taken: what was cut after, what was fine, and a note to the office for each that somebody has to look at.
    std::size_t to_office = 0, to_crews = 0;
    for (const Json& taken : peer.taken()) {
      const bool is_note = taken["to"][0] == "desk@trees.example";
      (is_note ? to_office : to_crews) += 1;
      if (is_note) continue;
      CHECK(taken["parts"][1]["bytes"] == "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n");
    }
    CHECK(to_crews == 2);
    CHECK(to_office == 4);
  }

  TEST_CASE("a wrong password and an untrusted certificate stop the road and burn no mail") {
    if (!Peer::has_module("aiosmtpd")) return;
    const Peer peer{"mail_server.py", {"--tls", "starttls"}};
    const Office office;
    office.queue(office.to_crews(2, {{"email", "lead@crews.example"}}));
    ::setenv("SAPDRAW_TEST_MAIL_PASSWORD", "wrong", 1);
    CHECK(office.send(office.config(mails(peer))).exit == 4);
    ::setenv("SAPDRAW_TEST_MAIL_PASSWORD", "right", 1);
    CHECK(office.send(office.config(mails(peer, false)), "2026-07-06T22:10Z").exit == 4);
    for (const Json& message : office.status()) {
      CHECK(message["state"] == "queued");
      CHECK(message["tries"] == 0);
    }
    CHECK(peer.taken().empty());
    CHECK(office.send(office.config(mails(peer)), "2026-07-06T22:20Z").exit == 0);
    CHECK(peer.taken().size() == 2);
  }

  TEST_CASE("a message whose process was killed is let alone for its lease, then sent again only where a repeat is known") {
    const Peer peer{"gateway.py", {}};
    for (const bool has_key : {true, false}) {
      CAPTURE(has_key);
      const Office office;
      const auto before = peer.taken().size();
      office.queued(Office::message());
      {
        auto book = office.book().place().open();
        keep(book, {change("message", "crew B 2026-07-07 evening", {{"state", "sending"}, {"claimed_by", "x"}, {"claimed_at", evening}})});
      }
      const std::string config = office.config(gateway(peer, "/ok", has_key ? with_key : ""));
      CHECK(office.send(config, "2026-07-06T22:14Z").exit == 1);
      CHECK(office.of()["state"] == "sending");
      CHECK(peer.taken().size() == before);
      CHECK(office.send(config, "2026-07-06T22:15Z").exit == (has_key ? 0 : 4));
      CHECK(office.of()["state"] == (has_key ? "sent" : "uncertain"));
      CHECK(peer.taken().size() == before + 1);  // itself; or the note to the office
      CHECK(holds(peer.taken().back()["body"], has_key ? "Oak%20Court" : "Perhaps%20not%20sent"));
    }
  }

  TEST_CASE("nobody is written to who has not agreed, nor where there is no address, when it is queued and when it is sent") {
    const Office office;
    const Peer peer{"gateway.py", {}};
    {
      auto book = office.book().place().open();
      keep(book, {add("crew", "silent", {{"name", "S"}, {"phone", "+15550100"}}),
                  add("client", "no", {{"name", "N"}, {"phone", "+1555"}, {"may_text", "no"}, {"texts_agreed_on", "2026-01-01"}}),
                  add("client", "yes", {{"name", "Y"}, {"phone", "+1555"}, {"may_text", "yes"}})});
    }
    CHECK(office.queue({Office::message("silent")}).front().faults.front().line() ==
          "crew silent: texts_agreed_on: expected the day on which texts were agreed to");
    app::Composed mail = Office::message("B");
    mail.road = book::Road::email;
    CHECK(office.queue({mail}).front().faults.front().line() == "crew B: email: expected a mail address to write to");
    auto book = office.book().place().open();
    const auto road = [&](app::ReaderKind kind, const std::string& id) { return app::road_to(book, {kind, id}, at(evening)); };
    CHECK(road(app::ReaderKind::crew, "B") == book::Road::text);
    CHECK(road(app::ReaderKind::crew, "M") == book::Road::email);
    CHECK_FALSE(road(app::ReaderKind::crew, "silent").has_value());
    CHECK_FALSE(road(app::ReaderKind::client, "no").has_value());
    CHECK(road(app::ReaderKind::client, "yes") == book::Road::text);
    keep(book, {change("crew", "B", {{"email", "b@crews.example"}})});
    CHECK(road(app::ReaderKind::crew, "B") == book::Road::text);
    keep(book, {change("crew", "B", {{"road", "email"}})});
    CHECK(road(app::ReaderKind::crew, "B") == book::Road::email);
    office.queued(Office::message());
    keep(book, {change("crew", "B", {{"texts_agreed_on", ""}})});
    CHECK(office.send(office.config(gateway(peer, "/ok"))).exit == 4);
    CHECK(office.of()["state"] == "failed");
    CHECK(peer.taken().size() == 1);  // to the office
    keep(book, {change("crew", "B", {{"texts_agreed_on", "2026-07-06"}, {"phone", "+15550123"}})});
    office.book().done({"text", "resend", office.of()["id"]});
    CHECK(office.send(office.config(gateway(peer, "/ok"))).exit == 0);
    CHECK(office.of()["sent_to"] == "+15550123");
  }

  TEST_CASE("quiet hours hold a message back, but not a correction while the crew is at work") {
    const Office office;
    const Peer peer{"gateway.py", {}};
    const std::string config = office.config(gateway(peer, "/ok"));
    {
      auto book = office.book().place().open();
      keep(book, {change("crew", "B", {{"quiet_from", "16:30"}, {"quiet_until", "06:00"}})});
    }
    office.queued(Office::message());
    CHECK(office.send(config).exit == 1);
    CHECK(office.of()["state"] == "queued");
    CHECK(office.of()["next_try_at"] == "2026-07-07T11:00Z");  // 6 am in Chicago
    CHECK(office.of()["reason"] == "held: quiet hours until 06:00");
    CHECK(office.send(config, "2026-07-07T10:59Z").exit == 1);
    CHECK(office.send(config, "2026-07-07T11:00Z").exit == 0);
    {
      auto book = office.book().place().open();
      keep(book, {change("crew", "B", {{"quiet_from", "11:00"}, {"quiet_until", "13:00"}})});
    }
    app::Composed correction = Office::message();
    correction.purpose = book::Purpose::correction;
    correction.made_at = at("2026-07-07T17:00Z");  // noon
    correction.not_after = at("2026-07-07T21:00Z");
    office.queued(correction);
    CHECK(office.send(config, "2026-07-07T17:00Z").exit == 0);
    CHECK(peer.taken().size() == 2);
    app::Composed late = Office::message();
    late.day = *units::parse_day("2026-07-08");
    late.made_at = at("2026-07-07T17:00Z");
    late.not_after = at("2026-07-07T17:30Z");
    office.queued(late);
    CHECK(office.send(config, "2026-07-07T17:29Z").exit == 4);
    CHECK(office.status({"--crew", "B", "--day", "2026-07-08"})[0]["reason"] == "quiet hours last beyond its use");
  }

  TEST_CASE("a message that has outlived its use is cancelled, never sent late, and the office is told") {
    const Office office;
    const Peer peer{"gateway.py", {}};
    office.queued(Office::message());
    CHECK(office.send(office.config(gateway(peer, "/ok")), "2026-07-07T13:01Z").exit == 4);
    CHECK(office.of()["state"] == "cancelled");
    REQUIRE(peer.taken().size() == 1);
    CHECK(holds(peer.taken()[0]["body"], "to=%2B15550199"));
    CHECK(office.send(office.config(gateway(peer, "/ok")), "2026-07-07T13:02Z").exit == 1);
    const Ran ran = office.book().run({"text", "resend", office.of()["id"], "--now", "2026-07-07T13:02Z"});
    CHECK(ran.exit == 3);
    CHECK(holds(ran.err, "expected one that is still of use"));
    app::Composed next = Office::message();
    next.day = *units::parse_day("2026-07-08");
    office.queued(next);
    CHECK(office.send(office.config("sending = \"on\"\n"), "2026-07-07T13:02Z").exit == 4);  // no road at all
    CHECK(office.status({"--crew", "B", "--day", "2026-07-08"})[0]["state"] == "cancelled");
  }

  TEST_CASE("a later order overtakes an earlier one that has not left, and what was said last can be asked for") {
    const Office office;
    const auto day = *units::parse_day("2026-07-07");
    auto book = office.book().place().open();
    office.queued(Office::message());
    app::Composed morning = Office::message();
    morning.purpose = book::Purpose::morning;
    office.queued(morning);
    auto orders = app::orders_of_day(book, "B", day);
    CHECK_FALSE(orders.said.has_value());
    REQUIRE(orders.waiting.has_value());
    CHECK(orders.waiting->purpose == book::Purpose::morning);
    CHECK(office.status({"--state", "cancelled"})[0]["reason"] == "overtaken by the morning");
    const Peer peer{"gateway.py", {}};
    CHECK(office.send(office.config(gateway(peer, "/ok"))).exit == 0);
    CHECK(peer.taken().size() == 1);
    app::Composed correction = Office::message();
    correction.purpose = book::Purpose::correction;
    correction.number = app::orders_of_day(book, "B", day).next_correction;
    CHECK(correction.number == 1);
    office.queued(correction);
    office.queued(Office::message());  // already there, and overtakes nothing
    orders = app::orders_of_day(book, "B", day);
    CHECK(orders.said->purpose == book::Purpose::morning);
    CHECK(orders.last()->id == "crew B 2026-07-07 correction 1");
    CHECK(orders.next_correction == 2);
    CHECK(Json::parse(orders.last()->order)["stops"].size() == 1);
  }

  TEST_CASE("a person cancels what waits, and has sent once more what did not arrive or, if he insists, what did") {
    const Office office;
    const Peer peer{"gateway.py", {}};
    const std::string config = office.config(gateway(peer, "/ok", with_key));
    office.queued(Office::message());
    const std::string id = office.of()["id"];
    CHECK(office.book().run({"text", "resend", id}).exit == 3);
    CHECK(holds(office.book().done({"text", "cancel", id, "--why", "crew is ill"}), "cancelled"));
    CHECK(office.of()["reason"] == "cancelled: crew is ill");
    CHECK(office.send(config).exit == 1);
    CHECK(office.book().run({"text", "cancel", id}).exit == 3);
    office.book().done({"text", "resend", id});
    CHECK(office.send(config).exit == 0);
    CHECK(office.book().run({"text", "cancel", id}).exit == 3);
    CHECK(office.book().run({"text", "resend", id}).exit == 3);
    CHECK(Json::parse(office.book().done({"text", "resend", id, "--again", "--json"}))["state"] == "queued");
    CHECK(office.send(config).exit == 0);
    REQUIRE(peer.taken().size() == 2);
    CHECK(peer.taken()[0]["headers"]["Idempotency-Key"] == id);
    CHECK(peer.taken()[1]["headers"]["Idempotency-Key"] == id + " again 1");
    CHECK(office.book().run({"text", "cancel", "nobody"}).exit == 3);
    CHECK(office.book().run({"text"}).exit == 2);
    CHECK(office.book().run({"text", "status", "--state", "gone"}).exit == 2);
  }

  TEST_CASE("texts go into a spool folder or onto standard output, and a road that is not set up is told") {
    const Office office;
    const std::string spool = (office.book().folder() / "spool").string();
    office.queued(Office::message());
    office.queued(Office::message("M"));
    const Ran ran = office.send(office.config("sending = \"on\"\ntexts = \"spool\"\nspool = \"" + spool + "\"\n"));
    CHECK(ran.exit == 4);
    CHECK(holds(ran.err, "mail: nothing more is sent by it now: post.smtp: expected a road for mails: none is set up"));
    CHECK(content_of(spool + "/sapdraw-" + post::stable_name("crew B 2026-07-07 evening")) ==
          "To: +15550100\nAlphabet: UTF-8\n\nCrew B Tue Jul 7\n1) Oak Court: GO\n");
    app::Composed next = Office::message();
    next.day = *units::parse_day("2026-07-08");
    office.queued(next);
    const Ran shown =
        office.book().run({"text", "send", "--config", office.config("sending = \"on\"\ntexts = \"standard-output\"\n"), "--now", evening});
    CHECK(holds(shown.out, "To +15550100\nCrew B Tue Jul 7\n1) Oak Court: GO\n"));
  }

  TEST_CASE("the help of every command is at most 100 columns wide") {
    for (const char* command : {"preview", "send", "status", "resend", "cancel"}) {
      const Ran ran = sapdraw({"text", command, "--help"});
      CHECK(ran.exit == 0);
      CHECK(widest_line(ran.out) <= 100);
    }
  }

  TEST_CASE("what cannot be a message is refused by its field") {
    const Office office;
    const auto fault = [&](auto change) {
      app::Composed message = Office::message();
      change(message);
      const auto queued = office.queue({message});
      REQUIRE_FALSE(queued.front().faults.empty());
      return queued.front().faults.front().line();
    };
    CHECK(fault([](auto& m) { m.text = " \n"; }) == "text: expected a text, not nothing");
    CHECK(fault([](auto& m) { m.zone = "Mars/Base"; }) == "zone: 'Mars/Base': expected an IANA time zone such as America/Chicago");
    CHECK(fault([](auto& m) { m.order = "{"; }) == "order: expected JSON");
    CHECK(fault([](auto& m) { m.not_after = at("2026-07-06T21:00Z"); }) ==
          "not_after: '2026-07-06T21:00Z': expected 2026-07-06T22:00Z or later");
    CHECK(fault([](auto& m) { m.attachments = {{"a", "text/plain", "x"}}; }) == "attachments: expected none beside a text");
    CHECK(fault([](auto& m) { m.reader.id = "nobody"; }) == "crew: 'nobody': expected the id of a crew in the book");
    CHECK(office.status().empty());
  }
}
