#include "app/sheet_says.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "app/words.h"

namespace app {
namespace {

std::chrono::seconds seconds(units::Hours hours) { return std::chrono::seconds{std::lround(hours.value * 3600.0)}; }

std::vector<TimeLine> phases(const Sheet& sheet) {
  const days::JobTime& t = sheet.time;
  std::vector<TimeLine> lines;
  for (const auto& [what, hours] : {std::pair{"dig and clean the flare", t.dig},
                                    {"lay out", t.layout},
                                    {"drill and seat", t.drill},
                                    {"leak check", t.leak_check},
                                    {"mix first tank", t.mix},
                                    {"tear down", t.tear_down}})
    lines.push_back({words::duration(hours.value), what});
  lines.push_back({words::duration(t.before().value), "from arrival to valves open"});
  return lines;
}

}  // namespace

std::vector<std::string> sheet_banners(const Sheet& sheet) {
  std::vector<std::string> banners;
  if (sheet.draft)
    banners.emplace_back(
        "DRAFT: THE DOSE BELOW IS COMMON PRACTICE, NOT THE LABEL FIGURE OF THIS OWNER.\n"
        "DO NOT MIX BY IT: A LICENSED APPLICATOR SETS THE DOSE (dose_l IN THE TREE LIST).");
  if (sheet.answer && sheet.answer->verdict == days::Verdict::no_go)
    banners.push_back("NO GO ON " + words::day(sheet.answer->date) + ": see TIME and HOLD below. This sheet is no job order.");
  return banners;
}

std::string sheet_name(const Sheet& sheet) {
  const auto& row = sheet.tree.row;
  return row.name.empty() || row.name == row.tree ? row.tree : row.name + " (" + row.tree + ")";
}

std::string sheet_heading(const Sheet& sheet) { return "SET-UP SHEET  " + sheet_name(sheet); }

std::string sheet_tree(const Sheet& sheet, UnitSystem units) {
  const auto& species = sheet.tree.species;
  return fmt::format("{}, trunk {} across at breast height, {} around, flare about {} around",
                     species.english.empty() ? species.latin : species.english.front() + " (" + species.latin + ")",
                     words::diameter(sheet.tree.row.dbh.value, units), words::length(sheet.trunk_circumference_m, units),
                     words::length(sheet.flare_circumference_m, units));
}

std::string sheet_day(const Sheet& sheet) {
  if (!sheet.day || sheet.answer) return {};
  return fmt::format("for {}; no weather given, so no clock times", words::day(*sheet.day));
}

std::string sheet_dose(const Sheet& sheet, UnitSystem units) {
  const std::string tanks = sheet.tanks == 1 ? "one tank"
                                             : fmt::format("{} tanks of {}, the last {}", sheet.tanks, words::amount(sheet.tank_l, units),
                                                           words::amount(sheet.last_tank_l, units));
  return fmt::format("{} of mix{}: {}. Then {} of clean water.", words::amount(sheet.dose_l, units), sheet.draft ? " (DRAFT)" : "", tanks,
                     words::amount(sheet.flush_l, units));
}

std::string sheet_ports(const Sheet& sheet, UnitSystem units) {
  return fmt::format("{}, one every {} along the flare. Hole {} across, {} deep into sound wood. {} at the ports.", sheet.ports,
                     words::depth(10.0 * sheet.port_spacing_cm, units), words::bit(sheet.hole_diameter_mm, units),
                     words::depth(sheet.hole_depth_mm, units), words::pressure(sheet.pressure_kpa, units));
}

std::string sheet_water(const Sheet& sheet, UnitSystem units) {
  return fmt::format(
      "Haul or draw {}: {} for the mix, {} to flush; and what fills the lines and the leak check. "
      "Draw only through a backflow preventer.",
      words::amount(sheet.dose_l + sheet.flush_l, units), words::amount(sheet.dose_l, units), words::amount(sheet.flush_l, units));
}

std::string sheet_time(const Sheet& sheet) {
  if (!sheet.answer) return "TIME, the tree's own drinking aside";
  const days::DayAnswer& a = *sheet.answer;
  return fmt::format("TIME on {}: {}, {} to finish; the tree {}", words::day(a.date), words::verdict(a.verdict),
                     words::chance(a.chance_all_clear), words::takes(a.uptake_h));
}

std::vector<TimeLine> sheet_time_lines(const Sheet& sheet) {
  if (!sheet.answer) return phases(sheet);
  const days::DayAnswer& a = *sheet.answer;
  const days::JobTime& t = sheet.time;
  std::vector<TimeLine> lines;
  const auto line = [&](units::UtcTime when, const char* what) {
    lines.push_back({words::clock(sheet.tree.tree.zone.to_local(when)), what});
  };
  units::UtcTime at = a.arrive;
  line(at, "arrive; dig and clean the flare");
  for (const auto& [before, what] : {std::pair{t.dig, "lay out"},
                                     {t.layout, "drill and seat"},
                                     {t.drill, "leak check on plain water"},
                                     {t.leak_check, "mix the first tank"}}) {
    at += seconds(before);
    line(at, what);
  }
  line(a.valves_open, "valves open");
  if (a.off_site_p50) line(*a.off_site_p50 - seconds(t.after()), "likely: mix and flush in, tear down");
  line(a.valves_shut_by, "valves shut by");
  line(a.off_site_by, "off site by");
  return lines;
}

std::string sheet_sure_tanks(const Sheet& sheet) {
  if (!sheet.answer) return {};
  return fmt::format("9 in 10 sure to go in before shut-off: {} of {} tank{}", sheet.answer->sure_tanks, sheet.tanks,
                     sheet.tanks == 1 ? "" : "s");
}

std::vector<std::string> sheet_holds(const Sheet& sheet, UnitSystem units) {
  std::vector<std::string> holds;
  if (!sheet.answer) return holds;
  const auto clock = [&](units::UtcTime t) { return words::clock(sheet.tree.tree.zone.to_local(t)); };
  for (const days::Hold& hold : sheet.answer->holds)
    holds.push_back(fmt::format("{} to {}: {}", clock(hold.from), clock(hold.until), words::hold(hold, units)));
  return holds;
}

}  // namespace app
