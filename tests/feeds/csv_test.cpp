#include "feeds/csv.h"

#include <doctest/doctest.h>

using feeds::CsvReader;

namespace {

std::vector<std::string> fields(std::string_view line) {
  CsvReader reader{"x.csv", line};
  const auto row = reader.next();
  REQUIRE(row);
  REQUIRE(*row);
  return (*row)->fields;
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("quotes hold commas, doubled quotes and blanks") {
    using Fields = std::vector<std::string>;
    CHECK(fields("a,b") == Fields{"a", "b"});
    CHECK(fields(" a , \"b, c\" ,") == Fields{"a", "b, c", ""});
    CHECK(fields("\"say \"\"yes\"\"\",\"\"") == Fields{"say \"yes\"", ""});
    CHECK(fields("\" kept \",x") == Fields{" kept ", "x"});
  }

  TEST_CASE("comments and blank lines are skipped but counted") {
    CsvReader reader{"x.csv", "# one\n\n  \na,b\n#two\nc,d"};
    CHECK((*reader.next())->line == 4);
    CHECK((*reader.next())->fields[1] == "d");
    CHECK(reader.line() == 6);
    CHECK(!reader.next());
  }

  TEST_CASE("a spoilt line costs itself only") {
    for (const std::string_view bad : {"\"open", "a\"b,c", "\"a\"b,c", "\"a\" \"b\""}) {
      const std::string content = std::string{bad} + "\ngood,line\n";
      CsvReader reader{"x.csv", content};
      const auto first = reader.next();
      REQUIRE(first);
      CHECK(!*first);
      CHECK(first->error().where == "x.csv:1");
      CHECK((*reader.next())->fields[0] == "good");
    }
  }

  TEST_CASE("a line of ten megabytes is refused without being taken apart") {
    const std::string content = "a,b\n" + std::string(10'000'000, ',') + "\nc,d\n";
    CsvReader reader{"x.csv", content};
    CHECK(*reader.next());
    CHECK(reader.next()->error().line() == "x.csv:2: expected at most 65536 bytes in a line");
    CHECK((*reader.next())->fields[0] == "c");
  }
}
