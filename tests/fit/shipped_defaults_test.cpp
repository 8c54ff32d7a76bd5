// models/ against the fit that gives its numbers: the whole fit is run anew.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "fit/defaults.h"

namespace {

const std::filesystem::path shipped = SAPDRAW_SOURCE_DIR "/models";

std::string read(const std::filesystem::path& file) {
  std::ifstream stream{file, std::ios::binary};
  return {std::istreambuf_iterator<char>{stream}, {}};
}

}  // namespace

TEST_SUITE("fit") {
  TEST_CASE("the target fit-defaults gives what models/ has, byte for byte") {
    const auto defaults = fit::fit_defaults(shipped, 2, fit::shipped_plan());
    REQUIRE(defaults);
    for (const auto& [name, text] : defaults->files) CHECK_MESSAGE((text == read(shipped / name)), name);
    CHECK(defaults->rounds < 60);
    CHECK(defaults->disagreement < 1.1);  // common practice for R-hat
  }

  TEST_CASE("one thread gives the bits of two") {
    const fit::ChainPlan few{.rounds = {3}};
    CHECK((fit::fit_defaults(shipped, 1, few)->files == fit::fit_defaults(shipped, 2, few)->files));
  }
}
