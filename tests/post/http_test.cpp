// Against a real HTTPS server: what came of a message is what really happened to it.
#include <doctest/doctest.h>

#include "post/digest.h"
#include "post/http_sender.h"
#include "post/peer.h"

using namespace post;

namespace {

const Outgoing message{"crew-b 2026-07-07 evening", "+15550100", "", "Crew B: GO & \"9 in 10\" {secret} ñ"};

settings::HttpRoad road_to(const Peer& peer, const std::string& path) {
  settings::HttpRoad road;
  road.address = "https://localhost:" + std::to_string(peer.port()) + path;
  road.form = {{"To", "{to}"}, {"Body", "{text}"}};
  road.ca_file = peer.authority();
  road.timeout = std::chrono::seconds{2};
  return road;
}

Outcome sent(const settings::HttpRoad& road, const HttpSender::Secrets& secrets = {}) { return HttpSender{road, secrets}.send(message); }

}  // namespace

TEST_SUITE("post") {
  TEST_CASE("a gateway gets the message once, whole, with login, key and signature") {
    const Peer peer{"gateway.py", {}};
    settings::HttpRoad road = road_to(peer, "/ok?to={to}");
    road.body = settings::BodyKind::json;
    road.json = R"({"to": "{to}", "deep": ["{text}", 4], "key": "{key}"})";
    road.headers = {{"X-Api", "v1 {secret}"}};
    road.login = settings::Login::bearer;
    road.idempotency_header = "Idempotency-Key";
    road.signature_header = "X-Signature";
    road.signature_prefix = "sha256=";
    road.success_pointer = "/status";
    road.success_value = "queued";
    CHECK(sent(road, {"pass", "signing"}).delivery == Delivery::delivered);
    const auto taken = peer.taken();
    REQUIRE(taken.size() == 1);
    CHECK(taken[0]["path"] == "/ok?to=%2B15550100");
    const std::string body = taken[0]["body"];
    const auto json = nlohmann::json::parse(body);
    CHECK(json["to"] == message.to);
    CHECK(json["deep"][0] == message.text);  // with its quotes, and {secret} as it stands
    CHECK(json["deep"][1] == 4);
    const auto& headers = taken[0]["headers"];
    CHECK(headers["Authorization"] == "Bearer pass");
    CHECK(headers["X-Api"] == "v1 pass");
    CHECK(headers["Idempotency-Key"] == message.key);
    CHECK(headers["X-Signature"] == "sha256=" + hex(hmac_sha256("signing", body)));
  }

  TEST_CASE("a form is encoded, and basic login is sent at once") {
    const Peer peer{"gateway.py", {}};
    settings::HttpRoad road = road_to(peer, "/ok");
    road.login = settings::Login::basic;
    road.user = "office";
    CHECK(sent(road, {"pass", ""}).delivery == Delivery::delivered);
    const auto taken = peer.taken();
    REQUIRE(taken.size() == 1);
    CHECK(taken[0]["body"] == "To=%2B15550100&Body=Crew%20B%3A%20GO%20%26%20%229%20in%2010%22%20%7Bsecret%7D%20%C3%B1");
    CHECK(taken[0]["headers"]["Authorization"] == "Basic b2ZmaWNlOnBhc3M=");
    CHECK(taken[0]["headers"]["Content-Type"] == "application/x-www-form-urlencoded");
  }

  TEST_CASE("each answer means what the header says, and is asked for once") {
    const Peer peer{"gateway.py", {}};
    struct Row {
      std::string path;
      Delivery delivery;
      bool configuration;
    };
    const std::vector<Row> rows{{"/status/401", Delivery::refused, true},    {"/status/403", Delivery::refused, true},
                                {"/status/404", Delivery::refused, true},    {"/status/302", Delivery::refused, true},
                                {"/status/400", Delivery::refused, false},   {"/status/422", Delivery::refused, false},
                                {"/status/429", Delivery::later, false},     {"/status/500", Delivery::later, false},
                                {"/status/503", Delivery::later, false},     {"/status/502", Delivery::uncertain, false},
                                {"/status/504", Delivery::uncertain, false}, {"/status/204", Delivery::delivered, false}};
    for (const Row& row : rows) {
      CAPTURE(row.path);
      const Outcome outcome = sent(road_to(peer, row.path));
      CHECK(outcome.delivery == row.delivery);
      CHECK(outcome.configuration == row.configuration);
      CHECK(outcome.reason.find(message.to) == std::string::npos);
    }
    CHECK(peer.taken().size() == rows.size());
  }

  TEST_CASE("the gateway's word on when to try again is kept") {
    const Peer peer{"gateway.py", {}};
    CHECK(sent(road_to(peer, "/status/429/17")).wait == std::chrono::seconds{17});
    CHECK(sent(road_to(peer, "/status/503/999999")).wait == std::chrono::hours{24});
    CHECK_FALSE(sent(road_to(peer, "/status/500")).wait.has_value());
  }

  TEST_CASE("an answer that does not come after the message was taken leaves it open") {
    const Peer peer{"gateway.py", {}};
    CHECK(sent(road_to(peer, "/hang")).delivery == Delivery::uncertain);
    CHECK(sent(road_to(peer, "/cut")).delivery == Delivery::uncertain);
    settings::HttpRoad road = road_to(peer, "/half");
    CHECK(sent(road).delivery == Delivery::delivered);  // its status tells
    road.success_pointer = "/status";
    road.success_value = "queued";
    CHECK(sent(road).delivery == Delivery::uncertain);
    CHECK(peer.taken().size() == 4);
  }

  TEST_CASE("an answer that does not say what the settings ask for is no delivery") {
    const Peer peer{"gateway.py", {}};
    settings::HttpRoad road = road_to(peer, "/ok");
    road.success_pointer = "/status";
    road.success_value = "sent";
    CHECK(sent(road).delivery == Delivery::refused);
    road.success_pointer = "/count";
    road.success_value = "1";
    CHECK(sent(road).delivery == Delivery::delivered);
    road = road_to(peer, "/ok");
    road.success_from = road.success_to = 202;
    CHECK(sent(road).delivery == Delivery::uncertain);
  }

  TEST_CASE("what fails before anything is sent is for later, a strange certificate is the owner's to mend") {
    const Peer peer{"gateway.py", {}};
    settings::HttpRoad road = road_to(peer, "/ok");
    road.ca_file.reset();
    const Outcome strange = sent(road);
    CHECK(strange.delivery == Delivery::refused);
    CHECK(strange.configuration);
    CHECK(strange.reason == "its certificate cannot be trusted");
    road = road_to(peer, "/ok");
    road.address = "https://localhost:1/ok";
    CHECK(sent(road).delivery == Delivery::later);
    road.address = "https://nowhere.invalid/ok";
    CHECK(sent(road).delivery == Delivery::later);
    CHECK(peer.taken().empty());
  }

  TEST_CASE("a number or key that could begin a header of its own is refused before anything is sent") {
    const Peer peer{"gateway.py", {}};
    settings::HttpRoad road = road_to(peer, "/ok");
    road.headers = {{"X-To", "{to}"}};
    Outgoing hostile = message;
    hostile.to = "+1555\r\nX-Evil: 1";
    const Outcome outcome = HttpSender{road, {}}.send(hostile);
    CHECK(outcome.delivery == Delivery::refused);
    CHECK(outcome.reason.find("Evil") == std::string::npos);
    CHECK(peer.taken().empty());
  }
}
