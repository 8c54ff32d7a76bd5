#include <doctest/doctest.h>

#include <filesystem>
#include <set>

#include "support/reference.h"

TEST_SUITE("reference") {
  TEST_CASE("every published value names its source, and an unmet one its reason") {
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(SAPDRAW_SOURCE_DIR "/tests/reference")) {
      if (entry.path().extension() != ".json") continue;
      ++files;
      std::set<std::string> ids;
      for (const reference::Check& check : reference::load(entry.path().stem().string())) {
        CAPTURE(entry.path().filename().string());
        CAPTURE(check.id());
        CHECK(ids.insert(check.id()).second);
        CHECK_FALSE(check.source().empty());
        CHECK_FALSE(check.published().empty());
        for (const reference::Published& value : check.published()) {
          CHECK_FALSE(value.values.empty());
          CHECK(value.tolerance >= 0.0);
          if (value.left_out || value.reached_within) CHECK_FALSE(value.because.empty());
        }
      }
    }
    CHECK(files > 0);
  }

  TEST_CASE("a check asked for what it does not hold says so") {
    const reference::Check check = reference::load("fao56_ch3_examples", "ex2.pressure");
    CHECK(check.input("z_m") == 1800.0);
    CHECK(check.expected("P") == 81.8);
    CHECK_THROWS_AS((void)check.input("z_ft"), std::out_of_range);
    CHECK_THROWS_AS((void)check.expected("Q"), std::out_of_range);
    CHECK_THROWS_AS((void)reference::load("fao56_ch3_examples", "ex99"), std::out_of_range);
    CHECK_THROWS_AS((void)reference::load("no_such_file"), std::runtime_error);
  }

  TEST_CASE("clock texts are seconds after midnight") {
    CHECK(reference::clock_seconds("07:21:55") == 26515.0);
    CHECK(reference::clock_seconds("16:38") == 59880.0);
  }
}
