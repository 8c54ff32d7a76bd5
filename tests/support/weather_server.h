// A real HTTP server beside the test (tests/support/weather_server.py), told by a list of routes how to answer; it ends with the test.
#pragma once
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "support/child_server.h"

struct Asked {
  std::string path;  // with query
  std::string text;  // the whole line of the log: headers too
};

class WeatherServer {
 public:
  struct Options {
    bool tls = false;  // with a certificate signed by nobody
    int latency_ms = 0;
  };
  // `folder`: of the test's own, for control, log and certificate.
  explicit WeatherServer(std::filesystem::path folder, Options options);
  explicit WeatherServer(std::filesystem::path folder) : WeatherServer(std::move(folder), Options{}) {}

  // JSON as weather_server.py describes it.
  void routes(const std::string& json) const;
  [[nodiscard]] std::string address() const;  // "http://127.0.0.1:PORT", or https://localhost:PORT
  [[nodiscard]] std::filesystem::path certificate() const { return folder_ / "server.pem"; }
  [[nodiscard]] std::vector<Asked> asked() const;
  [[nodiscard]] std::size_t calls() const { return asked().size(); }

 private:
  std::filesystem::path folder_;
  Options options_;
  std::unique_ptr<ChildServer> server_;
};
