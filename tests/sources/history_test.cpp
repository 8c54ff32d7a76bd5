#include "sources/history.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <fstream>

namespace {

namespace fs = std::filesystem;

struct Folder {
  fs::path path = fs::temp_directory_path() / ("sapdraw-history-" + std::to_string(::getpid()));
  ~Folder() { fs::remove_all(path); }
};

const sources::Cell cell{874, -1838};

weather::Series two_hours() {
  weather::Series series{std::chrono::sys_days{std::chrono::year{2026} / 7 / 6} + std::chrono::hours{1}, 2};
  series[weather::Variable::temperature].set(0, 20.25, weather::Provenance::observed);
  return series;
}

}  // namespace

TEST_SUITE("sources") {
  TEST_CASE("what is kept of a cell is there again, and of another there is nothing") {
    const Folder folder;
    const sources::History history{folder.path};
    CHECK(history.recall(cell).series.hours() == 0);
    CHECK_FALSE(history.recall(cell).fault.has_value());
    REQUIRE(history.keep(cell, two_hours()).has_value());
    CHECK(history.recall(cell).series.at(weather::Variable::temperature, 0) == 20.25);
    CHECK(history.recall({0, 0}).series.hours() == 0);
    CHECK(fs::exists(folder.path / "43.70,-91.90.csv"));
  }

  TEST_CASE("a file that cannot be read is set aside, never lost, and said") {
    const Folder folder;
    const sources::History history{folder.path};
    REQUIRE(history.keep(cell, two_hours()).has_value());
    std::ofstream{folder.path / "43.70,-91.90.csv"} << "spoiled";
    const auto recalled = history.recall(cell);
    CHECK(recalled.series.hours() == 0);
    CHECK(recalled.fault->line() ==
          "43.70,-91.90.csv:1: 'spoiled': expected kept weather, version 1; set aside as 43.70,-91.90.csv.unreadable");
    CHECK(fs::exists(folder.path / "43.70,-91.90.csv.unreadable"));
    CHECK_FALSE(history.recall(cell).fault.has_value());
  }

  TEST_CASE("where nothing can be written the line says so") {
    CHECK(sources::History{"/proc/nowhere"}.keep(cell, two_hours()).error().line().find("expected a place that can be written") !=
          std::string::npos);
  }
}
