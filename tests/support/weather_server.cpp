#include "support/weather_server.h"

#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>

namespace {

std::string quoted_path(const std::string& line) {
  const std::string key = "\"path\": \"";
  const auto at = line.find(key);
  if (at == std::string::npos) return {};
  const auto begin = at + key.size();
  return line.substr(begin, line.find('"', begin) - begin);
}

}  // namespace

WeatherServer::WeatherServer(std::filesystem::path folder, Options options) : folder_(std::move(folder)), options_(options) {
  std::filesystem::create_directories(folder_);
  routes("[]");
  std::ofstream{folder_ / "asked.log"};
  std::vector<std::string> words{std::string{SAPDRAW_SOURCE_DIR} + "/tests/support/weather_server.py",
                                 "--control",
                                 (folder_ / "routes.json").string(),
                                 "--log",
                                 (folder_ / "asked.log").string(),
                                 "--latency-ms",
                                 std::to_string(options.latency_ms)};
  if (options.tls) {
    const std::string key = (folder_ / "server.key").string();
    const std::string make =
        "openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -days 2 -subj /CN=localhost "
        "-addext subjectAltName=DNS:localhost,IP:127.0.0.1 -keyout '" +
        key + "' -out '" + certificate().string() + "' 2>/dev/null";
    REQUIRE(std::system(make.c_str()) == 0);
    words.insert(words.end(), {"--tls", certificate().string(), key});
  }
  server_ = std::make_unique<ChildServer>(std::move(words));
}

void WeatherServer::routes(const std::string& json) const {
  const auto beside = folder_ / "routes.json.new";
  std::ofstream{beside} << json;
  std::filesystem::rename(beside, folder_ / "routes.json");
}

std::string WeatherServer::address() const {
  return (options_.tls ? "https://localhost:" : "http://127.0.0.1:") + std::to_string(server_->port());
}

std::vector<Asked> WeatherServer::asked() const {
  std::vector<Asked> all;
  std::ifstream log{folder_ / "asked.log"};
  for (std::string line; std::getline(log, line);) all.push_back({quoted_path(line), line});
  return all;
}
