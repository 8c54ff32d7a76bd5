// The set-up sheet that a person takes to the truck: tree, dose, ports, water, time, order of work.
// It holds what the owner's practice and the tree list say; it never recommends a product or a rate of active ingredient.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/days_report.h"
#include "app/outcome.h"
#include "app/port_plan.h"
#include "app/request.h"
#include "app/tree_case.h"
#include "days/day_answer.h"
#include "days/job_time.h"
#include "store/book.h"

namespace app {

struct SheetRequest {
  WeatherRequest weather;  // without a file: a sheet without clock times
  std::filesystem::path trees;
  std::string tree;
  std::string job;                     // of the book, in place of `tree`: its day, unless another is asked for
  std::optional<units::LocalDay> day;  // without it, with weather: the best day ahead
  std::filesystem::path ports;         // a list of old ports (feeds/ports_csv.h); empty: those of the book, where the tree is of the book
  std::filesystem::path page;          // where the printable page goes; empty: nowhere
};

struct Sheet {
  TreeInFull tree;
  bool draft = true;  // the dose is not from the tree list, so not the owner's figure for this tree's label
  int ports = 0;
  double port_spacing_cm = 0.0;
  double hole_diameter_mm = 0.0, hole_depth_mm = 0.0;
  double pressure_kpa = 0.0;
  double trunk_circumference_m = 0.0, flare_circumference_m = 0.0;
  double dose_l = 0.0, flush_l = 0.0;
  double tank_l = 0.0;
  int tanks = 0;
  double last_tank_l = 0.0;
  days::JobTime time = {};
  std::optional<units::LocalDay> day = {};
  std::optional<days::DayAnswer> answer = {};  // of `day`
  std::vector<std::string> place = {};         // of a tree of the book: where to drive, to whom (app/sheet_place.h)
  PortPlan plan = {};                          // `flare_circumference_m` and `port_spacing_cm` are of its flare
};

// Exit 3: the tree, the weather or the list of old ports refused, no answer for the day asked for, no page written.
[[nodiscard]] Outcome sheet_command(const Common& common, const SheetRequest& request);

// The sheet of a booking: `tree` is its answer for the booked day. With place and old ports of the book. Fault: no ring of ports fits the
// flare.
[[nodiscard]] units::Result<Sheet> sheet_of_booking(store::Book& book, const Common& common, const TreeReport& tree,
                                                    const book::Record& job);

// At most 100 columns.
[[nodiscard]] std::string sheet_text(const Sheet& sheet, UnitSystem units);
// SI, in its sentences too.
[[nodiscard]] std::string sheet_json(const Sheet& sheet);

// A page or two of HTML for print, on Letter or A4: the same with the flare drawn, the places of the ports and room to write.
[[nodiscard]] std::string sheet_page(const Sheet& sheet, UnitSystem units);

// What all faces print: sentences in the order of the work.
[[nodiscard]] std::vector<std::string> where_ports_go();
[[nodiscard]] std::vector<std::string> order_of_work(const Sheet& sheet, UnitSystem units);
[[nodiscard]] std::vector<std::string> things_to_bring(const Sheet& sheet, UnitSystem units);

}  // namespace app
