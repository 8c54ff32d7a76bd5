// The checker against a small house that breaks every rule, one at a time.
#include "layering/checker.h"

#include <doctest/doctest.h>

using layering::Faults;

namespace {

const auto house = layering::read_layers("units: \nair: units\ntree: air\nfeeds: units\ncli: feeds\n");

Faults includes(const std::string& path, const std::string& text) { return layering::include_faults(house, {path, text}); }
Faults purity(const std::string& path, const std::string& text) { return layering::purity_faults({path, text}); }

}  // namespace

TEST_SUITE("layering") {
  TEST_CASE("a folder links only folders declared above it") {
    CHECK(layering::link_faults(house).empty());
    CHECK(layering::link_faults(layering::read_layers("air: units\nunits:\n")) ==
          Faults{"air: links units, which is not declared above it"});
    CHECK(layering::link_faults(layering::read_layers("air: air\n")).size() == 1);
  }

  TEST_CASE("a file includes its own folder and those its folder links") {
    CHECK(includes("air/x.h", "#include <vector>\n#include \"air/y.h\"\n#include \"units/quantity.h\"\n").empty());
    CHECK(includes("air/x.h", "#pragma once\n  #  include \"tree/crown.h\"\n") ==
          Faults{"air/x.h:2: \"tree/crown.h\", but src/air does not link tree"});
  }

  TEST_CASE("a folder reached only through another one counts as not linked") {
    CHECK(includes("tree/x.cpp", "#include \"units/quantity.h\"\n") ==
          Faults{"tree/x.cpp:1: \"units/quantity.h\", but src/tree does not link units"});
  }

  TEST_CASE("an include without a folder and a file in an undeclared folder are faults") {
    CHECK(includes("air/x.cpp", "#include \"x.h\"\n").size() == 1);
    CHECK(includes("attic/x.cpp", "").size() == 1);
  }

  TEST_CASE("an include that is commented out is none") { CHECK(includes("air/x.h", "// #include \"tree/crown.h\"\n").empty()); }

  TEST_CASE("a science folder has no input, output, clock, environment, formatting or hidden randomness") {
    for (const auto* header :
         {"fstream", "iostream", "random", "ctime", "filesystem", "nlohmann/json.hpp", "curl/curl.h", "date/tz.h", "fmt/core.h"})
      CHECK_MESSAGE(purity("air/x.cpp", std::string("#include <") + header + ">\n").size() == 1, header);
    for (const auto* code :
         {"auto t = std::chrono::system_clock::now();", "std::chrono::steady_clock::now()", "std::getenv(\"HOME\")", "std::cout << 1;"})
      CHECK_MESSAGE(purity("air/x.cpp", code).size() == 1, code);
    CHECK(purity("air/x.cpp", "#include <cmath>\n// never calls getenv\n").empty());
  }

  TEST_CASE("JSON is for the .cpp files of edges and faces, whose headers may forward-declare it") {
    CHECK(purity("feeds/x.cpp", "#include <nlohmann/json.hpp>\n").empty());
    CHECK(purity("feeds/x.h", "#include <nlohmann/json_fwd.hpp>\n").empty());
    CHECK(purity("air/x.h", "#include <nlohmann/json_fwd.hpp>\n").size() == 1);
    CHECK(purity("feeds/x.h", "#include <nlohmann/json.hpp>\n") ==
          Faults{"feeds/x.h:1: JSON belongs in .cpp files, a header may only forward-declare it"});
  }

  TEST_CASE("only cli asks the machine for the time") {
    CHECK(purity("feeds/x.cpp", "std::chrono::system_clock::now()").size() == 1);
    CHECK(purity("cli/main.cpp", "std::chrono::system_clock::now()").empty());
  }
}
