#include "net/curl_transport.h"

#include <doctest/doctest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <cstdlib>

#include "net/scratch.h"
#include "support/weather_server.h"

using namespace std::chrono_literals;
using net::CurlTransport;
using net::Trouble;

namespace {

net::CurlSettings settings() {
  net::CurlSettings s;
  s.user_agent = "sapdraw/test (office@trees.example)";
  s.connect_within = 500ms;
  s.whole_within = 1500ms;
  s.largest_body = 1u << 20;
  return s;
}

net::Request request(const std::string& url) {
  net::Request r;
  r.service = "nws";
  r.url = url;
  r.headers = {{"Accept", "application/geo+json"}};
  return r;
}

// One server for all, with a place of its own.
struct Served {
  ScratchFolder scratch;
  WeatherServer server{scratch.path()};
};
Served& served() {
  static Served one;
  return one;
}

net::Answer get(const std::string& routes, const std::string& path = "/x") {
  served().server.routes(routes);
  return CurlTransport{settings()}.get(request(served().server.address() + path));
}

Trouble trouble(const net::Answer& answer) {
  REQUIRE_FALSE(answer.has_value());
  return answer.error().trouble;
}

}  // namespace

TEST_SUITE("net") {
  TEST_CASE("a reply comes whole, unzipped, with its headers, and the service hears who asks") {
    const std::string body(5000, 'y');
    const auto answer =
        get(R"([{"path":"/x","body":")" + body + R"(","type":"Application/GEO+json; charset=utf-8","headers":{"X-Own":"  A b "}}])");
    REQUIRE(answer.has_value());
    CHECK(answer->status == 200);
    CHECK(answer->body == body);
    CHECK(answer->content_type == "application/geo+json");
    CHECK(answer->header("x-own") == "A b");
    CHECK(answer->header("content-encoding") == "gzip");
    const Asked last = served().server.asked().back();
    CHECK(last.text.find("sapdraw/test (office@trees.example)") != std::string::npos);
    CHECK(last.text.find("application/geo+json") != std::string::npos);
  }

  TEST_CASE("without a contact nobody is called") {
    net::CurlSettings anonymous = settings();
    anonymous.user_agent.clear();
    const std::size_t before = served().server.calls();
    const auto answer = CurlTransport{anonymous}.get(request(served().server.address() + "/x"));
    CHECK(trouble(answer) == Trouble::no_contact);
    CHECK(answer.error().line ==
          "nws: 127.0.0.1: not asked: expected `contact` in config.toml, an address at which the service can reach you");
    CHECK(served().server.calls() == before);
    CHECK(trouble(CurlTransport{settings()}.get(request("http://api.example/"))) == Trouble::address);
  }

  TEST_CASE("a redirect is followed three times, relative ones too, and never to where it may not go") {
    CHECK(get(R"([{"path":"/x$","status":301,"headers":{"Location":"/y"}},{"path":"/y","body":"there"}])")->body == "there");
    CHECK(get(R"([{"path":"/x","fault":"mirror"}])").error().line == "nws: 127.0.0.1: redirects without end");
    CHECK(get(R"([{"path":"/x","status":302,"headers":{"Location":"http://weather.example/"}}])").error().line ==
          "nws: 127.0.0.1: redirects to weather.example: not allowed");
    CHECK(trouble(get(R"([{"path":"/x","status":302,"headers":{"Location":"file:///etc/passwd"}}])")) == Trouble::redirect);
    CHECK(get(R"([{"path":"/x","status":304}])")->status == 304);
  }

  TEST_CASE("while a key is sent no redirect is followed, and the key goes nowhere else") {
    served().server.routes(R"([{"path":"/x$","status":302,"headers":{"Location":"/y"}},{"path":"/y","body":"there"}])");
    net::Request keyed = request(served().server.address() + "/x");
    keyed.key = net::KeyHeader{"X-Api-Key", net::Secret{"very-secret"}};
    const std::size_t before = served().server.calls();
    const auto answer = CurlTransport{settings()}.get(keyed);
    CHECK(trouble(answer) == Trouble::redirect);
    CHECK(answer.error().line == "nws: 127.0.0.1: redirects while a key is sent: not followed");
    CHECK(served().server.calls() == before + 1);
    CHECK(served().server.asked().back().text.find("very-secret") != std::string::npos);
    served().server.routes(R"([{"path":"/x","body":"fine"}])");
    CHECK(CurlTransport{settings()}.get(keyed)->body == "fine");
  }

  TEST_CASE("a key that the service repeats comes back struck out") {
    served().server.routes(
        R"([{"path":"/x","status":401,"body":"{\"reason\":\"key very-secret is unknown, very-secret\"}","headers":{"X-Echo":"very-secret"}}])");
    net::Request keyed = request(served().server.address() + "/x");
    keyed.key = net::KeyHeader{"X-Api-Key", net::Secret{"very-secret"}};
    const auto answer = CurlTransport{settings()}.get(keyed);
    REQUIRE(answer.has_value());
    CHECK(answer->body == R"({"reason":"key *** is unknown, ***"})");
    CHECK(answer->header("x-echo") == "***");
  }

  TEST_CASE("all the hops of a call share its time") {
    const ScratchFolder scratch;
    WeatherServer::Options slow;
    slow.latency_ms = 600;
    const WeatherServer server{scratch.path(), slow};
    server.routes(R"([{"path":"/x","fault":"mirror"}])");
    const auto begun = std::chrono::steady_clock::now();
    const auto answer = CurlTransport{settings()}.get(request(server.address() + "/x"));
    CHECK(trouble(answer) == Trouble::time_out);
    CHECK(std::chrono::steady_clock::now() - begun < 2000ms);
  }

  TEST_CASE("plain http to this machine never leaves it by a proxy") {
    // Port 9 (discard, RFC 863) answers nobody here: whoever asks a proxy there fails.
    REQUIRE(::setenv("http_proxy", "http://127.0.0.1:9", 1) == 0);
    const auto answer = get(R"([{"path":"/x","body":"near"}])");
    ::unsetenv("http_proxy");
    REQUIRE(answer.has_value());
    CHECK(answer->body == "near");
  }

  TEST_CASE("what breaks off, hangs, drips or never ends is given up in bounded time and memory") {
    const auto line = [](const char* fault) {
      return get(R"([{"path":"/x","body":"0123456789012345678901234567890123456789","fault":")" + std::string{fault} + R"("}])");
    };
    CHECK(line("reset").error().line == "nws: 127.0.0.1: the reply broke off");
    CHECK(trouble(line("short")) == Trouble::broken_off);
    CHECK(trouble(line("empty")) == Trouble::broken_off);
    CHECK(line("hang").error().line == "nws: 127.0.0.1: no answer in time");
    CHECK(trouble(line("drip")) == Trouble::time_out);
    CHECK(line("endless").error().line == "nws: 127.0.0.1: a reply of over 1 MiB");
    CHECK(trouble(line("bomb")) == Trouble::too_large);
    for (const char* retried : {"reset", "short", "hang"}) CHECK(line(retried).error().retry);
    CHECK_FALSE(line("bomb").error().retry);
  }

  TEST_CASE("nobody there, nobody accepting, no such name") {
    // A port that was free a moment ago, and one whose queue is full.
    const int waiting = ::socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in place{};
    place.sin_family = AF_INET;
    place.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    REQUIRE(::bind(waiting, reinterpret_cast<sockaddr*>(&place), sizeof place) == 0);
    socklen_t length = sizeof place;
    REQUIRE(::getsockname(waiting, reinterpret_cast<sockaddr*>(&place), &length) == 0);
    const std::string address = "http://127.0.0.1:" + std::to_string(ntohs(place.sin_port)) + "/";
    CHECK(CurlTransport{settings()}.get(request(address)).error().line == "nws: 127.0.0.1: no connection");
    REQUIRE(::listen(waiting, 0) == 0);
    const int filler = ::socket(AF_INET, SOCK_STREAM, 0);
    REQUIRE(::connect(filler, reinterpret_cast<sockaddr*>(&place), sizeof place) == 0);
    CHECK(CurlTransport{settings()}.get(request(address)).error().line == "nws: 127.0.0.1: no answer in time");
    ::close(filler);
    ::close(waiting);
    // RFC 6761 keeps .invalid from ever being given to anybody.
    const auto unknown = CurlTransport{settings()}.get(request("https://weather.invalid/"));
    CHECK((trouble(unknown) == Trouble::unresolved || trouble(unknown) == Trouble::time_out));
    CHECK(unknown.error().retry);
  }

  TEST_CASE("a certificate that nobody vouches for is refused, and one by the owner's own authority is not") {
    const ScratchFolder scratch;
    WeatherServer::Options options;
    options.tls = true;
    const WeatherServer server{scratch.path(), options};
    server.routes(R"([{"path":"/x","body":"sealed"}])");
    const auto refused = CurlTransport{settings()}.get(request(server.address() + "/x"));
    CHECK(trouble(refused) == Trouble::tls);
    CHECK(refused.error().line.starts_with("nws: localhost: its certificate cannot be trusted"));
    CHECK_FALSE(refused.error().retry);
    CHECK(server.calls() == 0);
    net::CurlSettings own = settings();
    own.ca_file = server.certificate();
    CHECK(CurlTransport{own}.get(request(server.address() + "/x"))->body == "sealed");
    own.ca_file = scratch.path() / "no-such.pem";
    CHECK(trouble(CurlTransport{own}.get(request(server.address() + "/x"))) == Trouble::tls);
  }
}
