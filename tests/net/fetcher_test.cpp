#include "net/fetcher.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <mutex>
#include <sstream>
#include <thread>

#include "net/curl_transport.h"
#include "net/scratch.h"
#include "support/weather_server.h"

using namespace std::chrono_literals;
using net::Came;
using net::Got;
using net::Trouble;
using net::Want;

namespace {

using Instant = std::chrono::sys_time<std::chrono::milliseconds>;

// Time that passes only by sleeping, and luck that is always the same.
struct HandTime {
  std::mutex mutex;
  Instant now = std::chrono::sys_days{std::chrono::year{2026} / 7 / 6} + 5h + 30min;
  std::vector<std::chrono::milliseconds> slept;

  net::Machine machine() {
    return {[this] {
              const std::lock_guard lock{mutex};
              return now;
            },
            [this](std::chrono::milliseconds pause) {
              const std::lock_guard lock{mutex};
              now += pause;
              if (pause > 150ms) slept.push_back(pause);
            },
            [] { return 0.5; }};
  }
};

// An office with a server for the services.
struct Office {
  ScratchFolder scratch;
  WeatherServer server{scratch.path() / "server"};
  HandTime time;
  std::vector<std::string> logged;
  std::map<std::string, net::Rates> rates{{"nws", {.per_second = 20, .at_once = 2}}};

  std::vector<Got> get_all(const std::vector<Want>& wants) {
    net::CurlSettings settings;
    settings.user_agent = "sapdraw/test (office@trees.example)";
    settings.whole_within = 1500ms;
    net::CurlTransport transport{settings};
    net::Cache cache{scratch.path() / "cache", 64u << 20};
    net::Budgets budgets{scratch.path() / "budget"};
    net::Fetcher fetcher{transport, cache, budgets, time.machine(), rates};
    fetcher.on_log([this](const std::string& line) { logged.push_back(line); });
    return fetcher.get_all(wants);
  }
  Got get(const Want& want) { return get_all({want}).front(); }

  [[nodiscard]] Want want(const std::string& path = "/x") const {
    Want want;
    want.request.service = "nws";
    want.request.url = server.address() + path;
    want.kinds = {"application/json"};
    want.fresh_for = 1h;
    want.check = [](std::string_view body) -> units::Result<void> {
      if (body.starts_with("{") && body.ends_with("}")) return {};
      return units::fault("reply", "", "expected JSON");
    };
    return want;
  }
  void later(std::chrono::milliseconds span) { time.now += span; }
};

const std::string good = R"({"path":"/x","body":"{\"n\":1}"})";

}  // namespace

