#include "text/changes.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "text/clean.h"
#include "text/wording.h"

namespace text {
namespace {

constexpr double hours_worth_saying = 1.0;

// In the order in which a crew asks. Odds and hours go with the verdict.
constexpr std::array watched{Piece::verdict, Piece::odds,  Piece::takes, Piece::arrive, Piece::name, Piece::address,
                             Piece::mix,     Piece::water, Piece::haul,  Piece::open,   Piece::shut, Piece::off,
                             Piece::prep,    Piece::gate,  Piece::dog,   Piece::home};

bool outlook_moved(const Stop& before, const Stop& after) {
  if (before.verdict != after.verdict) return true;
  const auto &old_likely = before.takes_h.p50, &likely = after.takes_h.p50;
  if (old_likely.has_value() != likely.has_value()) return true;
  return likely && std::abs(*likely - *old_likely) >= hours_worth_saying;
}

bool is_site_fact(Piece piece) { return piece == Piece::address || piece == Piece::gate || piece == Piece::dog || piece == Piece::home; }

bool is_outlook(Piece piece) { return piece == Piece::odds || piece == Piece::takes; }

// One piece that differs: "arrive 8am (was 7:30am)", "no gate". Nothing of mix and valves where the verdict says that none is opened.
std::string difference(Piece piece, const std::string& was, const std::string& is, bool treated, const Narrowing& narrowing) {
  if (piece == Piece::name) return "was " + was;
  if (is.empty()) return (piece == Piece::prep || was.empty() || !treated) ? "" : "no " + std::string{name_of(piece)};
  const bool tells_before = (piece == Piece::verdict || piece == Piece::arrive) && narrowing.has(Piece::was);
  return (piece == Piece::arrive ? "arrive " : "") + is + (tells_before ? " (was " + was + ")" : "");
}

std::vector<std::string> differences(const CrewOrder& sent, std::size_t before, const CrewOrder& today, std::size_t after,
                                     const Narrowing& narrowing, bool after_action) {
  const bool outlook = outlook_moved(sent.stops[before], today.stops[after]);
  std::vector<std::string> said;
  for (const Piece piece : watched) {
    if (is_outlook(piece) && !outlook) continue;
    if (after_action && (piece == Piece::verdict || is_outlook(piece))) continue;
    // What to do about a tree whose odds have turned was said; "open no valves" would come late where they are open.
    if (after_action && piece == Piece::prep && today.stops[after].valves) continue;
    // Names are compared as they stand, not as they are cut here.
    if (piece == Piece::name ? for_phone(sent.stops[before].name) == for_phone(today.stops[after].name)
                             : stop_words(sent, before, piece, {}) == stop_words(today, after, piece, {}))
      continue;
    const std::string line = difference(piece, stop_words(sent, before, piece, narrowing), stop_words(today, after, piece, narrowing),
                                        is_treatment(today, today.stops[after]) || is_site_fact(piece), narrowing);
    if (!line.empty()) said.push_back(line);
  }
  return said;
}

template <class T>
bool holds(const std::vector<T>& all, const T& one) {
  return std::ranges::find(all, one) != all.end();
}

// Of one kind and at the same hours: another figure of the same storm is nothing that a crew would do differently.
auto same_hours(const OrderHold& hold) {
  return [hold](const OrderHold& other) { return other.code == hold.code && other.from == hold.from && other.until == hold.until; };
}

// `today` with only those holds and safety lines that its stops did not have before; of stops that were there before no safety lines where
// these have been said (`after_action`).
CrewOrder with_new_hazards(const CrewOrder& sent, CrewOrder today, bool after_action) {
  for (Stop& stop : today.stops)
    if (const auto before = same_stop(sent, stop)) {
      const Stop& old = sent.stops[*before];
      std::erase_if(stop.holds, [&](const OrderHold& hold) { return std::ranges::any_of(old.holds, same_hours(hold)); });
      std::erase_if(stop.safety, [&](const std::string& line) { return after_action || holds(old.safety, line); });
    }
  return today;
}

// `today` with only the holds of kinds that its stops had and have no more.
CrewOrder with_gone_holds(const CrewOrder& sent, CrewOrder today) {
  for (Stop& stop : today.stops) {
    std::vector<OrderHold> gone;
    if (const auto before = same_stop(sent, stop))
      for (const OrderHold& hold : sent.stops[*before].holds)
        if (std::ranges::none_of(stop.holds, [&](const OrderHold& now) { return now.code == hold.code; })) gone.push_back(hold);
    stop.holds = gone;
  }
  return today;
}

}  // namespace

std::optional<std::size_t> same_stop(const CrewOrder& order, const Stop& stop) {
  for (std::size_t i = 0; i < order.stops.size(); ++i) {
    const Stop& other = order.stops[i];
    if (stop.code.empty() ? other.code.empty() && other.name == stop.name : other.code == stop.code) return i;
  }
  return std::nullopt;
}

std::vector<std::string> change_lines(const CrewOrder& sent, const CrewOrder& today, const Templates& templates, const Narrowing& narrowing,
                                      bool after_action) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < today.stops.size(); ++i) {
    const auto before = same_stop(sent, today.stops[i]);
    if (!before) {
      lines.push_back("New: " + stop_line(today, i, templates, narrowing));
      continue;
    }
    std::string said;
    for (const std::string& difference : differences(sent, *before, today, i, narrowing, after_action))
      said += (said.empty() ? "" : ", ") + difference;
    if (!said.empty()) lines.push_back(std::to_string(i + 1) + ") " + name_said(today.stops[i], i + 1, narrowing) + ": " + said + ".");
  }
  for (std::size_t i = 0; i < sent.stops.size(); ++i)
    if (!after_action && !same_stop(today, sent.stops[i]))
      lines.push_back("Not today: " + name_said(sent.stops[i], i + 1, narrowing) + ".");
  const bool roomy = narrowing.layout == Layout::by_template;
  const Advised advised = after_action ? Advised::not_at_all : roomy ? Advised::fully : Advised::shortly;
  for (const std::string& line : hold_lines(with_new_hazards(sent, today, after_action), advised)) lines.push_back("New " + line);
  for (const std::string& line : hold_lines(with_gone_holds(sent, today), Advised::not_at_all)) lines.push_back("No more " + line);
  for (const std::string& line : safety_lines(with_new_hazards(sent, today, after_action))) lines.push_back("New: " + line);
  return lines;
}

}  // namespace text
