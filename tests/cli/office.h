// An office of the tests: settings, cache and history in a folder of its own, and one server in the place of every weather service.
#pragma once
#include <cstdlib>
#include <fstream>
#include <string>

#include "program.h"
#include "support/weather_server.h"

class OfficeOfTests {
 public:
  explicit OfficeOfTests(const std::string& weather_settings = "", int latency_ms = 0)
      : server_(scratch_.folder() / "server", WeatherServer::Options{false, latency_ms}) {
    const std::string at = "\"" + server_.address() + "\"";
    settings("contact = \"office@trees.example\"\n[weather]\n" + weather_settings + "\n[weather.address]\nnws = " + at + "\nmet-norway = " +
             at + "\nopen-meteo = " + at + "\nopen-meteo-archive = " + at + "\nopen-meteo-ensemble = " + at + "\nplace-names = " + at +
             "\ndaily-rain = " + at + "\n[weather.calls_per_second]\nnws = 200\nmet-norway = 200\ndaily-rain = 200\nopen-meteo = 200\n");
  }

  void settings(const std::string& toml) const { std::ofstream{scratch_.folder() / "config.toml"} << toml; }
  [[nodiscard]] const WeatherServer& server() const { return server_; }
  [[nodiscard]] std::filesystem::path folder() const { return scratch_.folder(); }
  [[nodiscard]] std::string file(const std::string& name, const std::string& content) const { return scratch_.file(name, content); }

  // The command with this office's places behind it.
  [[nodiscard]] Ran run(Arguments arguments, const std::string& now) const {
    const std::string folder = scratch_.folder().string();
    arguments.insert(arguments.end(),
                     {"--config", folder + "/config.toml", "--cache", folder + "/cache", "--history", folder + "/history", "--now", now});
    return sapdraw(arguments);
  }

 private:
  Scratch scratch_;
  WeatherServer server_;
};
