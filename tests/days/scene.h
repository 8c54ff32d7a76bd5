// Trees and outlooks made by hand for the tests of days: an elm in a loam under days of a chosen kind. Invented, but of ordinary size.
#pragma once
#include <vector>

#include "days/day_answer.h"
#include "days/reference_day.h"
#include "support/shipped_models.h"
#include "uptake/subject.h"

namespace scene {

using namespace std::chrono_literals;

inline const units::Site site{units::Degrees{42.4}, units::Degrees{-76.5}, units::Metres{250}};
inline const days::Practice& practice() { return shipped::models().practice; }

// US Eastern time of 2026 by the federal rule: summer time from the second Sunday of March to the first of November, at 2 a.m.
inline units::ZoneOffsets eastern() {
  const auto at = [](std::chrono::year_month_day day, std::chrono::hours hour) {
    return units::UtcTime{std::chrono::sys_days{day} + hour};
  };
  return {"America/New_York", {{at(2026y / 1 / 1, 5h), -5h}, {at(2026y / 3 / 8, 7h), -4h}, {at(2026y / 11 / 1, 6h), -5h}}};
}

inline units::LocalDay date(std::chrono::year_month_day day) { return std::chrono::local_days{day}; }
inline const units::LocalDay july_14 = date(2026y / 7 / 14);

inline days::TreeCase elm(double dbh_cm, units::ZoneOffsets zone = eastern()) {
  const tree::Species species = shipped::species("american elm");
  const params::Models& m = shipped::models();
  uptake::Subject subject;
  subject.source = uptake::make_source(m.tree, m.ports, m.practice.set_up.flare_factor, species);
  subject.allometry = species.allometry;
  subject.measured.dbh = units::Centimetres{dbh_cm};
  subject.port_factor = species.port_factor;
  subject.port_spacing = units::Centimetres{m.practice.set_up.port_spacing_cm};
  subject.pressure = units::Megapascals{m.practice.set_up.pressure_kpa / 1000.0};
  subject.dose = units::Litres{m.practice.set_up.dose_l_per_cm * dbh_cm};
  subject.flush = m.practice.set_up.flush_share * subject.dose;
  return {subject, soil::RewCurve{shipped::texture("loam")}, site, std::move(zone), std::nullopt, false,
          units::Metres{m.soil.layer_bottoms_cm.back() / 100.0}};
}

// Overcast, cool and damp; rain is added by the hour.
inline days::DayKind damp() {
  days::DayKind kind = practice().good_day;
  kind.temp_low_c = 16.0;
  kind.temp_high_c = 19.0;
  kind.rh_at_high_pct = 95.0;
  kind.cloud_pct = 100.0;
  kind.rew = 1.0;
  return kind;
}

// `count` local days of one kind from the start of `first` on, and 48 hours behind them that are not known. Issued at the start.
inline days::Outlook outlook(const days::DayKind& kind, int count = 1, units::LocalDay first = july_14,
                             const units::ZoneOffsets& zone = eastern(), double rain_mm_h = 0.0) {
  days::Outlook o;
  const auto begins = std::chrono::floor<std::chrono::hours>(zone.start_of(first));
  o.first_label = begins + 1h;
  o.issued = begins;
  o.known =
      static_cast<std::size_t>(std::chrono::ceil<std::chrono::hours>(zone.start_of(first + std::chrono::days{count}) - begins).count());
  o.courses.push_back(days::day_of_kind(kind, site, begins, o.known + 48));
  for (uptake::HourWeather& hour : o.courses.front()) {
    hour.rain_mm = rain_mm_h;
    hour.reference_mm = rain_mm_h > 0.0 ? 0.0 : 0.0007 * hour.shortwave_w_m2;
  }
  o.signs.resize(o.known + 48);
  for (days::HourSigns& signs : o.signs) signs.cloud_pct = kind.cloud_pct;
  return o;
}

inline days::Outlook good_days(int count = 1) { return outlook(practice().good_day, count); }
inline days::Outlook rainy_days(int count = 1) { return outlook(damp(), count, july_14, eastern(), 2.0); }

inline days::Settings settings() { return {practice(), 64, 1}; }
// The same with one start only, so that two runs differ by what the test changes and not by when they begin.
inline days::Settings starting_at(double clock_h) {
  days::Settings s = settings();
  s.practice.day.earliest_start_h = s.practice.day.latest_start_h = clock_h;
  return s;
}

inline uptake::Ensemble ensemble(const days::TreeCase& tree, std::size_t draws = 256, std::uint64_t seed = 1) {
  return {tree.subject, tree.curve, uptake::sample_draws(tree.subject.source, draws, seed), draws};
}

// All days from the beginning of the outlook on.
inline std::vector<days::DayAnswer> answers(const days::TreeCase& tree, const days::Outlook& outlook, const days::Settings& settings,
                                            std::size_t draws = 256) {
  auto drawn = ensemble(tree, draws, settings.seed);
  return days::answer_days(tree, outlook, drawn, settings, outlook.begins(0));
}
inline days::DayAnswer answer(const days::TreeCase& tree, const days::Outlook& outlook, const days::Settings& settings,
                              std::size_t draws = 256) {
  return answers(tree, outlook, settings, draws).front();
}

// Hours since the local midnight that a day began with.
inline double clock_h(const days::TreeCase& tree, units::UtcTime instant) {
  const auto wall = tree.zone.to_local(instant);
  return std::chrono::duration<double, std::ratio<3600>>(wall - std::chrono::floor<std::chrono::days>(wall)).count();
}

}  // namespace scene
