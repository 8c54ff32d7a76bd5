#include "app/order_changes.h"

#include <map>

#include "app/crew_orders.h"
#include "app/stop_of_booking.h"
#include "app/words.h"

namespace app {
namespace {

using book::Record;

bool is_late(store::Book& book, const Common& common, const Record& move) {
  const auto proposal = book.find("proposal", move.text("proposal"));
  const auto made = proposal ? proposal->instant("made_at") : std::nullopt;
  return made && *made > common.now - std::chrono::seconds{static_cast<long>(86400.0 * common.models.planning.settled_d)};
}

std::string name_of(store::Book& book, const Record& move) {
  const auto tree = book.find("tree", move.text("tree"));
  const auto site = tree ? book.find("site", tree->text("site")) : std::nullopt;
  return tree && site ? stop_name({{}, *tree, *site, {}}) : move.text("tree");
}

std::string crew_name(store::Book& book, const std::string& id) {
  const auto crew = book.find("crew", id);
  return crew ? crew->text("name") : id;
}

bool is_at(const Record& move, const std::string& way, const std::string& crew, units::LocalDay day) {
  return move.day(way + "_day") == day && move.text(way + "_crew") == crew;
}

std::string hour_of(const Record& move, const char* field) {
  const auto clock = move.clock(field);
  return clock ? words::clock(units::LocalTime{*clock}) : "";
}

// One job moved by `move`, as the crew of that day sees it.
std::string line(store::Book& book, const Record& move, const std::string& crew, units::LocalDay day) {
  const std::string name = name_of(book, move);
  const bool was = is_at(move, "from", crew, day), is = is_at(move, "to", crew, day);
  if (was && is) return name + " now " + hour_of(move, "to_start") + ", was " + hour_of(move, "from_start");
  if (was) {
    if (!move.day("to_day")) return name + " is off";
    return move.day("to_day") == day ? name + " goes to " + crew_name(book, move.text("to_crew"))
                                     : name + " moved to " + words::day(*move.day("to_day"));
  }
  if (!move.day("from_day")) return name + " is new";
  return name + " is new: was " +
         (move.day("from_day") == day ? crew_name(book, move.text("from_crew")) + "'s" : words::day(*move.day("from_day")));
}

}  // namespace

std::vector<std::string> changes_for_crew(store::Book& book, const Common& common, const std::string& crew, units::LocalDay day) {
  std::map<std::string, Record> moves;  // by id, which grows with time
  for (const char* field : {"from_day", "to_day"})
    for (Record& move : book.list("move", {.equal = {{"state", "accepted"}, {field, units::to_text(day)}}}))
      if ((is_at(move, "from", crew, day) || is_at(move, "to", crew, day)) && is_late(book, common, move)) moves.emplace(move.id, move);
  std::vector<std::string> lines;
  for (const auto& [id, move] : moves) {
    // A job that was moved away again, or back, is where the bookings say.
    const auto job = book.find("job", move.text("job"));
    const bool is_here = job && job->day("day") == day && job->text("crew") == crew;
    if (is_here == is_at(move, "to", crew, day)) lines.push_back(line(book, move, crew, day));
  }
  return lines;
}

}  // namespace app
