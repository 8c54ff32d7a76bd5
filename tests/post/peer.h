// A server in a process of its own beside the test, in a scratch folder, with a certificate of an authority made for it. Ends with the
// test.
#pragma once
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "support/child_server.h"

class Peer {
 public:
  // `script` of tests/post, run by /usr/bin/python3 with --log, --certificate, --key and `more`; it prints its port.
  Peer(const std::string& script, const std::vector<std::string>& more);
  ~Peer();
  Peer(const Peer&) = delete;
  Peer& operator=(const Peer&) = delete;

  [[nodiscard]] int port() const { return server_->port(); }
  [[nodiscard]] std::filesystem::path authority() const { return folder_ / "ca.pem"; }
  [[nodiscard]] std::vector<nlohmann::json> taken() const;  // the lines of its log

  // Whether such a server can run here; else says why not.
  [[nodiscard]] static bool has_module(const std::string& module);

 private:
  std::filesystem::path folder_;
  std::unique_ptr<ChildServer> server_;
};

// ca.pem, server.pem and server.key (for localhost) in `folder`.
void make_certificates(const std::filesystem::path& folder);
