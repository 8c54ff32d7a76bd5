#include "text/correction.h"

#include <algorithm>
#include <cmath>

#include "text/changes.h"
#include "text/clean.h"
#include "text/say.h"
#include "text/wording.h"

namespace text {
namespace {

constexpr std::string_view go_ahead = "Go ahead";

// Whether the crew is, or was, to open valves there at all, whatever the odds.
bool has_valves(const CrewOrder& order, const Stop& stop) { return stop.valves.has_value() && !order.weather_too_old; }

void add_once(std::vector<std::string>& all, std::string line) {
  if (std::ranges::find(all, line) == all.end()) all.push_back(std::move(line));
}

// A crew that was told of a hold of this kind that had begun by then has its orders: a later end or another figure asks nothing new of it.
bool was_told(const Stop& stop, const OrderHold& hold) {
  return std::ranges::any_of(
      stop.holds, [&](const OrderHold& told) { return told.code == hold.code && told.from <= hold.from && hold.from <= told.until; });
}

// Holds of today's stops that the crew was not told of and that are not over.
std::vector<std::pair<const Stop*, OrderHold>> news_of_holds(const CrewOrder& sent, const CrewOrder& today, units::LocalTime now) {
  std::vector<std::pair<const Stop*, OrderHold>> news;
  for (const Stop& stop : today.stops) {
    if (stop.off_site_by <= now) continue;
    const auto before = same_stop(sent, stop);
    for (const OrderHold& hold : stop.holds) {
      const bool known = before && was_told(sent.stops[*before], hold);
      if (!known && hold.until > now && hold.from < stop.off_site_by) news.emplace_back(&stop, hold);
    }
  }
  std::ranges::stable_sort(news, {}, [](const auto& one) { return one.second.from; });
  return news;
}

std::string thunder_action(const OrderHold& hold, const Stop& stop, units::LocalTime now) {
  // Not later than the valves were to be shut anyway.
  const units::LocalTime by = stop.valves ? std::min(hold.from, stop.valves->shut_by) : hold.from;
  const bool at_once_now = by <= now + at_once;
  return (at_once_now ? "Shut valves, into truck now" : "Shut valves by " + clock(by, Room::line) + ", into truck") +
         ", leave lines on. 30 min after last thunder: back.";
}

std::string verdict_action(const CrewOrder& sent, std::size_t before, const CrewOrder& today, std::size_t after, units::LocalTime now,
                           const std::string& name) {
  const Stop& stop = today.stops[after];
  const bool was = has_valves(sent, sent.stops[before]), is = has_valves(today, stop);
  if (was && !is) return today.weather_too_old ? "" : "Open no valves at " + name + ": prep only.";
  if (!is || (was && sent.stops[before].verdict == stop.verdict)) return {};
  const bool is_open = was && sent.stops[before].verdict != days::Verdict::no_go && now >= stop.valves->open;
  // Of a tree that is drinking "NO GO" would read as an order to leave.
  const std::string ends =
      " at " + name + ": " + (is_open ? chance(stop.chance) + " to finish." : verdict(stop.verdict) + ", " + chance(stop.chance) + ".");
  switch (stop.verdict) {
    case days::Verdict::go:
      return std::string{go_ahead} + ends;
    case days::Verdict::tight:
      return (was && sent.stops[before].verdict == days::Verdict::no_go ? std::string{go_ahead} + ", but mix" : std::string{"Mix"}) +
             " only what is sure to go in" + ends;
    case days::Verdict::no_go:
      break;
  }
  return (is_open ? "Mix no more" : "Do not open valves") + ends;
}

// A crew that must leave earlier than it was told.
std::string leaving_action(const CrewOrder& today, const Stop& before, const Stop& stop, const std::string& name) {
  if (stop.off_site_by >= before.off_site_by) return {};
  const std::string valves = has_valves(today, stop) ? ", valves shut by " + clock(stop.valves->shut_by, Room::line) : "";
  return "Be off site at " + name + " by " + clock(stop.off_site_by, Room::line) + valves + ".";
}

// Of a stop that the crew knows: verdict, leaving, and safety lines that it was not told.
void add_stop_actions(const CrewOrder& sent, std::size_t before, const CrewOrder& today, std::size_t after, units::LocalTime now,
                      const std::string& name, std::vector<std::string>& all) {
  const Stop &old = sent.stops[before], &stop = today.stops[after];
  for (std::string line : {verdict_action(sent, before, today, after, now, name), leaving_action(today, old, stop, name)})
    if (!line.empty()) all.push_back(std::move(line));
  for (const std::string& line : stop.safety)
    if (std::ranges::find(old.safety, line) == old.safety.end()) all.push_back("At " + name + ": " + for_phone(line) + ".");
}

std::vector<std::string> actions(const CrewOrder& sent, const CrewOrder& today, units::LocalTime now, const Narrowing& narrowing) {
  std::vector<std::string> all;
  const auto news = news_of_holds(sent, today, now);
  std::optional<units::LocalTime> in_truck;  // from then on thunder keeps everybody there
  for (const auto& [stop, hold] : news)
    if (hold.code == days::HoldCode::thunder) {
      add_once(all, thunder_action(hold, *stop, now));
      in_truck = std::min(in_truck.value_or(hold.from), hold.from);
    }
  for (const auto& [stop, hold] : news)
    if (hold.code != days::HoldCode::thunder && (!in_truck || hold.from < *in_truck))
      add_once(all, "Stop work " + (hold.from <= now + at_once ? "now" : "by " + clock(hold.from, Room::line)) + ": " +
                        hazard(hold.code, hold.worst, today.units) + ".");
  if (today.weather_too_old && !sent.weather_too_old)
    all.push_back("Open no valves, prep only: weather " +
                  (today.weather_age_h ? std::to_string(std::lround(*today.weather_age_h)) + "h old." : "of unknown age."));
  for (std::size_t i = 0; i < sent.stops.size(); ++i)
    if (!same_stop(today, sent.stops[i]) && sent.stops[i].off_site_by > now)
      all.push_back("Do not go to " + name_said(sent.stops[i], i + 1, narrowing) + ".");
  for (std::size_t i = 0; i < today.stops.size(); ++i) {
    const Stop& stop = today.stops[i];
    if (stop.off_site_by <= now) continue;
    const std::string name = name_said(stop, i + 1, narrowing);
    if (const auto before = same_stop(sent, stop))
      add_stop_actions(sent, *before, today, i, now, name, all);
    else
      all.push_back("New stop at " + clock(stop.arrive, Room::line) + ": " + name + ".");
  }
  return all;
}

}  // namespace

bool eases(const CrewOrder& sent, const CrewOrder& today, units::LocalTime now) {
  const auto all = actions(sent, today, now, {});
  return !all.empty() && std::ranges::all_of(all, [](const std::string& line) { return line.starts_with(go_ahead); });
}

Message correction_text(const CrewOrder& sent, const CrewOrder& today, units::LocalTime now, const Templates& templates) {
  if (actions(sent, today, now, {}).empty()) {
    Message none;
    none.news = false;
    return none;
  }
  return fit({&sent, &today}, [&](const Narrowing& narrowing) {
    return templates.correction.fill([&](Piece piece) -> std::string {
      if (piece == Piece::action) {
        std::string said;
        for (const std::string& line : actions(sent, today, now, narrowing)) said += (said.empty() ? "" : " ") + line;
        return said;
      }
      if (piece == Piece::changes) return lines_joined(change_lines(sent, today, templates, narrowing, true));
      return order_words(today, piece, templates, narrowing);
    });
  });
}

}  // namespace text
