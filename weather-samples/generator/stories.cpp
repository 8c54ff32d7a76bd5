#include "generator/stories.h"

#include <algorithm>

#include "generator/climate.h"
#include "generator/random.h"

namespace samples {
namespace {

using std::chrono::April;
using std::chrono::hours;
using std::chrono::July;
using std::chrono::June;

constexpr int past_days = 61;

constexpr Ground loam{0.12, 0.28, 0.44, 0.85, 1.6};
constexpr Ground sand{0.04, 0.11, 0.40, 0.9, 2.5};
constexpr Ground clay{0.25, 0.40, 0.47, 1.0, 0.12};

Place thornby_mills() { return {"Thornby Mills", 43.7012, -91.9034, 322, -5, loam}; }

UtcHour midnight(std::chrono::year_month_day date) { return std::chrono::sys_days{date}; }

// `told` are the days from today on; before them come weeks of `climate`, whose last days `told_past` replaces.
Story story(const Place& place, std::chrono::year_month_day today, int now_utc_h, const Climate& climate, std::uint64_t seed,
            const std::vector<Day>& told_past, const std::vector<Day>& told) {
  Story made{place, midnight(today) - hours{24 * past_days}, midnight(today) + hours{now_utc_h}, {}, seed};
  made.days = ordinary_days(climate, past_days + 1 - static_cast<int>(told_past.size()), seed);
  made.days.insert(made.days.end(), told_past.begin(), told_past.end());
  made.days.insert(made.days.end(), told.begin(), told.end());
  return made;
}

std::vector<Day> repeated(Day day, int count, std::uint64_t seed) {
  std::vector<Day> days;
  for (int k = 0; k < count; ++k) {
    const double shift_c = 0.8 * normal(seed, 99, static_cast<std::uint64_t>(k));
    Day next = day;
    next.low_c += 0.6 * shift_c;
    next.high_c += shift_c;
    next.dew_c += 0.5 * shift_c;
    days.push_back(next);
  }
  return days;
}

std::vector<Day> joined(std::vector<Day> first, const std::vector<Day>& second) {
  first.insert(first.end(), second.begin(), second.end());
  return first;
}

}  // namespace

Story demo_fortnight() {
  const Climate upper_midwest{18, 28, 12.5, 13.5, 0.33, 10, 3.2};
  const std::vector<Day> last_week{
      {16, 28.5, 15.5, {20, 30, 45, 30}, 3.0, 1014},
      {18, 27, 18, {60, 80, 85, 70}, 3.5, 1009, {{13, 8, 27}}},
      {16.5, 24, 16.5, {80, 75, 60, 40}, 3.2, 1011, {{4, 5, 8}}},
      {14, 25.5, 13.5, {25, 35, 45, 20}, 2.8, 1016},
      {14, 26.5, 14, {15, 25, 40, 15}, 2.4, 1018},
  };
  const std::vector<Day> from_monday{
      {15, 27, 15, {15, 30, 50, 25}, 2.5, 1018},                               // Mon 6: fair
      {14.5, 29, 13.3, {5, 5, 10, 5}, 2.3, 1021},                              // Tue 7: clear and dry
      {15, 28.5, 12.3, {3, 5, 8, 10}, 2.5, 1020},                              // Wed 8: the same
      {18, 30, 20, {25, 35, 75, 80}, 3.2, 1012, {{15, 3, 14, true}}},          // Thu 9: muggy, thunder from three
      {17.5, 20, 17.3, {95, 100, 100, 95}, 3.6, 1006, {{3, 15, 26}}},          // Fri 10: steady rain
      {15.5, 19, 15.3, {95, 97, 95, 85}, 3.8, 1009, {{6, 4, 3}, {13, 5, 6}}},  // Sat 11: showers
      {16.5, 22, 18.2, {95, 100, 97, 90}, 1.6, 1014, {{5, 2, 0.5}}},           // Sun 12: humid overcast
      {14.5, 25.5, 14, {50, 35, 30, 10}, 2.6, 1019},                           // Mon 13: clearing
      {15, 26, 13, {20, 40, 55, 35}, 8.2, 1010},                               // Tue 14: windy
      {13.5, 28, 12.8, {8, 5, 10, 5}, 2.4, 1020},                              // Wed 15: clear and dry
      {19, 33, 18.5, {10, 15, 30, 20}, 3.4, 1014},                             // Thu 16: warming up
      {22.5, 36, 18, {15, 10, 20, 25}, 3.6, 1011},                             // Fri 17: hot
      {21, 29, 19.5, {45, 60, 65, 85}, 3.4, 1010, {{19, 3, 11, true}}},        // Sat 18: thunder in the evening
      {16.5, 24, 15.5, {70, 65, 60, 45}, 3.0, 1015},                           // Sun 19: cloudy, cooler
      {15, 24.5, 15.5, {50, 75, 85, 90}, 2.6, 1014},                           // Mon 20: clouding over
      {16, 23, 17, {90, 90, 80, 70}, 2.8, 1011, {{2, 5, 6}}},
  };
  return story(thornby_mills(), std::chrono::year{2026} / July / 6, 10, upper_midwest, 20260706, last_week, from_monday);
}

namespace {

Story week(int now_utc_h, const std::vector<Day>& from_monday) {
  const Climate upper_midwest{18, 28, 12.5, 13.5, 0.33, 10, 3.2};
  const std::vector<Day> last_week{
      {16, 24.5, 16, {75, 80, 75, 60}, 3.1, 1010, {{1, 9, 22}}},
      {14.5, 26, 14, {30, 35, 40, 20}, 2.7, 1016},
      {15, 27, 14, {15, 20, 35, 15}, 2.4, 1019},
  };
  return story(thornby_mills(), std::chrono::year{2026} / July / 13, now_utc_h, upper_midwest, 20260713, last_week, from_monday);
}

constexpr int days_before_rain = 2;

std::vector<Day> fair_days() {
  return {
      {15, 27.5, 14, {10, 15, 25, 10}, 2.4, 1020},                                                // Mon 13
      {15, 28, 13.5, {5, 10, 15, 10}, 2.3, 1021},                                                 // Tue 14
      {15.5, 28.5, 13, {5, 5, 15, 10}, 2.5, 1020},                                                // Wed 15
      {16, 28, 13.5, {10, 15, 30, 20}, 2.6, 1018},                                                // Thu 16
      {16, 27.5, 14, {15, 25, 35, 25}, 2.8, 1016},                                                // Fri 17
      {15.5, 27, 14, {20, 30, 40, 20}, 2.6, 1017},                                                // Sat 18
      {15, 27.5, 13.5, {10, 15, 25, 15}, 2.4, 1019},   {15, 28, 13, {5, 10, 15, 10}, 2.3, 1021},  // Mon 20
      {15.5, 28, 13.5, {10, 15, 25, 15}, 2.5, 1019},   {16, 28.5, 14, {15, 20, 30, 20}, 2.6, 1018},
      {15.5, 27.5, 13.5, {15, 20, 30, 20}, 2.5, 1018}, {15, 27, 13, {10, 15, 25, 15}, 2.4, 1019},  // Fri 24
      {15, 27, 13, {10, 15, 25, 15}, 2.4, 1019},       {15, 27, 13, {10, 15, 25, 15}, 2.4, 1019},
  };
}

}  // namespace

Story fair_week() { return week(10, fair_days()); }

Story wet_week() {
  std::vector<Day> days = fair_days();
  const std::vector<Day> rain{
      {16.5, 20, 16.8, {90, 98, 100, 95}, 3.4, 1007, {{5, 13, 18}}},
      {16, 18.5, 16.2, {97, 100, 100, 97}, 3.6, 1005, {{2, 17, 24}}},
      {15.5, 23, 15.2, {92, 82, 72, 50}, 3.2, 1012, {{0, 5, 4}, {16, 2, 1}}},
  };
  std::copy(rain.begin(), rain.end(), days.begin() + days_before_rain);
  return week(22, days);
}

Story stormy_tuesday() {
  std::vector<Day> days = fair_days();
  Day& tuesday = days[1];
  tuesday.cloud_pct = {20, 30, 80, 70};
  tuesday.rain = {{15, 3, 12, true}};
  return week(24 + 17, days);
}

Story dry_spell() {
  const Climate spring{21, 25, 13, 14, 0.4, 10, 3.2};
  const Day dry{13.5, 30, 7.5, {5, 8, 20, 8}, 3.4, 1018};
  return story({"Sandreach", 44.2108, -90.0523, 301, -5, sand}, std::chrono::year{2026} / July / 20, 10, spring, 41, repeated(dry, 41, 411),
               repeated(dry, 11, 412));
}

Story heat_dome() {
  const Climate early_summer{24, 30, 12, 12, 0.38, 14, 3.4};
  const Day hot{25, 38, 21, {5, 5, 20, 15}, 3.0, 1015};
  std::vector<Day> dome = repeated(hot, 8, 421);
  dome.push_back({25, 36, 22.5, {30, 40, 75, 90}, 4.2, 1008, {{17, 4, 17, true}}});
  dome.push_back({19, 28, 16, {40, 30, 30, 10}, 3.6, 1016});
  dome.push_back({16, 28.5, 14.5, {10, 10, 20, 10}, 2.8, 1019});
  return story({"Cottonhollow", 41.3127, -96.2088, 344, -5, loam}, std::chrono::year{2026} / July / 13, 10, early_summer, 42,
               repeated({23, 35, 20, {10, 10, 25, 15}, 3.2, 1015}, 3, 422), dome);
}

Story week_of_overcast() {
  const Climate upper_midwest{19, 26, 12, 13, 0.38, 11, 3.0};
  const Day grey{18.8, 22, 18.6, {97, 100, 100, 98}, 1.8, 1014};
  return story(thornby_mills(), std::chrono::year{2026} / June / 22, 10, upper_midwest, 43, repeated(grey, 1, 431),
               joined(repeated(grey, 8, 432), repeated({15, 26, 14, {30, 30, 40, 20}, 2.8, 1019}, 3, 433)));
}

Story cold_spring() {
  const Climate thaw{4, 11, 9, 8.5, 0.3, 6, 3.8, 2.0};
  const Day raw{0.5, 10, -1, {30, 45, 55, 30}, 3.6, 1017};
  return story({"Pinegate", 46.4021, -93.8110, 392, -5, loam}, std::chrono::year{2026} / April / 14, 11, thaw, 44, {},
               joined(repeated(raw, 4, 441), joined({{2, 6.5, 2, {90, 100, 100, 95}, 4.2, 1005, {{8, 9, 9}}}}, repeated(raw, 6, 442))));
}

Story saturated_clay() {
  const Climate spring{19, 24, 10, 10, 0.45, 12, 3.0};
  std::vector<Day> wet;
  for (int day = 0; day < 31; ++day) {
    const auto index = static_cast<std::uint64_t>(day);
    const double from_h = 1.0 + 16.0 * uniform(45, 1, index);
    const double amount_mm = 7.0 + 11.0 * uniform(45, 2, index);
    wet.push_back({17, 23.5, 17.5, {80, 80, 85, 80}, 2.6, 1009, {{from_h, 6, amount_mm}}});
  }
  const auto today = wet.begin() + 20;
  return story({"Claybourne Flats", 41.4044, -83.9051, 211, -4, clay}, std::chrono::year{2026} / June / 15, 10, spring, 45,
               {wet.begin(), today}, {today, wet.end()});
}

Story harrow_point() {
  const Climate new_england{18, 27, 11.5, 12, 0.33, 9, 2.8};
  const std::vector<Day> week{
      {16, 27, 15.5, {20, 30, 45, 30}, 2.6, 1017},
      {17, 29, 17, {15, 20, 35, 30}, 2.8, 1015},
      {19, 31, 20.5, {25, 35, 70, 80}, 3.4, 1009, {{15, 3, 12, true}}},
      {18, 22, 17.8, {90, 97, 95, 80}, 3.2, 1007, {{5, 9, 15}}},
      {15, 26, 13.5, {30, 15, 15, 5}, 3.0, 1017},
      {14, 28.5, 13, {5, 5, 15, 10}, 2.2, 1021},
      {15.5, 29, 14.5, {5, 10, 25, 20}, 2.4, 1019},
      {18, 30, 18.5, {20, 35, 55, 60}, 3.2, 1013, {{21, 4, 6}}},
      {17.5, 25, 17, {80, 70, 55, 40}, 3.0, 1011},
      {16, 26.5, 15, {30, 25, 35, 20}, 2.6, 1016},
      {16, 27.5, 15, {20, 20, 30, 20}, 2.4, 1017},
  };
  return story({"Harrow Point", 42.4519, -72.6037, 96, -4, loam}, std::chrono::year{2026} / July / 15, 13, new_england, 46, {}, week);
}

std::vector<Story> ensemble(int members) {
  std::vector<Story> all{demo_fortnight()};
  // Error growth of a raw model's temperature by lead day: sd 1.3 C on the first day and half a degree more with each.
  constexpr double first_sd_c = 1.3;
  constexpr double growth_c_per_day = 0.45;
  for (int number = 1; number < members; ++number) {
    Story member = all.front();
    member.member = static_cast<std::uint64_t>(number);
    double warmer = 0.0;
    double moister = 0.0;
    double cloudier = 0.0;
    for (std::size_t day = past_days + 1; day < member.days.size(); ++day) {
      const double lead = static_cast<double>(day - past_days);
      const auto draw = [&](std::uint64_t stream) { return normal(1000 + member.member, stream, day); };
      warmer = 0.7 * warmer + 0.71 * draw(1);
      moister = 0.6 * warmer + 0.5 * moister + 0.6 * draw(2);
      cloudier = 0.5 * cloudier + 0.87 * draw(3);
      const double sd_c = first_sd_c + growth_c_per_day * (lead - 1.0);
      Day& told = member.days[day];
      told.high_c += sd_c * warmer;
      told.low_c += 0.6 * sd_c * warmer;
      told.dew_c = std::min(told.dew_c + 0.7 * sd_c * moister, 0.5 * (told.low_c + told.high_c));
      for (double& cloud_pct : told.cloud_pct) cloud_pct = std::clamp(cloud_pct + (9.0 + 2.5 * lead) * cloudier, 0.0, 100.0);
      told.wind_m_s *= std::clamp(1.0 + 0.08 * lead * draw(4) / 2.0, 0.5, 1.8);
      for (Rain& rain : told.rain) {
        rain.from_h += (1.0 + 0.8 * lead) * draw(5);
        rain.total_mm *= std::clamp(1.0 + 0.45 * draw(6), 0.15, 2.5);
      }
      if (lead >= 3.0 && draw(7) > 1.1) told.rain.clear();
      if (lead >= 4.0 && told.rain.empty() && draw(8) > 1.1) told.rain.push_back({12.0 + 3.0 * draw(9), 4, 5.0});
    }
    all.push_back(member);
  }
  return all;
}

}  // namespace samples
