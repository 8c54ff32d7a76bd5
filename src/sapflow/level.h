// The level of a stand's flow from day to day: what is left when the weather is accounted for. It drifts within a season and starts anew
// with the next (sensors age, droughts leave marks): ln(level) is a normal process, known near measured days and vague far from them.
// docs/model/sapflow.md eqs. (6)-(7).
#pragma once
#include <span>
#include <vector>

#include "sapflow/hours.h"
#include "sapflow/parameters.h"

namespace sapflow {

// ln(level) of a day.
struct LnLevel {
  double mean = 0.0;
  double variance = 0.0;
};

class Level {
 public:
  // From the samples, in rising order of hours, and the flow that weather alone gives for every hour. Days with fewer than six samples, or
  // too little flow to tell, are passed over.
  Level(const Noise& noise, const Hours& hours, std::span<const Sample> samples, const std::vector<double>& flow);

  [[nodiscard]] LnLevel of(long solar_day) const;

 private:
  struct Day {
    long day;
    double ln_level;
    double variance;  // of the reading
  };
  struct Season {
    std::vector<Day> days;
    std::vector<double> weights;  // the inverse covariance of the readings times the readings
    std::vector<double> inverse;  // of their covariance, row by row
  };

  [[nodiscard]] double alike(long a, long b) const;
  [[nodiscard]] double season_variance() const;
  [[nodiscard]] Season solved(std::vector<Day> days) const;

  Noise noise_;
  std::vector<Season> seasons_;
};

}  // namespace sapflow
