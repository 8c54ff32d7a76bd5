// Tables of any columns, by RFC 4180.
#include "feeds/table_csv.h"

#include <doctest/doctest.h>

namespace {

feeds::Table table(const std::string& text) {
  const auto read = feeds::read_table("t.csv", text);
  REQUIRE_MESSAGE(read, (read ? "" : read.error().line()));
  return *read;
}

std::string fault(const std::string& text) {
  const auto read = feeds::read_table("t.csv", text);
  return read ? "no fault" : read.error().line();
}

using Cells = std::vector<std::string>;

}  // namespace

TEST_SUITE("feeds: tables") {
  TEST_CASE("the examples of RFC 4180, section 2, are read as it says") {
    CHECK(table("a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n").rows[1].cells == Cells{"zzz", "yyy", "xxx"});
    CHECK(table("a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx").rows.size() == 2);
    CHECK(table("a,b,c\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx").rows[0].cells == Cells{"aaa", "b\r\nbb", "ccc"});
    CHECK(table("a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\"").rows[0].cells == Cells{"aaa", "b\"bb", "ccc"});
  }
  TEST_CASE("a row knows its number and the line on which it begins") {
    const auto read = table("a,b\n1,\"x\ny\nz\"\n\n2,w\n");
    REQUIRE(read.rows.size() == 2);
    CHECK(read.rows[0].number == 1);
    CHECK(read.rows[0].line == 2);
    CHECK(read.rows[1].number == 2);
    CHECK(read.rows[1].line == 6);
  }
  TEST_CASE("cells keep their blanks, columns lose theirs, a byte order mark goes") {
    const auto read = table("\xEF\xBB\xBF a , b\n  x , \n");
    CHECK(read.columns == Cells{"a", "b"});
    CHECK(read.rows[0].cells == Cells{"  x ", " "});
  }
  TEST_CASE("a row of another width is kept for the caller to judge") { CHECK(table("a,b\n1\n1,2,3\n").rows[1].cells.size() == 3); }
  TEST_CASE("no header, a nameless or double column, a quote out of place are refused with their line") {
    CHECK(fault("") == "t.csv: expected a header line");
    CHECK(fault("\n\n") == "t.csv: expected a header line");
    CHECK(fault("a,,c\n") == "t.csv:1: expected a name for column 2");
    CHECK(fault("a,b,a\n") == "t.csv:1: 'a': expected each column once");
    CHECK(fault("a\n\"open\n") == "t.csv:2: expected CSV: a quote stands where none may, or is not closed");
    CHECK(fault("a\nx\"y\n").find("t.csv:2: expected CSV") == 0);
    CHECK(fault("a\n\"x\"y\n").find("t.csv:2: expected CSV") == 0);
  }
  TEST_CASE("NUL bytes and a megabyte in a cell come through as they are") {
    const std::string big(1'000'000, 'x');
    CHECK(table("a\n" + std::string{"x\0y", 3} + "\n" + big + "\n").rows[0].cells[0].size() == 3);
    CHECK(table("a\n" + big + "\n").rows[0].cells[0] == big);
  }
}