TEST_SUITE("net") {
  TEST_CASE("a fresh reply is not asked for again, an old one is, and the service may say that nothing changed") {
    Office office;
    office.server.routes(
        R"([{"path":"/x","body":"{}","modified":"Mon, 06 Jul 2026 05:00:00 GMT","headers":{"Cache-Control":"max-age=60"}}])");
    const Got first = office.get(office.want());
    CHECK(first.came == Came::fetched);
    CHECK(first.calls == 1);
    office.later(59min);
    CHECK(office.get(office.want()).came == Came::kept);
    CHECK(office.server.calls() == 1);
    office.later(2min);
    const Got again = office.get(office.want());
    CHECK(again.came == Came::unchanged);
    CHECK(again.body == "{}");
    CHECK(again.fetched_at > first.fetched_at);
    // The service's own bytes, to the letter.
    CHECK(office.server.asked().back().text.find("\"If-Modified-Since\": \"Mon, 06 Jul 2026 05:00:00 GMT\"") != std::string::npos);
    CHECK(office.get(office.want()).came == Came::kept);
    Want renewed = office.want();
    renewed.renew = true;
    CHECK(office.get(renewed).came == Came::unchanged);
  }

  TEST_CASE("whatever the service does the good reply serves on, said in one line") {
    struct Bad {
      const char* route;
      const char* says;
      std::size_t calls;
    };
    const Bad all[] = {
        {R"({"path":"/x","status":400,"body":"{\"error\":true,\"reason\":\"bad variable\"}"})",
         "asks wrongly|we ask wrongly (400): 'bad variable'", 1},
        {R"({"path":"/x","status":401,"body":"{}"})", "wants a key, or another one (401)", 1},
        {R"({"path":"/x","status":403,"body":"<html>no</html>","type":"text/html"})", "does not let us in", 1},
        {R"({"path":"/x","status":404,"body":"{\"title\":\"Not Found\",\"detail\":\"Data Unavailable For Requested Point\"}"})",
         "knows no such place (404): 'Data Unavailable For Requested Point'", 1},
        {R"({"path":"/x","status":500,"body":"{}"})", "has trouble of its own (500)", 5},
        {R"({"path":"/x","status":502,"body":"<html>nginx</html>","type":"text/html"})", "has trouble of its own (502)", 5},
        {R"({"path":"/x","status":503,"body":"{\"type\":\"https://api.weather.gov/problems/ForecastGridExpired\",\"title\":\"Forecast Grid Expired\"}"})",
         "(503): 'Forecast Grid Expired'", 1},
        {R"({"path":"/x","body":"{\"n\":[1,2,"})", "sends what cannot be read: reply: expected JSON", 5},
        {R"({"path":"/x","body":"{}\nUnexpected error while streaming data: x"})", "sends what cannot be read", 5},
        {R"({"path":"/x","body":"<html>log in</html>","type":"text/html"})", "sends 'text/html' where data were asked for", 5},
        {R"({"path":"/x","body":""})", "sends an empty reply", 5},
        {R"({"path":"/x","body":"0123456789012345678901234567890123456789","fault":"reset"})", "the reply broke off", 5},
        {R"({"path":"/x","body":"{}","fault":"short"})", "the reply broke off", 5},
        {R"({"path":"/x","fault":"endless"})", "a reply of over 16 MiB", 1},
        {R"({"path":"/x","fault":"mirror"})", "redirects without end", 1},
    };
    for (const Bad& bad : all) {
      CAPTURE(bad.route);
      Office office;
      // Without anything in the cache the failure is all there is.
      office.server.routes("[" + std::string{bad.route} + "]");
      const Got nothing = office.get(office.want());
      CHECK(nothing.came == Came::failed);
      CHECK(nothing.body.empty());
      REQUIRE(nothing.failure.has_value());
      CHECK(static_cast<std::size_t>(nothing.calls) == bad.calls);
      const std::string says{bad.says};
      CHECK(nothing.failure->line.find(says.substr(says.find('|') + 1)) != std::string::npos);
      CHECK(nothing.failure->line.find('\n') == std::string::npos);
      // With a good reply in it, that one serves, and still does when the service is well again.
      office.server.routes("[" + good + "]");
      REQUIRE(office.get(office.want()).came == Came::fetched);
      office.server.routes("[" + std::string{bad.route} + "]");
      office.later(3h);
      const Got stale = office.get(office.want());
      CHECK(stale.came == Came::stale);
      CHECK(stale.body == "{\"n\":1}");
      CHECK(stale.failure.has_value());
      office.server.routes("[" + good + "]");
      CHECK(office.get(office.want()).came == Came::fetched);
    }
  }

  TEST_CASE("pauses double under full jitter, and a service that comes back in time is none the worse") {
    Office office;
    office.server.routes(R"([{"path":"/x","status":500,"body":"{}","times":3},)" + good + "]");
    const Got got = office.get(office.want());
    CHECK(got.came == Came::fetched);
    CHECK(got.calls == 4);
    CHECK(office.time.slept == std::vector<std::chrono::milliseconds>{1000ms, 2000ms, 4000ms});
  }

  TEST_CASE("429 is waited out by the service's own word, and if that is too long nobody of the office asks meanwhile") {
    Office office;
    office.server.routes(R"([{"path":"/x","status":429,"body":"{}","headers":{"Retry-After":"20"},"times":1},)" + good + "]");
    CHECK(office.get(office.want()).came == Came::fetched);
    CHECK(office.time.slept == std::vector<std::chrono::milliseconds>{20'000ms});

    Office busy;
    busy.server.routes(R"([{"path":"/x","status":429,"body":"{}","headers":{"Retry-After":"Mon, 06 Jul 2026 05:40:00 GMT"}}])");
    CHECK(busy.get(busy.want()).calls == 1);
    const Got other = busy.get(busy.want("/other"));
    CHECK(other.calls == 0);
    CHECK(other.failure->trouble == Trouble::budget);
    CHECK(other.failure->line == "nws: not asked until 2026-07-06T05:40Z: its limit is reached, or it told us to wait");
    CHECK(busy.server.calls() == 1);
    busy.later(10min);
    CHECK(busy.get(busy.want()).calls > 0);
  }

  TEST_CASE("with the line down the first addresses have the patience, the rest one try, then none") {
    Office office;
    office.rates["nws"].at_once = 1;
    office.server.routes(R"([{"path":"/","status":503,"body":"{}"}])");
    std::vector<Want> wants;
    for (int n = 0; n < 20; ++n) wants.push_back(office.want("/" + std::to_string(n)));
    const auto all = office.get_all(wants);
    CHECK(office.server.calls() == 3 * 5 + 3);
    CHECK(all[19].calls == 0);
    CHECK(all[19].failure->line == "nws: 127.0.0.1: not asked any more in this run");
    // A service that says no does answer.
    Office strict;
    strict.rates["nws"].at_once = 1;
    strict.server.routes(R"([{"path":"/","status":422,"body":"{}"}])");
    wants.clear();
    for (int n = 0; n < 10; ++n) wants.push_back(strict.want("/" + std::to_string(n)));
    static_cast<void>(strict.get_all(wants));
    CHECK(strict.server.calls() == 10);
    // One that refuses us is not asked again in the run.
    strict.server.routes(R"([{"path":"/","status":403,"body":"{}"}])");
    static_cast<void>(strict.get_all(wants));
    CHECK(strict.server.calls() == 11);
  }

  TEST_CASE("a settled question is kept like an answer") {
    Office office;
    Want place = office.want("/points/1,2");
    place.settled = {404};
    CHECK(office.get(place).status == 404);
    CHECK(office.get(place).came == Came::kept);
    CHECK(office.server.calls() == 1);
  }

  TEST_CASE("a clock that was ahead when a reply came does not make it fresh for ever") {
    Office office;
    office.server.routes("[" + good + "]");
    office.later(24h * 365);
    CHECK(office.get(office.want()).came == Came::fetched);
    office.later(-24h * 365);
    CHECK(office.get(office.want()).came == Came::fetched);
    CHECK(office.get(office.want()).came == Came::kept);
  }

  TEST_CASE("an entry cut in half is asked for anew, without conditions") {
    Office office;
    office.server.routes(R"([{"path":"/x","body":"{}","etag":"\"1\""}])");
    CHECK(office.get(office.want()).came == Came::fetched);
    for (const auto& file : std::filesystem::directory_iterator{office.scratch.path() / "cache"})
      if (file.path().extension() == ".reply") std::filesystem::resize_file(file.path(), file.file_size() / 2);
    CHECK(office.get(office.want()).came == Came::fetched);
    CHECK(office.server.asked().back().text.find("If-None-Match") == std::string::npos);
  }

  TEST_CASE("the budget binds: a minute that is full is waited for, a day that is full is said, and the cache serves on") {
    Office office;
    office.rates["nws"] = {.per_second = 100, .at_once = 1, .per_minute = 2.0, .per_hour = {}, .per_day = 3.0};
    office.server.routes(R"([{"path":"/","body":"{}"}])");
    std::vector<Want> wants;
    for (int n = 0; n < 4; ++n) wants.push_back(office.want("/" + std::to_string(n)));
    const auto all = office.get_all(wants);
    CHECK(all[2].came == Came::fetched);
    CHECK(all[3].came == Came::failed);
    CHECK(all[3].failure->line == "nws: not asked until 2026-07-07T00:00Z: its limit is reached, or it told us to wait");
    CHECK(office.server.calls() == 3);
    CHECK(office.time.now - Instant{std::chrono::sys_days{std::chrono::year{2026} / 7 / 6} + 5h + 30min} >= 60s);
    office.later(2h);
    CHECK(office.get(wants[0]).came == Came::stale);
  }

  TEST_CASE("an address is asked once however often it is wanted, by two processes too") {
    Office office;
    office.server.routes("[" + good + "]");
    const auto all = office.get_all({office.want(), office.want(), office.want()});
    CHECK(office.server.calls() == 1);
    for (const Got& got : all) CHECK(got.body == "{\"n\":1}");
    CHECK(all[0].calls + all[1].calls + all[2].calls == 1);

    Office two;
    two.server.routes("[" + good + "]");
    std::thread other{[&] { static_cast<void>(two.get(two.want())); }};
    const Got got = two.get(two.want());
    other.join();
    CHECK(got.body == "{\"n\":1}");
    CHECK(two.server.calls() == 1);
  }

  TEST_CASE("services go side by side, each at its own pace, in the time that the rates leave") {
    ScratchFolder scratch;
    WeatherServer::Options slow;
    slow.latency_ms = 30;
    WeatherServer server{scratch.path() / "server", slow};
    server.routes(R"([{"path":"/","body":"{}"}])");
    net::CurlSettings settings;
    settings.user_agent = "sapdraw/test (office@trees.example)";
    net::CurlTransport transport{settings};
    net::Cache cache{scratch.path() / "cache", 64u << 20};
    net::Budgets budgets{scratch.path() / "budget"};
    const net::Machine real{[] { return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now()); },
                            [](std::chrono::milliseconds pause) { std::this_thread::sleep_for(pause); }, [] { return 0.5; }};
    net::Fetcher fetcher{
        transport, cache, budgets, real, {{"one", {.per_second = 10, .at_once = 2}}, {"two", {.per_second = 10, .at_once = 2}}}};
    std::vector<Want> wants;
    for (int n = 0; n < 20; ++n) {
      Want want;
      want.request.service = n % 2 == 0 ? "one" : "two";
      want.request.url = server.address() + "/" + std::to_string(n);
      wants.push_back(want);
    }
    std::size_t told = 0;
    const auto all = fetcher.get_all(wants, [&](const net::Progress& progress) { told = progress.done; });
    for (const Got& got : all) CHECK(got.came == Came::fetched);
    CHECK(told == 20);
    // Ten calls of each service, a tenth of a second apart by the server's own clock.
    std::map<bool, std::vector<double>> times;
    for (const Asked& asked : server.asked()) {
      const auto at = asked.text.find("\"time\": ");
      times[std::stoi(asked.path.substr(1)) % 2 == 0].push_back(std::stod(asked.text.substr(at + 8)));
    }
    for (auto& [service, seconds] : times) {
      std::sort(seconds.begin(), seconds.end());
      REQUIRE(seconds.size() == 10);
      CHECK(seconds.back() - seconds.front() > 0.85);
    }
    CHECK(fetcher.spent().size() == 2);
    CHECK(fetcher.spent().front().today == 10.0);
  }

  TEST_CASE("a key is nowhere but in its header: not in a line, not in the log, not on the disk") {
    Office office;
    Want keyed = office.want();
    keyed.request.key = net::KeyHeader{"X-Api-Key", net::Secret{"very-secret"}};
    for (const char* route :
         {R"({"path":"/x","status":500,"body":"{\"reason\":\"no\"}"})", R"({"path":"/x","status":302,"headers":{"Location":"/y"}})",
          R"({"path":"/x","fault":"empty"})", R"({"path":"/x","body":"{}"})"}) {
      office.server.routes("[" + std::string{route} + "]");
      const Got got = office.get(keyed);
      CHECK((!got.failure || got.failure->line.find("very-secret") == std::string::npos));
    }
    CHECK(office.server.asked().back().text.find("very-secret") != std::string::npos);
    CHECK_FALSE(office.logged.empty());
    for (const std::string& line : office.logged) CHECK(line.find("very-secret") == std::string::npos);
    for (const char* folder : {"cache", "budget"})
      for (const auto& file : std::filesystem::recursive_directory_iterator{office.scratch.path() / folder}) {
        std::ostringstream text;
        text << std::ifstream{file.path(), std::ios::binary}.rdbuf();
        CHECK(text.str().find("very-secret") == std::string::npos);
      }
    CHECK(net::Secret::printed() == "***");
  }
}
