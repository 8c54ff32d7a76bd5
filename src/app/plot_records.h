// Soil-moisture records of many stations as one daily table, brought to what soil/plot.h computes with: a day's reference
// evapotranspiration from its extremes, spread over its hours.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "params/models.h"
#include "soil/plot.h"
#include "units/fault.h"
#include "units/time.h"

namespace app {

struct Station {
  std::string name;
  units::LocalDay first_day;
  soil::PlotRecord record;
};

// Columns station, date, latitude, tmax_c, tmin_c, precip_mm and swc_0_35, and where there are any rs_mj_m2_d, rhmax_pct and rhmin_pct;
// others are passed over. Empty cells, and numbers that cannot be weather, are missing: humidity then follows from the day's lowest
// temperature (FAO-56 eq. 48), radiation from its range (eq. 50). Wind is 2 m/s and pressure that of 300 m. Stations come in the order of
// the file, days of one rising; days left out are missing. Fault: a column missing, a cell that cannot be read, days that do not rise.
[[nodiscard]] units::Result<std::vector<Station>> read_plot_records(const std::string& name, std::string_view content);

// How the ground is come by: fitted to the station's own record; from the range that it showed and parameters common to all; or from a
// texture class alone, with the same cover.
enum class PlotFit { own, generic, texture };

// Content of each day that has none itself, but had one exactly seven days before and none between; by day of the record. Such days lie
// behind the stretch that was measured day by day, and the ground is known from that stretch alone: nothing is used that was not known a
// week before.
// `texture`: the class itself, or the one whose suctions stand at the marks that the range shows.
// Empty for a station whose record shows no range, which only a texture does without. Fault: an unknown texture, numbers that the balance
// refuses.
[[nodiscard]] units::Result<std::vector<std::optional<double>>> week_ahead(const params::Models& models, const Station& station,
                                                                           PlotFit fit, const std::string& texture = "loam");

// `station,date,swc_0_35`, one row a forecast.
[[nodiscard]] std::string week_ahead_csv(const Station& station, const std::vector<std::optional<double>>& theta);

}  // namespace app
