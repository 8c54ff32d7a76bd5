// How a crew works and what an owner allows, filled from models/practice.json, models/holds.json and models/weather-error.json.
// All of these may be overridden by the owner; none is a recommendation of a product or a rate of active ingredient.
#pragma once
#include <vector>

#include "units/uncertain.h"
#include "uptake/readings.h"

namespace days {

// Set-up of the ports and the dose when the label figure and the sheet of this tree say nothing else.
struct SetUp {
  double dose_l_per_cm = 0.0;     // mix per trunk diameter; a sheet without the owner's own label figure prints DRAFT
  double flush_share = 0.0;       // clean water after the mix, as a share of the dose
  double port_spacing_cm = 0.0;   // along the flare
  units::Uncertain flare_factor;  // flare circumference over trunk circumference
  double pressure_kpa = 0.0;
  double tank_l = 0.0;
  double tank_sure = 0.0;  // a tank is mixed only if this sure to go in before shut-off
};

// Hours of work on site before valves open and after they are shut; per port where the work is per port.
struct Phases {
  double dig_h = 0.0;
  double dig_h_per_m = 0.0;  // per metre of flare circumference
  double layout_h = 0.0;
  double drill_h_per_port = 0.0;
  double leak_check_h = 0.0;
  double mix_h_per_tank = 0.0;
  double tear_down_h = 0.0;
  double tear_down_h_per_port = 0.0;
  double ln_sd = 0.0;  // spread of a crew's pace
};

struct WorkDay {
  double earliest_start_h = 0.0;  // local clock, arrival on site
  double latest_start_h = 0.0;
  double off_site_h = 0.0;  // local clock; a tree's own leave_by wins
  double start_step_h = 0.0;
};

struct Decision {
  double go_chance = 0.0;
  double tight_chance = 0.0;
  double return_cost_h = 0.0;     // crew hours that a job not finished costs
  double tie_sureness = 0.0;      // days tie unless the cheaper is this sure to be so...
  double tie_least_h = 0.0;       // ...and they differ by this
  double worth_waiting_h = 0.0;   // crew hours that a fresher forecast must be worth
  double decide_h = 0.0;          // local clock of the evening before, when a day is booked at the latest
  double fresh_forecast_h = 0.0;  // how old the newest forecast may be at that hour
  double reserve_sureness = 0.0;   // a plan keeps so much time for a job that it suffices this often
  double oldest_forecast_h = 0.0;  // from this age on a forecast supports no GO
};

// Limits that stop work by the hour, whatever the tree takes.
struct HoldLimits {
  double gust_m_s = 0.0;
  double heat_c = 0.0;
  double heat_warned_c = 0.0;     // under a warning of heat, already from here on
  double soil_cold_c = 0.0;
  double thunder_pct = 0.0;       // chance from which an hour counts as thundery
  double thunder_clear_h = 0.0;   // after the last thunder
  double standing_water_h = 0.0;  // hours of saturated soil from which holes stand in water
  double leaf_share = 0.0;        // leaves count as out from this share of full leaf
  double wet_crown_share = 0.0;   // wet share of the crown that counts as wet
  double wet_day_h = 0.0;         // hours of daylight with a wet crown that spoil a day
};

// A figure of a forecast that changes with its lead; between the days given linear, outside them flat.
struct ByLead {
  std::vector<double> lead_d;
  std::vector<double> value;
};

struct WeatherError {
  ByLead temperature_sd_c;
  double dew_point_correlation = 0.0;  // of its error with temperature's
  ByLead cloud_sd_pct;
  double cloud_usual_pct = 0.0;   // the sky's climate, reached by...
  double cloud_usual_by_d = 0.0;  // ...this lead, from the last of cloud_sd_pct on
  double day_to_day = 0.0;        // correlation of errors one day apart
  // Of rain in an hour: given that an amount is forecast without a chance, given that none is, and where nothing is forecast.
  ByLead rain_hit, rain_missed;
  double rain_usual = 0.0;
  double rain_least_chance = 0.0;  // of an hour with a forecast amount, whatever the chance beside it
  double rain_hour_mm = 0.0;       // of an hour that rains though no amount is forecast
  double rain_ln_sd = 0.0;         // of an amount
  double rain_with_cloud = 0.0;    // correlation of what decides on rain with cloud's error
  ByLead rain_unresolved;          // share of the standard deviation of rain or no rain that the chance of rain leaves
};

// One kind of day, of no year: temperature runs as a cosine with its top three hours after solar noon, the air's water stays the
// same all day.
struct DayKind {
  double temp_low_c = 0.0, temp_high_c = 0.0;
  double rh_at_high_pct = 0.0;  // sets the day's dew point
  double cloud_pct = 0.0;
  double rew = 0.0;
  double soil_temp_c = 0.0;
};

// What is worth telling a crew, and what is tried.
struct AdviceLimits {
  double worth_h = 0.0;           // hours from which a reason or an advice is worth saying
  double worth_chance = 0.0;      // gain in the chance below which a better verdict is chance itself
  double wetted_share = 0.0;      // of a crown that sprinklers wet
  double soak_mm = 0.0;           // water of a soaking that reaches the roots
  double soak_days_before = 0.0;  // whole days
  double window_reach_h = 0.0;    // how far outside the allowed hours an arrival is looked at
};

// How a tank is read at the tree, and what its readings are held to.
struct TankReadings {
  uptake::ReadingError error;
  double rate_over_h = 0.0;  // a rate is seen over at least this long: closer readings tell mostly the tank's marks
};

struct Practice {
  SetUp set_up;
  Phases phases;
  WorkDay day;
  Decision decision;
  HoldLimits holds;
  WeatherError weather_error;
  DayKind good_day;  // what crews call a good day; reasons are told against it
  AdviceLimits advice;
  TankReadings readings;
};

}  // namespace days
