#include "weather/gaps.h"

#include <algorithm>

namespace weather {
namespace {

// Missing hours [begin, end) between two hours that have a value.
struct Run {
  std::size_t begin, end;
};

std::vector<Run> holes(const Column& column) {
  std::vector<Run> runs;
  std::size_t last_with_value = column.size();
  for (std::size_t hour = 0; hour < column.size(); ++hour) {
    if (!column.has(hour)) continue;
    if (last_with_value < hour && hour - last_with_value > 1) runs.push_back({last_with_value + 1, hour});
    last_with_value = hour;
  }
  return runs;
}

bool of_a_model(Provenance p) { return p == Provenance::forecast || p == Provenance::analysed; }

bool is_short(const Column& column, const Run& run, const GapRules& rules) {
  const bool model = of_a_model(column.provenance(run.begin - 1)) && of_a_model(column.provenance(run.end));
  const auto longest = (model ? rules.model : rules.observed).count();
  return static_cast<long>(run.end - run.begin) <= longest;
}

void bridge(Column& column, const Run& run) {
  const double before = *column.at(run.begin - 1);
  const double after = *column.at(run.end);
  const auto steps = static_cast<double>(run.end - run.begin + 1);
  for (std::size_t hour = run.begin; hour < run.end; ++hour) {
    const double share = static_cast<double>(hour - run.begin + 1) / steps;
    column.set(hour, before + share * (after - before), Provenance::filled);
  }
}

bool may_be_bridged(HourConvention convention) {
  return convention == HourConvention::instant || convention == HourConvention::mean_of_preceding_hour;
}

}  // namespace

std::vector<Gap> bridge_gaps(Series& series, const GapRules& rules) {
  std::vector<Gap> stay;
  for (std::size_t v = 0; v < variable_count; ++v) {
    const auto variable = static_cast<Variable>(v);
    Column& column = series[variable];
    for (const Run& run : holes(column)) {
      if (may_be_bridged(traits(variable).convention) && is_short(column, run, rules))
        bridge(column, run);
      else
        stay.push_back(
            {variable, series.label(run.begin), series.label(run.end - 1), std::chrono::hours{static_cast<long>(run.end - run.begin)}});
    }
  }
  for (SoilLayer& layer : series.soil)
    for (Column* column : {&layer.moisture_m3_m3, &layer.temperature_c})
      for (const Run& run : holes(*column))
        if (is_short(*column, run, rules)) bridge(*column, run);
  return stay;
}

}  // namespace weather
