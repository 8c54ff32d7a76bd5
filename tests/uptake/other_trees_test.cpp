#include "uptake/other_trees.h"

#include <doctest/doctest.h>

#include <fstream>
#include <sstream>

TEST_SUITE("uptake") {
  TEST_CASE("the tables of other trees and soils in docs/model/uptake.md are what the program gives") {
    std::ostringstream page;
    page << std::ifstream{SAPDRAW_SOURCE_DIR "/docs/model/uptake.md"}.rdbuf();
    const std::string written = page.str();
    REQUIRE(written.find("| 140 cm elm on |") != std::string::npos);
    CHECK_MESSAGE(other_trees::with_tables(written) == written, "write them anew: build/release/other-trees docs/model/uptake.md");
  }
}
