#include <doctest/doctest.h>

#include "net/reason.h"
#include "net/verdict_on_reply.h"

using namespace std::chrono_literals;
using net::Reply;
using net::Trouble;

namespace {

const units::UtcTime now = std::chrono::sys_days{std::chrono::year{2026} / 7 / 6} + 10h + 30min + 20s;

net::Want want() {
  net::Want want;
  want.request.service = "nws";
  want.request.url = "https://api.example/points/1,2?key=hidden";
  want.kinds = {"application/json"};
  return want;
}

net::Failure failure(const Reply& reply) {
  const auto failed = net::failure_of(want(), reply, now);
  REQUIRE(failed.has_value());
  return *failed;
}

Reply reply(int status, std::string body = "{}", std::vector<net::Header> headers = {}, std::string kind = "application/json") {
  return {status, std::move(kind), std::move(body), std::move(headers)};
}

}  // namespace

TEST_SUITE("net") {
  TEST_CASE("data of the wanted kind, nothing new and settled questions are good replies") {
    CHECK_FALSE(net::failure_of(want(), reply(200), now));
    CHECK_FALSE(net::failure_of(want(), reply(203), now));
    CHECK_FALSE(net::failure_of(want(), reply(304, ""), now));
    net::Want place = want();
    place.settled = {404};
    CHECK_FALSE(net::failure_of(place, reply(404), now));
    CHECK(net::failure_of(place, reply(404, "<html>", {}, "text/html"), now).has_value());
  }

  TEST_CASE("what is no use is said in one line, and asked again only where that may help") {
    CHECK(failure(reply(200, "<html>", {}, "text/html")).line == "nws: api.example: sends 'text/html' where data were asked for");
    CHECK(failure(reply(200, "<html>", {}, "text/html")).retry);
    CHECK(failure(reply(200, "")).line == "nws: api.example: sends an empty reply");
    net::Want checked = want();
    checked.check = [](std::string_view) -> units::Result<void> { return units::fault("NWS: line 3", "", "expected JSON"); };
    const auto unreadable = net::failure_of(checked, reply(200, "{"), now);
    CHECK(unreadable->line == "nws: api.example: sends what cannot be read: NWS: line 3: expected JSON");
    CHECK(unreadable->trouble == Trouble::unreadable);
    for (const int status : {400, 401, 403, 404, 422}) CHECK_FALSE(failure(reply(status)).retry);
    for (const int status : {429, 500, 502, 503, 504}) CHECK(failure(reply(status)).retry);
    CHECK(failure(reply(400, R"({"error":true,"reason":"no such variable"})")).line ==
          "nws: api.example: says that we ask wrongly (400): 'no such variable'");
    CHECK(failure(reply(403, "<html>", {}, "text/html")).line ==
          "nws: api.example: does not let us in: is `contact` in config.toml right? (403)");
    CHECK(failure(reply(500, R"({"title":"Unexpected Problem","detail":"An unexpected problem has occurred.","correlationId":"1a2b"})"))
              .line == "nws: api.example: has trouble of its own (500): 'An unexpected problem has occurred.' [1a2b]");
  }

  TEST_CASE("Retry-After in seconds or as a date has the last word, up to a day") {
    CHECK(failure(reply(429, "{}", {{"retry-after", "20"}})).wait == 20s);
    CHECK(failure(reply(503, "{}", {{"retry-after", "Mon, 06 Jul 2026 10:31:20 GMT"}})).wait == 60s);
    CHECK(failure(reply(429, "{}", {{"retry-after", "99999999"}})).wait == 24h);
    CHECK(failure(reply(429, "{}", {{"retry-after", "-5"}})).wait == 0s);
    CHECK(failure(reply(429, "{}", {{"retry-after", "Mon, 06 Jul 2020 10:31:20 GMT"}})).wait == 0s);
    CHECK_FALSE(failure(reply(429, "{}", {{"retry-after", "soon"}})).wait.has_value());
    CHECK_FALSE(failure(reply(429)).wait.has_value());
  }

  TEST_CASE("Open-Meteo's reason tells until when, and an expired grid is left alone") {
    // Reasons as in github.com/open-meteo/open-meteo's limiter.
    const auto wait = [](const std::string& text) { return failure(reply(429, R"({"error":true,"reason":")" + text + R"("})")).wait; };
    CHECK(wait("Minutely API request limit exceeded. Please try again in one minute.") == 40s);
    CHECK(wait("Hourly API request limit exceeded. Please try again in the next hour.") == 29min + 40s);
    CHECK(wait("Daily API request limit exceeded. Please try again tomorrow.") == 13h + 29min + 40s);
    CHECK_FALSE(wait("Too many concurrent requests").has_value());
    // Written by hand after weather-gov/api's issues: no recording is at hand.
    CHECK(failure(reply(503, R"({"type":"https://api.weather.gov/problems/ForecastGridExpired","title":"Forecast Grid Expired"})")).wait ==
          15min);
  }

  TEST_CASE("a service's words come into a message harmless and short, and a page's not at all") {
    CHECK(net::reason_of("<html><title>x</title>").text.empty());
    CHECK(net::reason_of("[1]").text.empty());
    CHECK(net::reason_of(R"({"reason":7})").text.empty());
    CHECK(net::reason_of(R"({"reason":"a\u001b[31mb"})").text == "a?[31mb");
    CHECK(net::reason_of(R"({"reason":")" + std::string(5000, 'x') + R"("})").text.size() < 200);
    CHECK(net::reason_of(std::string(100'000, '[')).text.empty());
  }

  TEST_CASE("a reply is fresh for as long as its service says, never for less than ours nor more than a day") {
    const auto fresh = [](std::vector<net::Header> headers) {
      net::Want w = want();
      w.fresh_for = 10min;
      return net::fresh_until(w, reply(200, "{}", std::move(headers)), now) - now;
    };
    CHECK(fresh({}) == 10min);
    CHECK(fresh({{"cache-control", "public, max-age=749, s-maxage=3600"}}) == 749s);
    CHECK(fresh({{"cache-control", "no-store"}}) == 10min);
    CHECK(fresh({{"cache-control", "max-age=99999999"}}) == 24h);
    CHECK(fresh({{"expires", "Mon, 06 Jul 2026 11:00:20 GMT"}}) == 30min);
    // By the service's own clock, which is an hour behind ours.
    CHECK(fresh({{"expires", "Mon, 06 Jul 2026 10:00:20 GMT"}, {"date", "Mon, 06 Jul 2026 09:30:20 GMT"}}) == 30min);
    CHECK(fresh({{"expires", "0"}}) == 10min);
  }
}
