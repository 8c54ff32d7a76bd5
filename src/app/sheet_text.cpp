#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "app/sheet.h"
#include "app/words.h"
#include "app/wrap.h"

namespace app {
namespace {

class Text {
 public:
  Text(const Sheet& sheet, UnitSystem units) : sheet_(sheet), units_(units) {}

  [[nodiscard]] std::string text() {
    title();
    head("DOSE", dose());
    head("PORTS", ports());
    list("WHERE", where_ports_go());
    head("WATER", water());
    if (sheet_.answer)
      day();
    else
      time();
    list("ORDER OF WORK", order_of_work(sheet_, units_));
    list("BRING", things_to_bring(sheet_, units_));
    return out_ + "\n" + words::cautions() + "\n";
  }

 private:
  void title() {
    const auto& row = sheet_.tree.row;
    const auto& species = sheet_.tree.species;
    if (sheet_.draft)
      out_ +=
          "DRAFT: THE DOSE BELOW IS COMMON PRACTICE, NOT THE LABEL FIGURE OF THIS OWNER.\n"
          "DO NOT MIX BY IT: A LICENSED APPLICATOR SETS THE DOSE (dose_l IN THE TREE LIST).\n\n";
    if (sheet_.answer && sheet_.answer->verdict == days::Verdict::no_go)
      out_ += wrap("NO GO ON " + words::day(sheet_.answer->date) + ": see TIME and HOLD below. This sheet is no job order.", "") + "\n";
    out_ += wrap("SET-UP SHEET  " + (row.name.empty() || row.name == row.tree ? row.tree : row.name + " (" + row.tree + ")"), "");
    out_ += wrap(fmt::format("{}, trunk {} across at breast height, {} around, flare about {} around",
                             species.english.empty() ? species.latin : species.english.front() + " (" + species.latin + ")",
                             words::diameter(row.dbh.value, units_), words::length(sheet_.trunk_circumference_m, units_),
                             words::length(sheet_.flare_circumference_m, units_)),
                 "");
    if (sheet_.day && !sheet_.answer) out_ += fmt::format("for {}; no weather given, so no clock times\n", words::day(*sheet_.day));
  }

  [[nodiscard]] std::string dose() const {
    const std::string tanks =
        sheet_.tanks == 1 ? "one tank"
                          : fmt::format("{} tanks of {}, the last {}", sheet_.tanks, amount(sheet_.tank_l), amount(sheet_.last_tank_l));
    return fmt::format("{} of mix{}: {}. Then {} of clean water.", amount(sheet_.dose_l), sheet_.draft ? " (DRAFT)" : "", tanks,
                       amount(sheet_.flush_l));
  }

  [[nodiscard]] std::string ports() const {
    return fmt::format("{}, one every {} along the flare. Hole {} across, {} deep into sound wood. {} at the ports.", sheet_.ports,
                       words::depth(10.0 * sheet_.port_spacing_cm, units_), words::bit(sheet_.hole_diameter_mm, units_),
                       words::depth(sheet_.hole_depth_mm, units_), words::pressure(sheet_.pressure_kpa, units_));
  }

  [[nodiscard]] std::string water() const {
    return fmt::format(
        "Haul or draw {}: {} for the mix, {} to flush; and what fills the lines and the leak check. "
        "Draw only through a backflow preventer.",
        amount(sheet_.dose_l + sheet_.flush_l), amount(sheet_.dose_l), amount(sheet_.flush_l));
  }

  // Phases with the clock where a day is known.
  void time() {
    const days::JobTime& t = sheet_.time;
    out_ += "\nTIME, the tree's own drinking aside\n";
    for (const auto& [what, hours] : {std::pair{"dig and clean the flare", t.dig},
                                      {"lay out", t.layout},
                                      {"drill and seat", t.drill},
                                      {"leak check", t.leak_check},
                                      {"mix first tank", t.mix},
                                      {"tear down", t.tear_down}})
      out_ += fmt::format("  {:>8}  {}\n", words::duration(hours.value), what);
    out_ += fmt::format("  {:>8}  from arrival to valves open\n", words::duration(t.before().value));
  }

  void day() {
    const days::DayAnswer& a = *sheet_.answer;
    const days::JobTime& t = sheet_.time;
    out_ += fmt::format("\nTIME on {}: {}, {} to finish; the tree {}\n", words::day(a.date), words::verdict(a.verdict),
                        words::chance(a.chance_all_clear), words::takes(a.uptake_h));
    units::UtcTime at = a.arrive;
    const auto line = [this](units::UtcTime when, const std::string& what) { out_ += fmt::format("  {:>8}  {}\n", clock(when), what); };
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
    out_ +=
        fmt::format("  9 in 10 sure to go in before shut-off: {} of {} tank{}\n", a.sure_tanks, sheet_.tanks, sheet_.tanks == 1 ? "" : "s");
    for (const days::Hold& hold : a.holds)
      add("  HOLD ", fmt::format("{} to {}: {}", clock(hold.from), clock(hold.until), words::hold(hold, units_)));
  }

  static std::chrono::seconds seconds(units::Hours hours) { return std::chrono::seconds{std::lround(hours.value * 3600.0)}; }
  [[nodiscard]] std::string clock(units::UtcTime t) const { return words::clock(sheet_.tree.tree.zone.to_local(t)); }
  [[nodiscard]] std::string amount(double litres) const { return words::amount(litres, units_); }

  // `text` behind `mark`, further lines below its beginning.
  void add(const std::string& mark, const std::string& text) {
    out_ += wrap(text, std::string(mark.size(), ' ')).replace(0, mark.size(), mark);
  }
  void head(const char* what, const std::string& text) {
    out_ += "\n";
    add(fmt::format("{:<7}", what), text);
  }
  void list(const char* what, const std::vector<std::string>& items) {
    out_ += fmt::format("\n{}\n", what);
    for (std::size_t i = 0; i < items.size(); ++i) add(fmt::format("{:>2}. ", i + 1), items[i]);
  }

  const Sheet& sheet_;
  UnitSystem units_;
  std::string out_;
};

}  // namespace

std::string sheet_text(const Sheet& sheet, UnitSystem units) { return Text{sheet, units}.text(); }

}  // namespace app
