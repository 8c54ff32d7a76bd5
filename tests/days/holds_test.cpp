#include "days/holds.h"

#include <doctest/doctest.h>

#include "days/scene.h"
#include "support/within.h"

using days::Hold;
using days::HoldCode;
using days::Outlook;
using namespace std::chrono_literals;

namespace {

const days::HoldLimits& limits() { return scene::practice().holds; }

// A still, dry, mild day; hour i begins at i o'clock.
Outlook plain() { return scene::good_days(); }

units::UtcTime clock(const Outlook& outlook, double hour) {
  return outlook.begins(0) + std::chrono::seconds{static_cast<long>(hour * 3600.0)};
}

std::vector<Hold> work_day(const Outlook& outlook, double wet_share = 0.0) {
  return days::holds(outlook, limits(), std::vector(outlook.hours(), wet_share), clock(outlook, 6), clock(outlook, 20));
}

weather::Alert alert(weather::AlertKind kind, const char* event, units::UtcTime from, units::UtcTime until, bool watch,
                     std::optional<double> gust_m_s) {
  weather::Alert made;
  made.kind = kind;
  made.event = event;
  made.from = from;
  made.until = until;
  made.watch = watch;
  made.gust_m_s = gust_m_s;
  return made;
}

void check_one(const Outlook& outlook, const std::vector<Hold>& found, HoldCode code, double from, double until, double worst) {
  REQUIRE(found.size() == 1);
  CHECK(found[0].code == code);
  CHECK(found[0].from == clock(outlook, from));
  CHECK(found[0].until == clock(outlook, until));
  CHECK(found[0].worst == worst);
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("a plain day has no hold, though its source knows neither gusts nor thunder") {
    const Outlook outlook = plain();
    REQUIRE_FALSE(outlook.signs[12].gust_m_s);
    REQUIRE_FALSE(outlook.signs[12].thunder_pct);
    CHECK(work_day(outlook).empty());
  }

  TEST_CASE("gusts bar the hour they blow in and no other, and at the limit none") {
    Outlook outlook = plain();
    outlook.signs[13].gust_m_s = limits().gust_m_s + 0.5;
    outlook.signs[15].gust_m_s = limits().gust_m_s;
    check_one(outlook, work_day(outlook), HoldCode::gusts, 13, 14, limits().gust_m_s + 0.5);
  }

  TEST_CASE("barred hours that touch are one hold with the worst figure, others stand apart") {
    Outlook outlook = plain();
    for (const auto& [hour, gust] : {std::pair{9, 12.0}, {10, 15.0}, {11, 13.0}, {14, 12.5}})
      outlook.signs[static_cast<std::size_t>(hour)].gust_m_s = gust;
    const auto found = work_day(outlook);
    REQUIRE(found.size() == 2);
    CHECK(found[0].from == clock(outlook, 9));
    CHECK(found[0].until == clock(outlook, 12));
    CHECK(found[0].worst == 15.0);
    CHECK(found[1].from == clock(outlook, 14));
    CHECK(found[1].until == clock(outlook, 15));
  }

  TEST_CASE("thunder bars until its clear time has passed") {
    Outlook outlook = plain();
    outlook.signs[13].thunder_pct = limits().thunder_pct;
    outlook.signs[9].thunder_pct = limits().thunder_pct - 1.0;
    check_one(outlook, work_day(outlook), HoldCode::thunder, 13, 14 + limits().thunder_clear_h, limits().thunder_pct);
    outlook.signs[14].thunder_pct = 90.0;
    check_one(outlook, work_day(outlook), HoldCode::thunder, 13, 15 + limits().thunder_clear_h, 90.0);
  }

  TEST_CASE("thunder before the crew arrives is waited for") {
    Outlook outlook = plain();
    outlook.signs[5].thunder_pct = 80.0;
    check_one(outlook, work_day(outlook), HoldCode::thunder, 6, 6 + limits().thunder_clear_h, 80.0);
    outlook.signs[5].thunder_pct = std::nullopt;
    outlook.signs[4].thunder_pct = 80.0;
    CHECK(work_day(outlook).empty());
  }

  TEST_CASE("a hold is told for the work day and not for the night around it") {
    Outlook outlook = plain();
    for (std::size_t hour = 3; hour < 23; ++hour) outlook.signs[hour].gust_m_s = 14.0;
    check_one(outlook, work_day(outlook), HoldCode::gusts, 6, 20, 14.0);
  }

  TEST_CASE("heat bars the afternoon and leaves the morning free") {
    days::DayKind hot = scene::practice().good_day;
    hot.temp_low_c = 22.0;
    hot.temp_high_c = limits().heat_c + 3.0;
    const Outlook outlook = scene::outlook(hot);
    const auto found = work_day(outlook);
    REQUIRE(found.size() == 1);
    CHECK(found[0].code == HoldCode::heat);
    CHECK(found[0].from >= clock(outlook, 11));
    CHECK(found[0].until <= clock(outlook, 20));
    for (std::size_t hour = 6; hour < 20; ++hour) {
      const bool inside = outlook.begins(hour) >= found[0].from && outlook.begins(hour) < found[0].until;
      CHECK(inside == (outlook.courses.front()[hour].temp_c > limits().heat_c));
    }
    CHECK((found[0].until - outlook.begins(0)) % 1h == 0s);  // no clear time behind heat
    CHECK(found[0].worst == within(hot.temp_high_c, 0.2));
  }

  TEST_CASE("cold soil, standing water and bare crowns bar the whole day, at their limits only from one side") {
    const auto with = [](auto set) {
      Outlook outlook = plain();
      for (std::size_t i = 0; i < outlook.hours(); ++i) set(outlook.courses.front()[i], outlook.signs[i]);
      return outlook;
    };
    const double cold = limits().soil_cold_c, water = limits().standing_water_h, leaves = limits().leaf_share;
    Outlook outlook = with([&](auto& w, auto&) { w.soil_temp_c = cold - 0.1; });
    check_one(outlook, work_day(outlook), HoldCode::cold_soil, 6, 20, cold - 0.1);
    CHECK(work_day(with([&](auto& w, auto&) { w.soil_temp_c = cold; })).empty());
    outlook = with([&](auto& w, auto&) { w.saturated_h = water; });
    check_one(outlook, work_day(outlook), HoldCode::standing_water, 6, 20, water);
    CHECK(work_day(with([&](auto& w, auto&) { w.saturated_h = water - 0.1; })).empty());
    outlook = with([&](auto&, auto& s) { s.leaves_out = leaves - 0.01; });
    check_one(outlook, work_day(outlook), HoldCode::leaves_not_out, 6, 20, leaves - 0.01);
    CHECK(work_day(with([&](auto&, auto& s) { s.leaves_out = leaves; })).empty());
  }

  TEST_CASE("the coldest hour and the barest crown are the worst of their holds") {
    Outlook outlook = plain();
    for (std::size_t i = 6; i < 20; ++i) outlook.courses.front()[i].soil_temp_c = 3.0;
    outlook.courses.front()[9].soil_temp_c = 1.0;
    check_one(outlook, work_day(outlook), HoldCode::cold_soil, 6, 20, 1.0);
    outlook = plain();
    for (std::size_t i = 6; i < 20; ++i) outlook.signs[i].leaves_out = 0.5;
    outlook.signs[7].leaves_out = 0.4;
    check_one(outlook, work_day(outlook), HoldCode::leaves_not_out, 6, 20, 0.4);
  }

  TEST_CASE("a crown wet for long enough by daylight spoils the day, a wet night does not") {
    const Outlook outlook = plain();
    const auto wet_from = [&](std::size_t first, std::size_t count) {
      std::vector<double> wet(outlook.hours(), limits().wet_crown_share - 0.01);
      for (std::size_t i = first; i < first + count; ++i) wet[i] = limits().wet_crown_share;
      return wet;
    };
    const auto enough = static_cast<std::size_t>(limits().wet_day_h);
    const auto found = [&](const std::vector<double>& wet) {
      return days::holds(outlook, limits(), wet, clock(outlook, 6), clock(outlook, 20));
    };
    check_one(outlook, found(wet_from(7, enough)), HoldCode::wet_crown, 6, 20, limits().wet_day_h);
    CHECK(found(wet_from(7, enough - 1)).empty());
    CHECK(found(wet_from(0, 6)).empty());
    Outlook dark = outlook;
    for (auto& hour : dark.courses.front()) hour.clear_sky_w_m2 = 0.0;
    CHECK(days::holds(dark, limits(), wet_from(7, enough), clock(outlook, 6), clock(outlook, 20)).empty());
  }

  TEST_CASE("holds stand in the order in which they begin") {
    Outlook outlook = plain();
    outlook.signs[15].thunder_pct = 90.0;
    outlook.signs[9].gust_m_s = 20.0;
    for (std::size_t i = 11; i < 13; ++i) outlook.courses.front()[i].temp_c = 40.0;
    const auto found = work_day(outlook);
    REQUIRE(found.size() == 3);
    CHECK(found[0].code == HoldCode::gusts);
    CHECK(found[1].code == HoldCode::heat);
    CHECK(found[2].code == HoldCode::thunder);
  }

  TEST_CASE("a warning holds for its event and no longer, thunder until its clear time, and says who warned") {
    Outlook outlook = plain();
    outlook.alerts = {alert(weather::AlertKind::wind, "High Wind Warning", clock(outlook, 10.5), clock(outlook, 12), false, 25.0)};
    auto found = work_day(outlook);
    check_one(outlook, found, HoldCode::gusts, 10.5, 12.0, 25.0);
    CHECK(found[0].warning == "High Wind Warning");
    outlook.alerts[0].kind = weather::AlertKind::thunder;
    check_one(outlook, work_day(outlook), HoldCode::thunder, 10.5, 12.0 + limits().thunder_clear_h, 100.0);
    outlook.alerts[0].kind = weather::AlertKind::flood;
    check_one(outlook, work_day(outlook), HoldCode::flood, 10.5, 12.0, 0.0);
    outlook.alerts[0].kind = weather::AlertKind::freeze;
    check_one(outlook, work_day(outlook), HoldCode::freeze, 10.5, 12.0, 0.0);
    outlook.alerts[0].until = clock(outlook, 40);
    check_one(outlook, work_day(outlook), HoldCode::freeze, 10.5, 20.0, 0.0);
    outlook.alerts[0].from = clock(outlook, 20);
    CHECK(work_day(outlook).empty());
  }

  TEST_CASE("a watch, and a warning that has nothing to do with the work, hold nothing") {
    Outlook outlook = plain();
    outlook.alerts = {alert(weather::AlertKind::wind, "High Wind Watch", clock(outlook, 10), clock(outlook, 12), true, {}),
                      alert(weather::AlertKind::other, "Air Quality Alert", clock(outlook, 10), clock(outlook, 12), false, {})};
    CHECK(work_day(outlook).empty());
    // But a watch is told, for the hours that it may come in.
    const auto told = days::watches(outlook, clock(outlook, 6), clock(outlook, 20));
    REQUIRE(told.size() == 1);
    CHECK(told[0].event == "High Wind Watch");
    CHECK(days::watches(outlook, clock(outlook, 12), clock(outlook, 20)).empty());
    outlook.alerts[0].watch = false;
    CHECK(days::watches(outlook, clock(outlook, 6), clock(outlook, 20)).empty());
  }

  TEST_CASE("a warning of heat that runs for days bars its warm hours and leaves the mornings free") {
    Outlook outlook = plain();
    auto& hours = outlook.courses.front();
    for (std::size_t hour = 0; hour < hours.size(); ++hour) hours[hour].temp_c = hour >= 12 && hour < 17 ? 30.0 : 22.0;
    outlook.alerts = {alert(weather::AlertKind::heat, "Extreme Heat Warning", clock(outlook, -20), clock(outlook, 44), false, {})};
    check_one(outlook, work_day(outlook), HoldCode::heat, 12.0, 17.0, 30.0);
    outlook.alerts[0].until = clock(outlook, 14.5);
    check_one(outlook, work_day(outlook), HoldCode::heat, 12.0, 14.5, 30.0);
    CHECK(work_day(outlook)[0].warning == "Extreme Heat Warning");
    outlook.alerts.clear();
    CHECK(work_day(outlook).empty());
  }
}
