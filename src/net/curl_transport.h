// HTTP by libcurl: verified TLS, bounded in time, size and redirects. The only user of curl.
#pragma once
#include <chrono>
#include <filesystem>
#include <memory>
#include <optional>

#include "net/http.h"

namespace net {

struct CurlSettings {
  std::string user_agent;                                                 // complete, with a contact; empty: every call is refused
  std::optional<std::filesystem::path> ca_file;                           // trusted in place of the system's authorities
  std::chrono::milliseconds connect_within{5'000}, whole_within{30'000};  // the latter for all hops of a call together
  std::chrono::seconds silent_for{10};                                    // less than 100 bytes a second for so long breaks off
  std::size_t largest_body = 16u << 20;                                   // decoded
};

// Proxies by the environment's variables (none for plain http, which stays on this machine), gzip and the like undone, HTTP/2 where
// offered, connections kept open between calls of one service.
class CurlTransport : public Transport {
 public:
  explicit CurlTransport(CurlSettings settings);
  ~CurlTransport() override;
  CurlTransport(const CurlTransport&) = delete;
  CurlTransport& operator=(const CurlTransport&) = delete;

  [[nodiscard]] std::optional<Failure> refusal(const Request& request) const override;
  [[nodiscard]] Answer get(const Request& request) override;

 private:
  class Handles;
  CurlSettings settings_;
  std::unique_ptr<Handles> handles_;
};

}  // namespace net
