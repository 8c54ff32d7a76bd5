// Against postfix, with TLS and login; its folder comes from tests/support/with_postfix.sh.
#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <thread>

#include "post/digest.h"
#include "post/smtp_sender.h"
#include "units/time.h"

using namespace post;
namespace fs = std::filesystem;

namespace {

std::optional<fs::path> server() {
  const char* folder = std::getenv("SAPDRAW_TEST_MAIL");
  if (folder == nullptr) MESSAGE("skipped: no mail server beside, see tests/support/with_postfix.sh");
  return folder == nullptr ? std::nullopt : std::optional<fs::path>{folder};
}

std::string content(const fs::path& path) {
  std::ostringstream text;
  text << std::ifstream{path}.rdbuf();
  return text.str();
}

settings::SmtpRoad road_to(const fs::path& folder, settings::MailTls tls) {
  settings::SmtpRoad road;
  road.host = "localhost";
  road.port = std::stoi(content(folder / (tls == settings::MailTls::implicit ? "tls-port" : "port")));
  road.tls = tls;
  road.user = "office@localhost";
  road.from = "office@crews.example";
  road.ca_file = folder / "ca.pem";
  road.timeout = std::chrono::seconds{20};
  return road;
}

Outcome sent(const settings::SmtpRoad& road, const std::string& name, const std::string& key, const std::string& password = "right") {
  const Outgoing mail{key, name + "@crews.example", "Crew B", "1) Oak Court: GO", {{"sheet.html", "text/html", "<p>Oak</p>"}}};
  return SmtpSender{road, password, [] { return *units::parse_instant("2026-07-06T22:05:09Z"); }}.send(mail);
}

// The mails in somebody's box, once there are `count` or nothing more comes for ten seconds.
std::vector<std::string> box(const fs::path& folder, const std::string& name, std::size_t count) {
  std::vector<std::string> mails;
  for (int tenths = 0; tenths < 100 && mails.size() < count; ++tenths) {
    std::this_thread::sleep_for(std::chrono::milliseconds{100});
    mails.clear();
    std::error_code error;
    for (const auto& entry : fs::directory_iterator{folder / "mail" / name / "new", error}) mails.push_back(content(entry.path()));
  }
  return mails;
}

}  // namespace

TEST_SUITE("postfix") {
  TEST_CASE("a mail server takes a mail once, by both kinds of TLS") {
    const auto folder = server();
    if (!folder) return;
    CHECK(sent(road_to(*folder, settings::MailTls::starttls), "lead", "one").delivery == Delivery::delivered);
    CHECK(sent(road_to(*folder, settings::MailTls::implicit), "lead", "two").delivery == Delivery::delivered);
    const auto mails = box(*folder, "lead", 2);
    REQUIRE(mails.size() == 2);
    for (const std::string key : {"one", "two"})
      CHECK(std::ranges::count_if(
                mails, [&](const std::string& mail) { return mail.find("<" + stable_name(key) + "@crews.example>") != mail.npos; }) == 1);
  }

  TEST_CASE("a mail server's refusals are told apart") {
    const auto folder = server();
    if (!folder) return;
    const auto road = road_to(*folder, settings::MailTls::starttls);
    const Outcome wrong = sent(road, "lead", "k", "wrong");
    CHECK(wrong.delivery == Delivery::refused);
    CHECK(wrong.configuration);
    CHECK(sent(road, "nobody", "k").delivery == Delivery::refused);
    CHECK_FALSE(sent(road, "nobody", "k").configuration);
    CHECK(sent(road, "later", "k").delivery == Delivery::later);
    auto strange = road;
    strange.ca_file.reset();
    CHECK(sent(strange, "lead", "k").configuration);
  }

  TEST_CASE("a hundred crews' mails all arrive, each once") {
    const auto folder = server();
    if (!folder) return;
    const auto road = road_to(*folder, settings::MailTls::starttls);
    const auto begin = std::chrono::steady_clock::now();
    for (int i = 0; i < 100; ++i) CHECK(sent(road, "crew", "key " + std::to_string(i)).delivery == Delivery::delivered);
    const auto took = std::chrono::steady_clock::now() - begin;
    MESSAGE("100 mails took " << std::chrono::duration<double>(took).count() << " s");
    CHECK(box(*folder, "crew", 100).size() == 100);
  }
}
