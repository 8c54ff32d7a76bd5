#include "post/peer.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <atomic>
#include <cstdlib>
#include <fstream>

void make_certificates(const std::filesystem::path& folder) {
  const std::string in = "cd '" + folder.string() + "' && ";
  const std::string make =
      in +
      "openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -days 2 -subj /CN=Tests -keyout ca.key -out ca.pem "
      "2>/dev/null && "
      "openssl req -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -subj /CN=localhost -keyout server.key -out server.csr "
      "2>/dev/null && "
      "printf 'subjectAltName=DNS:localhost,IP:127.0.0.1\\n' > names && "
      "openssl x509 -req -in server.csr -CA ca.pem -CAkey ca.key -CAcreateserial -days 2 -extfile names -out server.pem 2>/dev/null";
  REQUIRE(std::system(make.c_str()) == 0);
}

bool Peer::has_module(const std::string& module) {
  const bool has = std::system(("/usr/bin/python3 -c 'import " + module + "' 2>/dev/null").c_str()) == 0;
  if (!has) MESSAGE("skipped: python3 has no module " << module);
  return has;
}

Peer::Peer(const std::string& script, const std::vector<std::string>& more) {
  static std::atomic<int> counter{0};
  folder_ = std::filesystem::temp_directory_path() / ("sapdraw-peer-" + std::to_string(::getpid()) + "-" + std::to_string(counter++));
  std::filesystem::create_directories(folder_);
  make_certificates(folder_);
  std::vector<std::string> words{std::string{SAPDRAW_SOURCE_DIR} + "/tests/post/" + script,
                                 "--log",
                                 (folder_ / "log").string(),
                                 "--certificate",
                                 (folder_ / "server.pem").string(),
                                 "--key",
                                 (folder_ / "server.key").string()};
  words.insert(words.end(), more.begin(), more.end());
  server_ = std::make_unique<ChildServer>(std::move(words));
}

Peer::~Peer() {
  server_.reset();
  std::error_code error;
  std::filesystem::remove_all(folder_, error);
}

std::vector<nlohmann::json> Peer::taken() const {
  std::vector<nlohmann::json> all;
  std::ifstream log{folder_ / "log"};
  for (std::string line; std::getline(log, line);) all.push_back(nlohmann::json::parse(line));
  return all;
}
