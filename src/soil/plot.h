// Open ground whose water content is on record: its texture is unknown, but the record has shown between which contents it swings.
// From that range and a few numbers of the ground follows a root zone of the one water balance (soil/water_balance.h).
// docs/model/soil.md, "Ground on record".
#pragma once
#include <optional>
#include <vector>

#include "soil/root_zone.h"
#include "soil/water_balance.h"
#include "units/fault.h"
#include "units/uncertain.h"

namespace soil {

// What a record decides about its ground: as values (Plot) or as what is known beforehand (PlotPriors).
template <class T>
struct PlotOf {
  T kcb{};                 // basal crop coefficient of the cover (FAO-56)
  T exposed{};             // share of the ground bare and sunlit (FAO-56 "few")
  T depletion_share_p{};   // share of available water taken without stress
  T wilting_share{};       // wilting content over the driest content shown
  T capacity_share{};      // where field capacity lies in the range shown, 0 driest .. 1 wettest
  T capacity_flux_mm_d{};  // conductivity at field capacity: how slowly the ground drains
};
using Plot = PlotOf<double>;
using PlotPriors = PlotOf<units::Uncertain>;

struct PlotParameters {
  PlotPriors priors;
  double driest_quantile = 0.0, wettest_quantile = 0.0;  // of the contents on record, that bound the range shown, 0..1
  double residual_share = 0.0;                           // residual content over wilting content, 0..0.95
  double root_beta = 0.0, compensation = 0.0;            // as in soil/parameters.h, of the cover
  double settled_rew_sd = 0.0, memory_h = 0.0, correlation_cm = 0.0;
  double measured_sd_m3_m3 = 0.0;  // of a day's measured mean as a statement about the layer
  double forecast_sd = 0.0;        // of a forecast's error, in units of the range shown
  double days_alike = 0.0;         // days in a row that err together: they count as one
  double lead_days = 0.0;          // of the forecasts that the fit tries
  double run_days = 0.0;           // of the record before the first forecast that the balance runs through
};

struct ShownRange {
  double driest = 0.0, wettest = 0.0, highest = 0.0;  // m3/m3; `highest`: of all on record, where the ground is full
};

// A record of whole days: the hours of the weather, 24 a day, and the mean content of the layer from the surface to `bottom_cm` on days
// that have one.
struct PlotRecord {
  Forcing forcing;
  std::vector<std::optional<double>> theta;
  double bottom_cm = 0.0;

  [[nodiscard]] std::size_t days() const { return theta.size(); }
};

// Empty where fewer than 30 of the first `until` days are on record, or the range is narrower than 0.01 m3/m3.
[[nodiscard]] std::optional<ShownRange> shown_range(const PlotParameters& parameters, const PlotRecord& record, std::size_t until);

// The texture that holds water as `like` does at field capacity and wilting, at the contents that the range says.
[[nodiscard]] Texture texture_of(const PlotParameters& parameters, const Texture& like, const ShownRange& range, const Plot& plot);

// Of the layer on record and the ground below it.
[[nodiscard]] units::Result<RootZone> root_zone_of(const Parameters& trees, const PlotParameters& parameters, const Texture& texture,
                                                   const Plot& plot, double bottom_cm);

// The median of every prior: what is believed of ground without a record.
[[nodiscard]] Plot before_record(const PlotPriors& priors);

// Runs the days `from`..`until` of the record, correcting the state on every day that `believed` names (one entry a day), and gives the
// mean content of each day. The first day with a content starts the run; days before it are empty.
[[nodiscard]] units::Result<std::vector<std::optional<double>>> follow(const RootZone& zone, const PlotParameters& parameters,
                                                                       const PlotRecord& record, const std::vector<bool>& believed,
                                                                       std::size_t from, std::size_t until);

}  // namespace soil
