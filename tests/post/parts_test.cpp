#include <doctest/doctest.h>
#include <unistd.h>

#include <fstream>
#include <sstream>

#include "post/digest.h"
#include "post/fill_in.h"
#include "post/local_senders.h"
#include "post/senders.h"
#include "text/orders.h"

#include <nlohmann/json.hpp>

using namespace post;

namespace {

std::optional<std::string> no_variable(const std::string&) { return std::nullopt; }
units::UtcTime any_time() { return {}; }

}  // namespace

TEST_SUITE("post") {
  TEST_CASE("digests are those of FIPS 180-4, RFC 4231 and RFC 4648") {
    CHECK(hex(sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(hex(hmac_sha256("Jefe", "what do ya want for nothing?")) == "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843");
    CHECK(hex(hmac_sha256(std::string(131, '\xaa'), "Test Using Larger Than Block-Size Key - Hash Key First")) ==
          "60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54");
    const std::vector<std::pair<std::string, std::string>> rows{
        {"", ""}, {"f", "Zg=="}, {"fo", "Zm8="}, {"foo", "Zm9v"}, {"foob", "Zm9vYg=="}, {"fooba", "Zm9vYmE="}, {"foobar", "Zm9vYmFy"}};
    for (const auto& [text, coded] : rows) CHECK(base64(text) == coded);
    CHECK(base64("foobar", 4) == "Zm9v\r\nYmFy\r\n");
  }

  TEST_CASE("nothing that stands in a message gets out of its place in form, JSON or address") {
    settings::HttpRoad road;
    road.address = "https://gateway.example/{to}?t={text}";
    road.form = {{"To", "{to}"}, {"Body", "x{text}y"}};
    settings::HttpRoad json = road;
    json.body = settings::BodyKind::json;
    json.json = R"({"to": "{to}", "text": "{text}"})";
    for (std::uint64_t number = 0; number < 1000; ++number) {
      const Outgoing message{"k", orders::nasty_text(2 * number), "", orders::nasty_text(2 * number + 1)};
      const auto form = fill_in(road, "s3cret", message);
      REQUIRE(form.has_value());
      CHECK(std::count(form->body.begin(), form->body.end(), '&') == 1);
      CHECK(std::count(form->address.begin(), form->address.end(), '/') == 3);
      CHECK(form->address.find_first_of("\r\n {}") == std::string::npos);
      const auto filled = fill_in(json, "s3cret", message);
      REQUIRE(filled.has_value());
      const auto parsed = nlohmann::json::parse(filled->body);
      CHECK(parsed.size() == 2);
      if (message.text.find('\xff') == std::string::npos) CHECK(parsed["text"] == message.text);
    }
  }

  TEST_CASE("a header takes visible characters alone") {
    settings::HttpRoad road;
    road.address = "https://gateway.example/";
    road.headers = {{"X-Subject", "{subject}"}};
    CHECK(fill_in(road, "", {"k", "1", "plain", ""}).has_value());
    const auto refused = fill_in(road, "", {"k", "1", "two\r\nlines", ""});
    CHECK(refused.error().line() == "post.http.headers.X-Subject: expected what can stand in a header: visible ASCII");
  }

  TEST_CASE("an answer's word is found by its pointer") {
    CHECK(answer_says(R"({"a":[{"b":"yes"}]})", "/a/0/b", "yes") == true);
    CHECK(answer_says(R"({"a":true})", "/a", "true") == true);
    CHECK(answer_says(R"({"a":1})", "/b", "1") == false);
    CHECK(answer_says(R"({"a":1})", "/a/~", "1") == false);
    CHECK_FALSE(answer_says("<html>", "/a", "1").has_value());
  }

  TEST_CASE("a message in the spool is one whole file, and the same one when it is sent again") {
    const std::filesystem::path folder = std::filesystem::temp_directory_path() / ("sapdraw-spool-" + std::to_string(::getpid()));
    SpoolSender spool{folder};
    for (int i = 0; i < 2; ++i) CHECK(spool.send({"key/../one", "+15550100", "", "GO ñ"}).delivery == Delivery::delivered);
    CHECK(spool.send({"key two", "+15550100", "", "GO"}).delivery == Delivery::delivered);
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator{folder}) files += entry.is_regular_file() ? 1 : 0;
    CHECK(files == 2);
    std::ostringstream text;
    text << std::ifstream{folder / ("sapdraw-" + stable_name("key/../one"))}.rdbuf();
    CHECK(text.str() == "To: +15550100\nAlphabet: UTF-8\n\nGO ñ\n");
    // A daemon that has taken the file away is not given it again; one made ready and never put in place is.
    std::filesystem::remove(folder / ("sapdraw-" + stable_name("key two")));
    CHECK(spool.send({"key two", "+15550100", "", "GO"}).delivery == Delivery::delivered);
    CHECK_FALSE(std::filesystem::exists(folder / ("sapdraw-" + stable_name("key two"))));
    for (const char* end : {"", ".ready"}) std::ofstream{folder / ".sapdraw" / ("sapdraw-" + stable_name("four") + end)} << "half";
    CHECK(spool.send({"four", "+15550100", "", "GO"}).delivery == Delivery::delivered);
    CHECK(std::filesystem::file_size(folder / ("sapdraw-" + stable_name("four"))) > 30);
    CHECK(spool.tells_repeats_apart());
    CHECK(spool.send({"three", "+1\nFlash: yes", "", "GO"}).delivery == Delivery::refused);
    std::filesystem::remove_all(folder);
    SpoolSender nowhere{"/proc/nowhere"};
    CHECK(nowhere.send({"k", "1", "", "GO"}).delivery == Delivery::later);
  }

  TEST_CASE("standard output takes a message, and says so if it does not") {
    std::ostringstream out;
    CHECK(StreamSender{out}.send({"k", "+1555", "", "GO"}).delivery == Delivery::delivered);
    CHECK(out.str() == "To +1555\nGO\n\n");
    out.setstate(std::ios::badbit);
    CHECK(StreamSender{out}.send({"k", "+1555", "", "GO"}).delivery == Delivery::later);
  }

  TEST_CASE("no sender is made until sending is on, nor without its secret") {
    settings::Post post;
    std::ostringstream out;
    const auto made = [&] { return senders_of(post, no_variable, any_time, out); };
    CHECK(made().error().line() == "post.sending: expected \"on\": nothing is sent until the owner says so");
    post.sending = true;
    REQUIRE(made().has_value());
    CHECK(made()->texts == nullptr);
    CHECK(made()->mails == nullptr);
    post.texts = settings::TextRoad::standard_output;
    CHECK(made()->texts != nullptr);
    post.texts = settings::TextRoad::http;
    post.http.emplace().address = "https://gateway.example/";
    CHECK(made()->texts != nullptr);
    post.http->body = settings::BodyKind::json;
    post.http->json = "{broken";
    CHECK(made().error().where == "post.http.json");
    post.http->secret.variable = "NOT_SET";
    CHECK(made().error().where == "post.http.secret");
  }
}
