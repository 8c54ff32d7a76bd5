#include "sapflow/predict.h"

#include <algorithm>
#include <map>

#include "sapflow/fit.h"
#include "sapflow/level.h"

namespace sapflow {
namespace {

constexpr int folds = 4;

// Every sample, predicted by what the other three quarters of the record taught.
std::vector<Miss> misses(const tree::Stomata& stomata, const Parameters& parameters, const Form& form, const Hours& hours,
                         std::span<const Sample> samples, const Demand& start) {
  constexpr std::size_t hours_for_weeks = 600;
  // Blocks are counted, not dated: a record that gives every other week must not put all of them into two folds.
  std::map<long, int> fold_of_block;
  const long block_days = samples.size() > hours_for_weeks ? 7 : 2;
  for (const Sample& sample : samples)
    fold_of_block.try_emplace(hours.solar_day[sample.hour] / block_days, static_cast<int>(fold_of_block.size()) % folds);
  std::vector<Miss> all;
  for (int fold = 0; fold < folds; ++fold) {
    std::vector<Sample> seen, unseen;
    for (const Sample& sample : samples)
      (fold_of_block.at(hours.solar_day[sample.hour] / block_days) == fold ? unseen : seen).push_back(sample);
    const Demand demand = fit(stomata, parameters, form, hours, seen, start);
    const std::vector<double> flow = flow_of(stomata, parameters, form, hours, demand);
    const Level level{parameters.noise, hours, seen, flow};
    for (const Sample& sample : unseen) {
      const LnLevel ln = level.of(hours.solar_day[sample.hour]);
      all.push_back({flow[sample.hour], sample.flow, ln.mean, ln.variance});
    }
  }
  return all;
}

}  // namespace

Prediction predict(const tree::Stomata& stomata, const Parameters& parameters, const Form& form, const Hours& hours,
                   std::span<const Sample> samples) {
  Prediction prediction;
  prediction.demand = fit(stomata, parameters, form, hours, samples, before_record(parameters.priors));
  const std::vector<double> flow = flow_of(stomata, parameters, form, hours, prediction.demand);
  const Level level{parameters.noise, hours, samples, flow};
  const Spread spread{misses(stomata, parameters, form, hours, samples, prediction.demand), parameters.noise.hours_alike};
  std::map<long, LnLevel> by_day;
  prediction.hours.resize(hours.size());
  for (std::size_t h = 0; h < hours.size(); ++h) {
    if (!hours.known[h]) continue;
    const long day = hours.solar_day[h];
    const auto known = by_day.find(day);
    const LnLevel ln = known != by_day.end() ? known->second : by_day.emplace(day, level.of(day)).first->second;
    prediction.hours[h] = spread.around(flow[h], ln.mean, ln.variance);
  }
  return prediction;
}

}  // namespace sapflow
