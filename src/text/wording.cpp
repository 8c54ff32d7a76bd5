#include "text/wording.h"

#include <algorithm>
#include <cmath>

#include "text/clean.h"
#include "text/encoding.h"
#include "text/say.h"

namespace text {
namespace {

std::string joined(const std::vector<std::string>& parts, const std::string& between) {
  std::string out;
  for (const std::string& part : parts)
    if (!part.empty()) out += (out.empty() ? "" : between) + part;
  return out;
}

std::vector<std::string> cleaned(const std::vector<std::string>& texts) {
  std::vector<std::string> out;
  for (const std::string& text : texts) out.push_back(for_phone(text));
  return out;
}

// Whether the message is UCS-2 whatever may be left out.
bool foreign_anyway(const CrewOrder& order, const Narrowing& narrowing) {
  if (!is_gsm(crew_said(order, narrowing))) return true;
  for (std::size_t i = 0; i < order.stops.size(); ++i)
    if (!is_gsm(name_said(order.stops[i], i + 1, narrowing))) return true;
  return false;
}

// What somebody typed, in a piece that may be left out.
std::string typed(const std::string& text, const CrewOrder& order, const Narrowing& narrowing) {
  std::string said = for_phone(text);
  while (said.ends_with('.') || said.ends_with(' ')) said.pop_back();  // the template ends the sentence
  return is_gsm(said) || foreign_anyway(order, narrowing) ? said : "";
}

// "Gate 4412": the label unless the text begins with it.
std::string labelled(const std::string& label, const std::string& said) {
  if (said.empty()) return {};
  const bool has_it =
      std::equal(label.begin(), label.end(), said.begin(), said.begin() + static_cast<std::ptrdiff_t>(std::min(label.size(), said.size())),
                 [](char a, char b) { return (a | 0x20) == (b | 0x20); });
  return has_it ? said : label + " " + said;
}

std::string mix_words(const CrewOrder& order, const Stop& stop, bool short_words) {
  const std::string unit = " " + amount_unit(order.units), mix = amount_figure(stop.mix_l, order.units);
  const bool flush = stop.flush_l > 0.0;
  const std::string flush_figure = amount_figure(stop.flush_l, order.units);
  if (short_words) return mix + unit + (flush ? "+" + flush_figure + " flush" : "");
  return mix + unit + " mix" + (flush ? " + " + flush_figure + unit + " flush" : "");
}

std::string counted(int count, const char* one, const char* many) {
  return count <= 0 ? "" : std::to_string(count) + " " + (count == 1 ? one : many);
}

// Lines shared by stops, each with the numbers of its stops.
struct Shared {
  std::string line;
  std::vector<std::size_t> stops;
};

void add(std::vector<Shared>& all, const std::string& line, std::size_t stop) {
  if (line.empty()) return;
  const auto known = std::ranges::find(all, line, &Shared::line);
  if (known == all.end())
    all.push_back({line, {stop}});
  else if (known->stops.back() != stop)
    known->stops.push_back(stop);
}

std::vector<std::string> said_once(const std::vector<Shared>& all, std::size_t stops, const std::string& label, const std::string& end) {
  std::vector<std::string> lines;
  for (const Shared& shared : all) {
    std::string numbers;
    if (shared.stops.size() != stops)
      for (const std::size_t stop : shared.stops) numbers += (numbers.empty() ? " at " : ",") + std::to_string(stop);
    lines.push_back(label + numbers + end + shared.line);
  }
  return lines;
}

}  // namespace

bool is_treatment(const CrewOrder& order, const Stop& stop) {
  return stop.valves.has_value() && !order.weather_too_old && stop.verdict != days::Verdict::no_go;
}

std::string stop_words(const CrewOrder& order, std::size_t index, Piece piece, const Narrowing& narrowing) {
  if (is_droppable(piece) && !narrowing.has(piece)) return {};
  const Stop& stop = order.stops[index];
  const bool short_words = !narrowing.has(Piece::long_words), treated = is_treatment(order, stop);
  const bool barred = stop.valves && !order.weather_too_old && !treated;  // NO GO: nothing of mix or valves, so that nobody mixes
  switch (piece) {
    case Piece::number:
      return std::to_string(index + 1);
    case Piece::arrive:
      return clock(stop.arrive, Room::line);
    case Piece::name:
      return name_said(stop, index + 1, narrowing);
    case Piece::address:
      return typed(stop.address, order, narrowing);
    case Piece::verdict:
      return treated || barred ? verdict(stop.verdict) : "prep only";
    case Piece::odds:
      return treated || barred ? chance(stop.chance) : "";
    case Piece::takes:
      return treated ? takes(stop.takes_h, Room::line) : "";
    case Piece::mix:
      return treated ? mix_words(order, stop, short_words) : "";
    case Piece::ports:
      return treated ? counted(stop.ports, "port", "ports") : "";
    case Piece::tanks:
      return treated ? counted(stop.tanks, "tank", "tanks") : "";
    case Piece::water:
      return treated ? typed(stop.water, order, narrowing) : "";
    case Piece::haul:
      return treated && stop.haul_l > 0.0 ? "haul " + amount(stop.haul_l, order.units) : "";
    case Piece::open:
      return treated ? "valves open " + clock(stop.valves->open, Room::line) : "";
    case Piece::shut:
      return treated ? (short_words ? "shut by " : "valves shut by ") + clock(stop.valves->shut_by, Room::line) : "";
    case Piece::off:
      return "off site by " + clock(stop.off_site_by, Room::line);
    case Piece::gate:
      return labelled("Gate", typed(stop.gate, order, narrowing));
    case Piece::dog:
      return labelled("Dog", typed(stop.dog, order, narrowing));
    case Piece::home:
      return labelled("Home:", typed(stop.home, order, narrowing));
    case Piece::prep:
      if (barred) return "open no valves";
      return joined(cleaned(stop.prep), ", ");
    default:
      return {};
  }
}

namespace {

std::string row(const CrewOrder& order, std::size_t index, const Narrowing& narrowing) {
  const Stop& stop = order.stops[index];
  std::string words = std::to_string(index + 1) + " " + clock(stop.arrive, Room::line) + " " + name_said(stop, index + 1, narrowing);
  if (!order.weather_too_old) words += " " + stop_words(order, index, Piece::verdict, narrowing);  // else said at the head
  if (is_treatment(order, stop)) {
    const bool bare = narrowing.layout == Layout::bare_rows;
    const std::string unit = amount_unit(order.units);
    words += " " + amount_figure(stop.mix_l, order.units) + (bare ? "" : unit);
    if (stop.flush_l > 0.0) words += "+" + amount_figure(stop.flush_l, order.units) + (bare ? "" : "flush");
    words += (bare ? unit + " " : " valves ") + hours(stop.valves->open, stop.valves->shut_by, order.date, Room::line);
  }
  return words + " off " + clock(stop.off_site_by, Room::line);
}

}  // namespace

std::string stop_line(const CrewOrder& order, std::size_t index, const Templates& templates, const Narrowing& narrowing) {
  if (narrowing.layout != Layout::by_template) return row(order, index, narrowing);
  const Template& form = is_treatment(order, order.stops[index]) ? templates.stop : templates.prep_stop;
  return form.fill([&](Piece piece) { return stop_words(order, index, piece, narrowing); });
}

std::vector<std::string> hold_lines(const CrewOrder& order, Advised advised) {
  struct Placed {
    OrderHold hold;
    std::size_t stop;
  };
  std::vector<Placed> placed;
  for (std::size_t i = 0; i < order.stops.size(); ++i)
    for (const OrderHold& hold : order.stops[i].holds) placed.push_back({hold, i + 1});
  std::ranges::stable_sort(placed, {}, [](const Placed& p) { return p.hold.from; });
  std::vector<Shared> all;
  for (const auto& [hold, stop] : placed) {
    std::string line = hours(hold.from, hold.until, order.date, Room::line) + " " + hazard(hold.code, hold.worst, order.units);
    if (advised != Advised::not_at_all) line += ": " + what_to_do(hold.code, advised == Advised::shortly);
    add(all, line + (advised == Advised::shortly ? "" : "."), stop);
  }
  return said_once(all, order.stops.size(), "HOLD", " ");
}

std::vector<std::string> safety_lines(const CrewOrder& order) {
  std::vector<Shared> all;
  for (std::size_t i = 0; i < order.stops.size(); ++i)
    for (const std::string& line : order.stops[i].safety) add(all, for_phone(line), i + 1);
  return said_once(all, order.stops.size(), "Safety", ": ");
}

namespace {

// No stop has a line of its own, such as "Do not dig": what all may do is not said over it.
bool nobody_is_warned(const CrewOrder& order) {
  return std::ranges::all_of(order.stops, [](const Stop& stop) { return stop.safety.empty(); });
}

}  // namespace

std::string lines_joined(const std::vector<std::string>& lines) { return joined(lines, "\n"); }

std::string order_words(const CrewOrder& order, Piece piece, const Templates& templates, const Narrowing& narrowing) {
  if (is_droppable(piece) && !narrowing.has(piece)) return {};
  const bool roomy = narrowing.layout == Layout::by_template;
  const auto age = [&] { return std::to_string(std::lround(*order.weather_age_h)) + "h old"; };
  switch (piece) {
    case Piece::crew:
      return crew_said(order, narrowing);
    case Piece::day:
      return day(order.date);
    case Piece::old_weather:
      if (!order.weather_too_old) return {};
      return "Prep only, weather " + (order.weather_age_h ? age() : "of unknown age") +
             (roomy && nobody_is_warned(order) ? ": dig, brush clean, measure flare, lay out. Drill nothing" : "") +
             ", open no valves till we call.";
    case Piece::changed:
      return joined(cleaned(order.changed), ". ");
    case Piece::stops: {
      std::vector<std::string> lines;
      for (std::size_t i = 0; i < order.stops.size(); ++i) lines.push_back(stop_line(order, i, templates, narrowing));
      return lines.empty() ? "No stops." : lines_joined(lines);
    }
    case Piece::holds:
      return lines_joined(hold_lines(order, roomy ? Advised::fully : Advised::shortly));
    case Piece::safety:
      return lines_joined(safety_lines(order));
    case Piece::call: {
      const std::string number = typed(order.call, order, narrowing);
      return number.empty() ? "" : "Call " + number;
    }
    case Piece::weather_age:
      return order.weather_age_h && !order.weather_too_old ? "Weather " + age() : "";
    default:
      return {};
  }
}

}  // namespace text
