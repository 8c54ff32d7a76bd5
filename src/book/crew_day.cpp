#include "book/crew_day.h"

#include <algorithm>
#include <array>

namespace book {
namespace {

bool is_off(const std::vector<Record>& days_off, const char* whose, const std::string& id, const std::string& day) {
  return std::ranges::any_of(
      days_off, [&](const Record& off) { return off.text(whose) == id && off.text("first_day") <= day && day <= off.text("last_day"); });
}

}  // namespace

bool is_one_of(std::string_view days_of_week, units::LocalDay day) {
  static constexpr std::array<std::string_view, 7> names{"Su", "Mo", "Tu", "We", "Th", "Fr", "Sa"};
  return days_of_week.empty() || days_of_week.find(names[std::chrono::weekday{day}.c_encoding()]) != std::string_view::npos;
}

AtWork at_work(const People& people, const std::string& crew, units::LocalDay day) {
  const std::string on = units::to_text(day);
  AtWork found;
  if (is_off(people.days_off, "crew", crew, on)) return found;
  for (const Record& member : people.members)
    if (member.text("crew") == crew && !is_off(people.days_off, "member", member.id, on)) found.members.push_back(member);
  for (const Record& licence : people.licences)
    if (std::ranges::find(found.members, licence.text("member"), &Record::id) != found.members.end()) found.licences.push_back(licence);
  return found;
}

bool goes_out(const Record& crew, const std::vector<Record>& days_off, units::LocalDay day) {
  return is_one_of(crew.text("work_days"), day) && !is_off(days_off, "crew", crew.id, units::to_text(day));
}

}  // namespace book
