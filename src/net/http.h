// One call over HTTP: what is asked, what comes back, and what can go wrong. Nothing here knows how it is carried.
#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace net {

struct Header {
  std::string name, value;
};

// A key. Whatever prints one prints stars; only the transport reveals it.
class Secret {
 public:
  explicit Secret(std::string text) : text_(std::move(text)) {}
  [[nodiscard]] static std::string printed() { return "***"; }
  [[nodiscard]] const std::string& reveal() const { return text_; }

 private:
  std::string text_;
};

struct KeyHeader {
  std::string name;  // "X-Api-Key"
  Secret secret;
};

struct Request {
  std::string service;  // whose rate and budget it counts against
  std::string url;      // holds no key
  std::vector<Header> headers = {};
  std::optional<KeyHeader> key = {};  // with one, no redirect is followed: custom headers would travel along to any host
  double weight = 1.0;                // what the service counts it for
};

struct Reply {
  int status = 0;
  std::string content_type;          // without parameters, lower case
  std::string body;                  // decoded
  std::vector<Header> headers = {};  // of the last hop; names in lower case, values byte for byte

  [[nodiscard]] std::optional<std::string_view> header(std::string_view name) const {
    for (const Header& header : headers)
      if (header.name == name) return header.value;
    return std::nullopt;
  }
};

enum class Trouble {
  no_contact,  // the owner has not said who asks
  address,     // not https, and not http on this machine
  unresolved,
  connect,
  tls,
  time_out,
  broken_off,  // closed, reset or shorter than announced
  too_large,
  redirect,    // too many, to an address not allowed, or while a key is sent
  status,      // the service says no
  wrong_kind,  // a page where data were asked for
  unreadable,  // data that cannot be read
  budget,      // the service's limit would be passed
  local,       // this machine: disk, memory
};

struct Failure {
  Trouble trouble;
  int status = 0;      // of HTTP where there was one
  std::string line;    // for a person: the service, the host, what happened. Never a key, never an address's query.
  bool retry = false;  // worth another try
  std::optional<std::chrono::seconds> wait = {};  // the service's own word on when
  bool binding = false;                           // that word is for every call, not for this address alone
};

using Answer = tl::expected<Reply, Failure>;

// Carries one call. Any status is a Reply; a Failure is what kept a whole reply from arriving. Safe to use from several threads.
class Transport {
 public:
  virtual ~Transport() = default;
  // Why this request will not even be tried; empty where it will. Nothing is counted for such a one.
  [[nodiscard]] virtual std::optional<Failure> refusal(const Request&) const { return std::nullopt; }
  // Where the service repeats the request's key, stars stand in the reply.
  [[nodiscard]] virtual Answer get(const Request& request) = 0;
};

}  // namespace net
