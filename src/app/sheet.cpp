#include "app/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "app/days_report.h"
#include "app/files.h"
#include "app/job_of_book.h"
#include "app/one_tree.h"
#include "app/open_book.h"
#include "app/sheet_place.h"
#include "app/words.h"
#include "book/flare_of_tree.h"
#include "feeds/ports_csv.h"

namespace app {
namespace {

Sheet without_day(const params::Models& models, const TreeInFull& tree) {
  const days::Practice& practice = models.practice;
  const uptake::Subject& subject = tree.tree.subject;
  Sheet sheet{tree};
  sheet.draft = !tree.tree.dose_from_label;
  sheet.ports = days::port_count(tree.tree);
  sheet.flare_circumference_m = days::flare_circumference(tree.tree).value;
  sheet.trunk_circumference_m = std::numbers::pi * tree.row.dbh.value / 100.0;
  sheet.port_spacing_cm = 100.0 * sheet.flare_circumference_m / sheet.ports;
  sheet.hole_diameter_mm = subject.hole_diameter_mm.value_or(models.ports.practice_diameter_mm);
  sheet.hole_depth_mm = models.ports.practice_depth_mm;
  sheet.pressure_kpa = 1000.0 * subject.pressure.value;
  sheet.dose_l = subject.dose.value;
  sheet.flush_l = subject.flush.value;
  sheet.tank_l = practice.set_up.tank_l;
  sheet.tanks = days::tank_count(tree.tree, practice.set_up);
  sheet.last_tank_l = sheet.dose_l - (sheet.tanks - 1) * sheet.tank_l;
  sheet.time = days::job_time(tree.tree, practice.phases);
  return sheet;
}

// The answer for the day asked for, else the best.
const days::DayAnswer* answer_for(const TreeReport& report, const std::optional<units::LocalDay>& day) {
  if (!day) return &report.answers[report.ranking.front().day];
  const auto found = std::find_if(report.answers.begin(), report.answers.end(), [&](const auto& answer) { return answer.date == *day; });
  return found == report.answers.end() ? nullptr : &*found;
}

std::optional<Sheet> with_day(const Common& common, const SheetRequest& request, Outcome& outcome) {
  const DaysReport report = days_report(common, {.weather = request.weather, .trees = request.trees, .only_tree = request.tree}, outcome);
  if (report.trees.empty()) return std::nullopt;
  const TreeReport& tree = report.trees.front();
  const days::DayAnswer* answer = answer_for(tree, request.day);
  if (answer == nullptr) {
    outcome.refuse({"--day", units::to_text(*request.day),
                    fmt::format("expected a day that the weather covers, {} to {}", units::to_text(tree.answers.front().date),
                                units::to_text(tree.answers.back().date))});
    return std::nullopt;
  }
  for (const std::string& note : tree.notes) outcome.warn(note);
  Sheet sheet = without_day(common.models, tree.tree);
  sheet.day = answer->date;
  sheet.answer = *answer;
  return sheet;
}

std::optional<Sheet> by_practice(const Common& common, const SheetRequest& request, Outcome& outcome) {
  const auto tree = one_tree(common, request.trees, request.tree, outcome);
  if (!tree) return std::nullopt;
  Sheet sheet = without_day(common.models, *tree);
  sheet.day = request.day;
  return sheet;
}

// What the book knows of a tree beyond a tree list.
struct OfBook {
  std::optional<book::FlareRecord> flare;  // its old ports; empty: nothing is known of the flare
  std::vector<std::string> place;
};

OfBook of_book(store::Book& book, const std::string& tree, const std::optional<book::Record>& job) {
  const auto record = book.find("tree", tree);
  if (!record) return {};
  const auto treatments = book.list("treatment", {.equal = {{"tree", tree}}});
  std::vector<book::Record> ports;
  for (const auto& treatment : treatments)
    for (auto& port : book.list("port", {.equal = {{"treatment", treatment.id}}})) ports.push_back(std::move(port));
  auto flare = book::flare_of_tree(*record, treatments, ports);
  const bool says_something = flare.flare_cm || !flare.old_ports.empty() || !flare.bad.empty() || !flare.ridges.empty();
  return {says_something ? std::optional{std::move(flare)} : std::nullopt, place_of_tree(book, *record, job)};
}

// A request for a job becomes one for its tree and day; false without one.
bool take_job(const std::optional<book::Record>& job, SheetRequest& request) {
  if (!job) return false;
  request.tree = job->text("tree");
  if (!request.day) request.day = job->day("day");
  return true;
}

units::Result<std::optional<book::FlareRecord>> known_flare(const SheetRequest& request, const OfBook& known) {
  if (request.ports.empty()) return known.flare;
  const auto content = read_file(request.ports);
  if (!content) return tl::make_unexpected(content.error());
  auto record = feeds::read_ports(request.ports.filename().string(), *content);
  if (!record) return tl::make_unexpected(record.error());
  return std::optional{std::move(*record)};
}

units::Result<void> lay_out_ports(const std::optional<book::FlareRecord>& flare, const book::PlaceRules& rules, Sheet& sheet) {
  auto plan = plan_ports(flare, sheet.ports, 100.0 * sheet.flare_circumference_m, rules);
  if (!plan) return tl::make_unexpected(plan.error());
  sheet.plan = std::move(*plan);
  sheet.flare_circumference_m = sheet.plan.flare_cm / 100.0;
  sheet.port_spacing_cm = sheet.plan.flare_cm / sheet.ports;
  return {};
}

}  // namespace

units::Result<Sheet> sheet_of_booking(store::Book& book, const Common& common, const TreeReport& tree, const book::Record& job) {
  OfBook known = of_book(book, tree.tree.row.tree, job);
  Sheet sheet = without_day(common.models, tree.tree);
  sheet.answer = tree.answers.front();
  sheet.day = sheet.answer->date;
  sheet.place = std::move(known.place);
  if (const auto laid = lay_out_ports(known.flare, common.models.port_places, sheet); !laid) return tl::make_unexpected(laid.error());
  return sheet;
}

std::vector<std::string> where_ports_go() {
  return {"On the ridges of the flare, not in the valleys between them.",
          "Away from old ports: move sideways first. Vessels run up and down, so a port above or below an old one needs far more distance "
          "than one beside it.",
          "Spread evenly around the whole flare; note each port's clockwise distance from the tag."};
}

std::vector<std::string> order_of_work(const Sheet& sheet, UnitSystem units) {
  return {"Check that utilities are marked. Dig out the flare, brush it clean.",
          fmt::format("Measure the flare and lay out the ports. Much off {}? The number of ports goes with it.",
                      words::length(sheet.flare_circumference_m, units)),
          "Fill and bleed the lines.",
          "Drill and seat section by section, so that no hole stands open.",
          "Pressure up on plain water; walk the ring and fix leaks. That water is not dose.",
          fmt::format("Mix the first tank{}. Valves open; note the time and the tank reading.",
                      sheet.tanks > 1 ? ", and each further one only if it is 9 in 10 sure to go in before shut-off" : ""),
          "Lines under pressure are attended. Read the tank every half hour.",
          fmt::format("Then {} of clean water, at the tree's own pace.", words::amount(sheet.flush_l, units)),
          "Valves shut, pressure off, tear down. Disinfect bits before the next tree.",
          "Record: mix taken, times, weather, ports, outcome (done, partial, not treated) and why."};
}

std::vector<std::string> things_to_bring(const Sheet& sheet, UnitSystem units) {
  return {fmt::format("{} ports and a few spare, lines and fittings for {} of flare.", sheet.ports,
                      words::length(sheet.flare_circumference_m, units)),
          fmt::format("Sharp bits of {}, depth stop at {}, disinfectant.", words::bit(sheet.hole_diameter_mm, units),
                      words::depth(sheet.hole_depth_mm, units)),
          "Pump rig, gauge, tank with marks, fuel; spade, brush, tape, tag, marker.",
          "Backflow preventer for any tap or hydrant; permission to draw.",
          "The product label, protective gear it asks for, spill kit, record sheet.",
          "Drinking water and shade for the crew."};
}

Outcome sheet_command(const Common& common, const SheetRequest& asked) {
  Outcome outcome;
  SheetRequest request = asked;
  OfBook known;
  if (request.trees.empty()) {
    auto book = open_book(common, NoBook::refuse, outcome);
    if (!book) return outcome;
    const auto job = request.job.empty() ? std::nullopt : find_job(*book, request.job, outcome);
    if (!request.job.empty() && !take_job(job, request)) return outcome;
    book->at_one_moment([&] { known = of_book(*book, request.tree, job); });
  }
  const auto flare = known_flare(request, known);
  if (!flare) return refused(flare.error());
  auto sheet = request.weather.files.empty() ? by_practice(common, request, outcome) : with_day(common, request, outcome);
  if (!sheet) return outcome;
  sheet->place = std::move(known.place);
  if (const auto laid = lay_out_ports(*flare, common.models.port_places, *sheet); !laid) return refused(laid.error());
  if (!request.page.empty())
    if (const auto written = write_file(request.page, sheet_page(*sheet, common.units)); !written) outcome.refuse(written.error());
  outcome.out = common.format == Format::json ? sheet_json(*sheet) : sheet_text(*sheet, common.units);
  return outcome;
}

}  // namespace app
