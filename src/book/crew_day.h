// Who of a crew is at work on a day, and days of the week as people write them.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "book/record.h"

namespace book {

// Whether a day is one of these days of the week, "Mo Tu We Th Fr"; none written: every day is.
[[nodiscard]] bool is_one_of(std::string_view days_of_week, units::LocalDay day);

// What the book says of the people of crews.
struct People {
  std::vector<Record> members, licences, days_off;
};

struct AtWork {
  std::vector<Record> members;
  std::vector<Record> licences;  // of these members
};

// The people of `crew` (an id) on `day`: nobody where the whole crew has the day off.
[[nodiscard]] AtWork at_work(const People& people, const std::string& crew, units::LocalDay day);
// Whether the crew goes out at all: not off, and on one of its days of the week.
[[nodiscard]] bool goes_out(const Record& crew, const std::vector<Record>& days_off, units::LocalDay day);

}  // namespace book
