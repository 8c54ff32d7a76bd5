#include "app/port_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/words.h"
#include "units/us_customary.h"

namespace app {
namespace {

constexpr std::size_t most_named = 4;  // of ports that stand too near; the drawing marks them all

// The flare of the newest treatment that has one.
const book::OldPort* newest_flare(const book::FlareRecord& record) {
  const book::OldPort* newest = nullptr;
  for (const book::OldPort& old : record.old_ports)
    if (old.flare_cm && (newest == nullptr || old.year.value_or(0) > newest->year.value_or(0))) newest = &old;
  return newest;
}

void choose_flare(PortPlan& plan, double trunk_flare_cm) {
  plan.flare_cm = trunk_flare_cm;
  if (plan.record.flare_cm) {
    plan.flare_cm = *plan.record.flare_cm;
    plan.flare_from = FlareFrom::measured;
  } else if (const book::OldPort* old = newest_flare(plan.record)) {
    plan.flare_cm = *old->flare_cm;
    plan.flare_from = FlareFrom::earlier_treatment;
    plan.flare_year = old->year;
  }
}

std::string near(const PortPlan& plan, const book::FromOld& from, UnitSystem units) {
  const book::OldPort& old = plan.record.old_ports[from.old_port];
  const std::string port = (old.year ? fmt::format("one of {}", *old.year) : "an old one") + (old.leaked ? " that leaked" : "");
  const std::string beside = words::depth(10.0 * std::abs(from.sideways_cm), units) + " beside";
  if (!old.height_cm) return fmt::format("{} {}, its height unknown", beside, port);
  if (std::abs(from.above_cm) < 0.5) return fmt::format("{} {}", beside, port);
  return fmt::format("{} and {} {} {}", beside, words::depth(10.0 * std::abs(from.above_cm), units),
                     from.above_cm > 0.0 ? "above" : "below", port);
}

std::string which_flare(const PortPlan& plan, UnitSystem units) {
  const std::string flare = words::around(plan.flare_cm, units);
  const std::string again = "Measure it first: if the tape says otherwise, lay out anew.";
  switch (plan.flare_from) {
    case FlareFrom::measured:
      return fmt::format("Laid out on a flare of {} around, as measured.", flare);
    case FlareFrom::earlier_treatment:
      return fmt::format("Laid out on a flare of {} around, as measured {}. {}", flare,
                         plan.flare_year ? fmt::format("in {}", *plan.flare_year) : "at an earlier treatment", again);
    case FlareFrom::trunk:
      break;
  }
  return fmt::format("Laid out on a flare of about {} around, reckoned from the trunk. {}", flare, again);
}

std::string wanted(const PortPlan& plan, UnitSystem units) {
  return fmt::format("{} sideways, {} straight above or below", words::depth(10.0 * plan.rules.beside_cm, units),
                     words::depth(10.0 * plan.rules.beside_cm * plan.rules.in_line_multiple, units));
}

void say_what_gives(const PortPlan& plan, UnitSystem units, std::vector<std::string>& said) {
  const auto& places = plan.places.places;
  if (places.size() < static_cast<std::size_t>(plan.places.wanted))
    said.push_back(fmt::format("Only {} of {} ports find room: bad wood{} leaves no place for more.", places.size(), plan.places.wanted,
                               plan.record.ridges.empty() ? "" : " and the valleys between ridges"));
  std::size_t near_old = 0;
  std::string named;
  for (std::size_t i = 0; i < places.size(); ++i)
    if (book::too_near(places[i]) && near_old++ < most_named)
      named += fmt::format("{}port {} only {}", named.empty() ? "" : "; ", i + 1, near(plan, *places[i].nearest, units));
  if (near_old > most_named) named += fmt::format("; {} more, marked !", near_old - most_named);
  if (near_old > 0) said.push_back(fmt::format("Nearer to old ports than wanted ({}): {}.", wanted(plan, units), named));
  if (near_old > 0)
    said.push_back(fmt::format("{} of the {} would find room clear of all old ports. A licensed applicator decides: fewer ports, or these.",
                               std::min(plan.places.clear, plan.places.wanted), plan.places.wanted));
}

}  // namespace

units::Result<PortPlan> plan_ports(const std::optional<book::FlareRecord>& record, int ports, double trunk_flare_cm,
                                   const book::PlaceRules& rules) {
  PortPlan plan;
  plan.on_record = record.has_value();
  plan.record = record.value_or(book::FlareRecord{});
  plan.rules = rules;
  choose_flare(plan, trunk_flare_cm);
  auto places = book::place_ports(plan.record, {plan.flare_cm, ports, {rules.height_low_cm, rules.height_high_cm}}, rules);
  if (!places) return tl::make_unexpected(places.error());
  plan.places = std::move(*places);
  return plan;
}

std::vector<std::string> port_plan_says(const PortPlan& plan, UnitSystem units) {
  std::vector<std::string> said;
  if (!plan.places.complete)
    say_what_gives(plan, units, said);
  else if (!plan.record.old_ports.empty())
    said.push_back(fmt::format("All {} ports find room away from the old ones ({}).", plan.places.wanted, wanted(plan, units)));
  if (plan.record.old_ports.empty()) said.push_back("No old ports are on record: look for them, and keep " + wanted(plan, units) + ".");
  said.push_back(which_flare(plan, units));
  if (plan.record.ridges.empty())
    said.push_back("Ridges are not on record: set each port on the ridge nearest to its mark, clear of old ports.");
  return said;
}

std::vector<std::string> port_plan_list(const PortPlan& plan, UnitSystem units) {
  std::vector<std::string> list;
  if (!plan.on_record) return list;
  const auto& places = plan.places.places;
  for (std::size_t i = 0; i < places.size(); ++i)
    list.push_back(fmt::format("{:>3}{} {:>7} {unit}, {} {unit} up", i + 1, book::too_near(places[i]) ? '!' : ' ',
                               words::on_tape(places[i].clockwise_cm, units), words::on_tape(places[i].height_cm, units),
                               fmt::arg("unit", words::tape_unit(units))));
  return list;
}

namespace words {

std::string on_tape(double cm, UnitSystem units) {
  if (units == UnitSystem::si) {
    const double halves = std::round(2.0 * cm) + 0.0;  // no minus zero
    return fmt::format("{:.{}f}", halves / 2.0, std::fmod(halves, 2.0) == 0.0 ? 0 : 1);
  }
  const long quarters = std::lround(4.0 * units::us::inches(cm));
  static constexpr const char* parts[]{"", " 1/4", " 1/2", " 3/4"};
  const long whole = std::abs(quarters) / 4;
  const std::string part = parts[std::abs(quarters) % 4];
  const std::string text = whole == 0 && !part.empty() ? part.substr(1) : fmt::format("{}{}", whole, part);
  return quarters < 0 ? "-" + text : text;
}

std::string tape_unit(UnitSystem units) { return units == UnitSystem::us ? "in" : "cm"; }

std::string around(double cm, UnitSystem units) {
  if (units == UnitSystem::si) return fmt::format("{:.0f} cm", cm);
  const long inches = std::lround(units::us::inches(cm));
  return inches % 12 == 0 ? fmt::format("{} ft", inches / 12) : fmt::format("{} ft {} in", inches / 12, inches % 12);
}

}  // namespace words

}  // namespace app
