#include "days/outlook.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "days/scene.h"
#include "support/within.h"

using days::Course;
using days::Outlook;
using days::Reach;
using weather::Provenance;
using weather::Series;
using weather::Variable;
using namespace std::chrono_literals;

namespace {

const units::UtcHour first_label{std::chrono::sys_days{2026y / 7 / 14} + 5h};  // the hour from midnight to 1 a.m.

// Days warmest at 15, swinging `swing_c` to either side, cloud in every hour unless taken out.
Series series(std::size_t hours, double swing_c = 6.0, bool cloud = true) {
  Series s(first_label, hours);
  for (std::size_t h = 0; h < hours; ++h) {
    const double clock = static_cast<double>((h + 1) % 24);
    s[Variable::temperature].set(h, 22.0 + swing_c * std::cos(std::numbers::pi / 12.0 * (clock - 15.0)), Provenance::forecast);
    s[Variable::dew_point].set(h, 10.0 + 0.01 * static_cast<double>(h), Provenance::forecast);
    if (cloud) s[Variable::cloud].set(h, 40.0, Provenance::forecast);
  }
  return s;
}

soil::Hours soil_hours(std::size_t hours) {
  soil::Hours soil;
  for (std::size_t h = 0; h < hours; ++h) {
    const auto x = static_cast<double>(h);
    soil.rew.push_back(0.9 - 0.001 * x);
    soil.rew_sd.push_back(0.05);
    soil.temp_c.push_back(18.0 + 0.01 * x);
    soil.saturated_h.push_back(0.5 * x);
    soil.rain_mm.push_back(0.1 * x);
  }
  return soil;
}

// One tree's weather by its series: air and soil made of it.
struct Made {
  Series series;
  air::AirHours air;
  soil::Hours soil;
  explicit Made(Series s) : series(std::move(s)), air(air::complete(series, scene::site)), soil(soil_hours(series.hours())) {}
};

Outlook together(const std::vector<const Made*>& made, std::size_t extra_h = 48, days::Leaves leaves = {}) {
  std::vector<Course> courses;
  for (const Made* m : made) courses.push_back({&m->air, &m->soil, &m->series});
  if (leaves.out.empty()) leaves.out.assign(made.front()->series.hours(), 1.0);
  return days::bring_together(courses, leaves, scene::site, {first_label, first_label, extra_h});
}

void leave_out(Series& s, Variable variable, std::size_t from, std::size_t until) {
  weather::Column kept(s.hours());
  for (std::size_t h = 0; h < s.hours(); ++h)
    if (s[variable].has(h) && (h < from || h >= until)) kept.set(h, *s.at(variable, h), Provenance::forecast);
  s[variable] = kept;
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("temperature and dew point of an hour are the means of its ends, fluxes and soil those of its label") {
    const Made made{series(72)};
    const Outlook outlook = together({&made});
    REQUIRE(outlook.courses.size() == 1);
    CHECK(outlook.shifted);
    CHECK(outlook.known == 72);
    CHECK(outlook.begins(0) == first_label - 1h);
    const auto& hours = outlook.courses.front();
    for (std::size_t h = 1; h < 72; ++h) {
      CHECK(hours[h].temp_c == within(0.5 * (*made.air.temp_c.at(h - 1) + *made.air.temp_c.at(h)), 1e-12));
      CHECK(hours[h].dew_point_c == within(0.5 * (*made.air.dew_point_c.at(h - 1) + *made.air.dew_point_c.at(h)), 1e-12));
      CHECK(hours[h].shortwave_w_m2 == *made.air.shortwave_w_m2.at(h));
      CHECK(hours[h].clear_sky_w_m2 == *made.air.clear_sky_w_m2.at(h));
      CHECK(hours[h].reference_mm == *made.air.et0_asce_short_mm_h.at(h));
      CHECK(hours[h].pressure_kpa == *made.air.pressure_kpa.at(h));
      CHECK(hours[h].rain_mm == made.soil.rain_mm[h]);
      CHECK(hours[h].rew == made.soil.rew[h]);
      CHECK(hours[h].rew_sd == made.soil.rew_sd[h]);
      CHECK(hours[h].soil_temp_c == made.soil.temp_c[h]);
      CHECK(hours[h].saturated_h == made.soil.saturated_h[h]);
    }
    // Nothing is known of the instant at which the first hour begins.
    CHECK(hours[0].temp_c == *made.air.temp_c.at(0));
  }

  TEST_CASE("hours in front of the first and behind the last with temperature and humidity are cut") {
    Series s = series(72);
    leave_out(s, Variable::temperature, 0, 3);
    leave_out(s, Variable::dew_point, 67, 72);
    const Made made{s};
    const Outlook outlook = together({&made}, 30);
    CHECK(outlook.known == 64);
    CHECK(outlook.hours() == 94);
    CHECK(outlook.courses.front().size() == 94);
    CHECK(outlook.first_label == first_label + 3h);
    CHECK(outlook.courses.front()[0].rew == made.soil.rew[3]);
    CHECK(outlook.courses.front()[63].rew == made.soil.rew[66]);
  }

  TEST_CASE("a hole in the past borrows the air of the day before, and a hole to come ends the outlook") {
    Series holed = series(96);
    for (const Variable v : {Variable::temperature, Variable::dew_point}) leave_out(holed, v, 30, 34);
    const Made made{holed};
    const Outlook past = days::bring_together(std::vector<Course>{{&made.air, &made.soil, &made.series}}, {std::vector<double>(96, 1.0)},
                                              scene::site, {first_label + 48h, first_label + 48h, 0});
    REQUIRE(past.known == 96);
    CHECK(past.courses[0][31].temp_c == past.courses[0][7].temp_c);
    CHECK(past.courses[0][31].rain_mm == made.soil.rain_mm[31]);
    CHECK(past.courses[0][34].temp_c != past.courses[0][10].temp_c);
    REQUIRE(past.notes.size() == 1);
    CHECK(past.notes[0].ends_with(": 4 h"));
    CHECK(together({&made}, 0).known == 30);
  }

  TEST_CASE("members count only where all of them have weather, and are not shifted") {
    Series shorter = series(72, 4.0);
    leave_out(shorter, Variable::temperature, 60, 72);
    const Made control{series(72)}, member{shorter};
    const Outlook outlook = together({&control, &member}, 0);
    CHECK_FALSE(outlook.shifted);
    CHECK(outlook.known == 60);
    REQUIRE(outlook.courses.size() == 2);
    CHECK(outlook.courses[1].size() == 60);
    CHECK(outlook.courses[1][20].temp_c != outlook.courses[0][20].temp_c);
  }

  TEST_CASE("services stand side by side, each with what it says of rain, and forecast error goes on top of each") {
    Series wet = series(72), dry = series(72, 4.0);
    for (std::size_t hour = 0; hour < 72; ++hour)
      for (Series* each : {&wet, &dry}) (*each)[Variable::rain].set(hour, 0.0, weather::Provenance::forecast);
    dry[Variable::rain_chance] = weather::Column(72);
    dry[Variable::rain_chance].set(20, 5.0, weather::Provenance::forecast);
    leave_out(dry, Variable::rain, 30, 72);
    const Made first{wet}, second{dry};
    std::vector<Course> courses{{&first.air, &first.soil, &first.series}, {&second.air, &second.soil, &second.series}};
    Reach reach{first_label, first_label, 24};
    reach.services = true;
    const days::Leaves leaves{std::vector<double>(72, 1.0)};
    const Outlook outlook = days::bring_together(courses, leaves, scene::site, reach);
    CHECK(outlook.shifted);
    REQUIRE(outlook.rain_said.size() == 2);
    CHECK(outlook.rain_said[1].size() == outlook.hours());
    CHECK(outlook.rain_said[1][20].chance_pct == 5.0);
    CHECK_FALSE(outlook.rain_said[1][40].known);
    CHECK(outlook.rain_said[0][40].known);
    // One service alone is told by the outlook's own signs.
    courses.pop_back();
    CHECK(days::bring_together(courses, leaves, scene::site, reach).rain_said.empty());
  }

  TEST_CASE("the last known day is repeated behind the forecast") {
    Series s = series(72);
    s[Variable::gust].set(60, 17.0, Provenance::forecast);
    const Made made{s};
    const Outlook outlook = together({&made}, 48);
    for (std::size_t h = 72; h < 120; ++h) {
      CHECK(outlook.courses.front()[h].temp_c == outlook.courses.front()[h - 24].temp_c);
      CHECK(outlook.courses.front()[h].rew == outlook.courses.front()[h - 24].rew);
      CHECK(outlook.signs[h].gust_m_s == outlook.signs[h - 24].gust_m_s);
    }
    CHECK(outlook.signs[108].gust_m_s == 17.0);
  }

  TEST_CASE("less than a day of weather is repeated as it is, and none at all leaves no hours") {
    const Made few{series(5)};
    const Outlook outlook = together({&few}, 12);
    CHECK(outlook.hours() == 17);
    CHECK(outlook.courses.front()[11].temp_c == outlook.courses.front()[1].temp_c);

    // Temperature in one half and humidity in the other: both columns hold something, and no hour is of use.
    Series halves = series(10);
    leave_out(halves, Variable::temperature, 0, 5);
    leave_out(halves, Variable::dew_point, 5, 10);
    const Made none{halves};
    const Outlook empty = together({&none}, 48);
    CHECK(empty.known == 0);
    CHECK(empty.hours() == 0);
    const days::TreeCase tree = scene::elm(60);
    auto drawn = scene::ensemble(tree, 8);
    CHECK(days::answer_days(tree, empty, drawn, scene::settings(), first_label).empty());
  }

  TEST_CASE("without sun and cloud the range of temperature speaks for the sky") {
    const Made wide{series(72, 6.0, false)}, narrow{series(72, 1.5, false)}, huge{series(72, 12.0, false)};
    const Outlook outlook = together({&wide});
    // FAO-56 eq. 50 over eq. 37: 0.16 sqrt(12) Ra over (0.75 + 2e-5 x 250) Ra.
    const auto& noon = outlook.courses.front()[36];
    CHECK(noon.shortwave_w_m2 / noon.clear_sky_w_m2 == within(0.16 * std::sqrt(12.0) / 0.755, 1e-9));
    const auto& dull = together({&narrow}).courses.front()[36];
    CHECK(dull.shortwave_w_m2 / dull.clear_sky_w_m2 == within(0.16 * std::sqrt(3.0) / 0.755, 1e-9));
    // A range that asks for more than a clear sky gets that.
    const auto& clear = together({&huge}).courses.front()[36];
    CHECK(clear.shortwave_w_m2 == clear.clear_sky_w_m2);
    CHECK(outlook.courses.front()[24].shortwave_w_m2 == 0.0);
    // A past without a sky is not news.
    const Reach after{wide.air.label(71), first_label, 0};
    CHECK(
        days::bring_together(std::vector<Course>{{&wide.air, &wide.soil, &wide.series}}, {std::vector<double>(72, 1.0)}, scene::site, after)
            .notes.empty());
  }

  TEST_CASE("a thin crown is fewer leaves to the tree and no hold, a bare calendar is both") {
    const Made made{series(48)};
    const Outlook outlook = together({&made}, 0, {std::vector<double>(48, 0.9), 0.6});
    CHECK(outlook.courses.front()[20].leaf_share == within(0.54, 1e-12));
    CHECK(outlook.signs[20].leaves_out == 0.9);
  }

  TEST_CASE("what stops work is taken from the control run, and rain that nobody forecasts is not known") {
    Series s = series(48);
    s[Variable::gust].set(7, 13.0, Provenance::forecast);
    s[Variable::thunder_chance].set(8, 60.0, Provenance::forecast);
    s[Variable::rain].set(9, 0.0, Provenance::forecast);
    s[Variable::rain_chance].set(9, 35.0, Provenance::forecast);
    const Made control{s}, member{series(48)};
    const Outlook outlook = together({&control, &member}, 0);
    CHECK(outlook.signs[7].gust_m_s == 13.0);
    CHECK_FALSE(outlook.signs[8].gust_m_s);
    CHECK(outlook.signs[8].thunder_pct == 60.0);
    CHECK(outlook.signs[8].cloud_pct == 40.0);
    CHECK(outlook.signs[9].rain_known);
    CHECK_FALSE(outlook.signs[10].rain_known);
    CHECK(outlook.signs[9].rain_chance_pct == 35.0);
    CHECK_FALSE(outlook.signs[10].rain_chance_pct);
  }

  TEST_CASE("an instant lies in the hour that has begun and not yet ended") {
    const Outlook outlook = scene::good_days();
    CHECK(outlook.hour_at(outlook.begins(0)) == 0);
    CHECK(outlook.hour_at(outlook.begins(7) + 59min) == 7);
    CHECK(outlook.hour_at(outlook.begins(8)) == 8);
    CHECK_FALSE(outlook.hour_at(outlook.begins(0) - 1s));
    CHECK(outlook.hour_at(outlook.begins(outlook.hours()) - 1s) == outlook.hours() - 1);
    CHECK_FALSE(outlook.hour_at(outlook.begins(outlook.hours())));
  }
}
