// What an application record must hold: 7 CFR 110.3(a), read in the edition of 2006-01-01; 40 CFR 171.303(b)(7), read in restatements (the
// header says).
#include "book/application_record.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace book;

namespace {

const Fields whole{{"tree", "elm-1"},
                   {"outcome", "done"},
                   {"day", "2026-07-09"},
                   {"started_at", "2026-07-09T14:00Z"},
                   {"ended_at", "2026-07-09T19:00Z"},
                   {"mix_l", "250"},
                   {"for_name", "Parish"},
                   {"for_address", "1 Green"},
                   {"location", "1 Green"},
                   {"area", "1 tree"},
                   {"treated", "American elm"},
                   {"applicator", "Bob"},
                   {"licence_number", "123"}};
const Record fill{
    "mix", "X1", 1, false, {{"treatment", "R1"}, {"tank", "1"}, {"product", "Example"}, {"registration", "1-2"}, {"amount", "4 oz"}}};

std::vector<std::string> missing(const Fields& fields, const std::vector<Record>& mixes) {
  std::vector<std::string> names;
  for (const Gap& gap : gaps(kind("treatment"), {"treatment", "R1", 1, false, fields}, mixes)) names.push_back(gap.field);
  return names;
}

}  // namespace

TEST_SUITE("book: application record") {
  TEST_CASE("a whole record misses nothing") { CHECK(missing(whole, {fill}).empty()); }
  TEST_CASE("each field that the law asks for is missed when it is not there") {
    // 7 CFR 110.3(a)(3), (5); 40 CFR 171.303(b)(7): person and address, location, size of area, site, time, applicator and number.
    for (const char* field : {"for_name", "for_address", "location", "area", "treated", "started_at", "applicator", "licence_number"}) {
      Fields less = whole;
      less.erase(field);
      CHECK(missing(less, {fill}) == std::vector<std::string>{field});
    }
    // 7 CFR 110.3(a)(1), (2): product, registration number, total amount.
    for (const char* field : {"product", "registration", "amount"}) {
      Record less = fill;
      less.fields.erase(field);
      CHECK(missing(whole, {less}) == std::vector<std::string>{std::string{"mix 1: "} + field});
    }
    CHECK(missing(whole, {}) == std::vector<std::string>{"mix"});
  }
  TEST_CASE("a tree that was not treated needs a reason and no product") {
    CHECK(missing({{"tree", "elm-1"}, {"outcome", "not_treated"}, {"day", "2026-07-09"}, {"reason", "thunder"}}, {}).empty());
    CHECK(missing({{"tree", "elm-1"}, {"outcome", "not_treated"}, {"day", "2026-07-09"}}, {}) == std::vector<std::string>{"reason"});
  }
  TEST_CASE("a partial one needs both") {
    Fields partial = whole;
    partial["outcome"] = "partial";
    CHECK(missing(partial, {fill}) == std::vector<std::string>{"reason"});
  }
  TEST_CASE("the owner's own required field is asked for") {
    Kind wider = kind("treatment");
    wider.fields.push_back(text_field("own_permit", "Permit").must());
    CHECK(gaps(wider, {"treatment", "R1", 1, false, whole}, {fill}).front().field == "own_permit");
  }
}
