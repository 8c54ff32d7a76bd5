// Laws of the places of new ports, over invented flares.
#include "book/port_places.h"

#include <chrono>

#include "book/flare_worlds.h"
#include "support/within.h"

using namespace flares;

namespace {

constexpr unsigned worlds = 120;
constexpr double cell_cm = book::finest_cell_cm;

int too_near(const book::PortPlaces& places) {
  return static_cast<int>(std::ranges::count_if(places.places, [](const book::Place& place) { return book::too_near(place); }));
}

double squares(const std::vector<double>& gaps) {
  double sum = 0.0;
  for (const double gap : gaps) sum += gap * gap;
  return sum;
}

World turned(World made, double by_cm) {
  const double flare = made.wish.flare_cm;
  const auto turn = [&](double at, const std::optional<double>& then) {
    const double around = then.value_or(flare);
    return std::fmod(at + by_cm * around / flare, around);
  };
  for (auto& old : made.record.old_ports) old.clockwise_cm = turn(old.clockwise_cm, old.flare_cm);
  for (auto& bad : made.record.bad) bad = {turn(bad.from_cm, {}), turn(bad.to_cm, {}), {}};
  for (auto& ridge : made.record.ridges) ridge.crest_cm = turn(ridge.crest_cm, {});
  return made;
}

World with_old(World made, std::vector<book::OldPort> old) {
  made.record.old_ports = std::move(old);
  return made;
}

// A veteran of 530 cm around, with `sets` treatments of 41 ports each, evenly spread but for a hand's unsteadiness.
World veteran(int sets) {
  Dice dice{7};
  World made;
  made.wish = {530.0, 41, free_heights};
  for (int set = 0; set < sets; ++set) {
    const double flare = 530.0 - 6.0 * (sets - set);
    for (int i = 0; i < 41; ++i) {
      const double at = std::fmod((i + 0.27 * set + dice.between(-0.08, 0.08)) * flare / 41.0 + flare, flare);
      made.record.old_ports.push_back({at, 8.0 + 4.0 * set + dice.between(-1.0, 1.0), flare, 2014 + 3 * set, false});
    }
  }
  return made;
}

}  // namespace

TEST_SUITE("book") {
  TEST_CASE("no port stands in bad wood, beside a ridge, or outside its heights") {
    for (unsigned number = 0; number < worlds; ++number) {
      CAPTURE(number);
      const World made = world(number);
      for (const book::Place& place : placed(made).places) {
        CHECK_FALSE(on_bad(place.clockwise_cm, made));
        CHECK(on_ridge(place.clockwise_cm, made));
        CHECK((place.clockwise_cm >= 0.0 && place.clockwise_cm < made.wish.flare_cm));
        CHECK((place.height_cm >= made.wish.heights.low_cm && place.height_cm <= made.wish.heights.high_cm));
      }
    }
  }

  TEST_CASE("new ports keep the least gap, and no more fit wood than allowed lies bare between two") {
    int pairs = 0;
    for (unsigned number = 0; number < worlds; ++number) {
      CAPTURE(number);
      const World made = world(number);
      const auto places = placed(made);
      if (places.places.size() < 2) continue;
      const double even = made.wish.flare_cm / made.wish.ports;
      const auto gaps = gaps_cm(places, made.wish.flare_cm);
      for (std::size_t i = 0; i < gaps.size(); ++i, ++pairs) {
        CHECK(gaps[i] >= rules.least_gap_share * even - 1e-6);
        double fit = 0.0;
        for (double at = 0.05; at < gaps[i]; at += 0.1) {
          const double here = std::fmod(places.places[i].clockwise_cm + at, made.wish.flare_cm);
          if (!on_bad(here, made) && on_ridge(here, made)) fit += 0.1;
        }
        const double edges = static_cast<double>(made.record.bad.size() + made.record.ridges.size()) + 1.0;
        CHECK(fit <= rules.most_gap_share * even + 2.0 * edges * cell_cm);
      }
    }
    CHECK(pairs > 1000);
  }

  TEST_CASE("the distance told is the distance there is, to the nearest of all old ports") {
    for (unsigned number = 0; number < worlds; ++number) {
      CAPTURE(number);
      const World made = world(number);
      const auto places = placed(made);
      double least = std::numeric_limits<double>::infinity();
      for (const book::Place& place : places.places) {
        const double own = least_share(place, made);
        least = std::min(least, own);
        REQUIRE(place.nearest.has_value() == !made.record.old_ports.empty());
        if (!place.nearest) continue;
        CHECK(place.nearest->share == within(own, 1e-9));
        const book::OldPort& old = made.record.old_ports[place.nearest->old_port];
        CHECK(share(place, old, made.wish.flare_cm) == within(own, 1e-9));
        CHECK(std::abs(place.nearest->sideways_cm) ==
              within(apart_cm(place.clockwise_cm, old.clockwise_cm * made.wish.flare_cm / *old.flare_cm, made.wish.flare_cm), 1e-9));
      }
      if (places.least_share) CHECK(*places.least_share == within(least, 1e-9));
      CHECK(places.complete == (static_cast<int>(places.places.size()) == made.wish.ports && too_near(places) == 0));
      CHECK((places.complete || too_near(places) > 0 || static_cast<int>(places.places.size()) < made.wish.ports));
    }
  }

  TEST_CASE("a plan falls short of the best least distance only to have fewer ports too near, and not below the floor") {
    int short_of_best = 0;
    for (unsigned number = 0; number < worlds; ++number) {
      CAPTURE(number);
      const auto places = placed(world(number));
      if (!places.least_share) continue;
      CHECK(*places.least_share <= *places.best_share + 1e-6);
      CHECK(*places.least_share >= std::min(rules.floor_share, *places.best_share) - 1e-6);
      if (*places.best_share >= 1.0) CHECK(*places.least_share == within(*places.best_share, 1e-6));
      short_of_best += *places.least_share < *places.best_share - 1e-3 ? 1 : 0;
    }
    CHECK(short_of_best > 5);
  }

  TEST_CASE("turning the tag by whole cells turns the answer") {
    for (unsigned number = 0; number < worlds / 2; ++number) {
      CAPTURE(number);
      const World made = world(number);
      const double cell = made.wish.flare_cm / std::ceil(made.wish.flare_cm / cell_cm);
      const auto here = placed(made), there = placed(turned(made, 57 * cell));
      CHECK(here.places.size() == there.places.size());
      CHECK(here.complete == there.complete);
      CHECK(here.clear == there.clear);
      CHECK(too_near(here) == too_near(there));
      CHECK(here.least_share.value_or(-1.0) == within(there.least_share.value_or(-1.0), 2e-6));
      CHECK(squares(gaps_cm(here, made.wish.flare_cm)) == within(squares(gaps_cm(there, made.wish.flare_cm)), 1e-5));
    }
  }

  TEST_CASE("one more old port never makes the best least distance larger") {
    for (unsigned number = 0; number < worlds / 4; ++number) {
      CAPTURE(number);
      const World made = world(number);
      std::vector<book::OldPort> old;
      double before = std::numeric_limits<double>::infinity();
      Dice dice{number + 1000};
      for (int i = 0; i < 12; ++i) {
        for (int more = 0; more < 4; ++more) old.push_back(old_port(dice, made.wish.flare_cm));
        const auto places = placed(with_old(made, old));
        if (places.places.empty()) break;
        CHECK(*places.best_share <= before + 1e-6);
        before = *places.best_share;
      }
    }
  }

  TEST_CASE("without old ports the places are as even as cells allow, and a lone bad stretch moves only what it must") {
    World made;
    made.wish = {530.0, 40, level};
    auto places = placed(made);
    CHECK(places.complete);
    CHECK(places.clear >= 40);
    CHECK_FALSE(places.least_share.has_value());
    for (const double gap : gaps_cm(places, 530.0)) CHECK(gap == within(13.25, cell_cm));
    made.record.bad.push_back({525.0, 12.0, {}});
    places = placed(made);
    CHECK(places.complete);
    CHECK(places.places.front().clockwise_cm >= 14.0);
    CHECK(places.places.back().clockwise_cm <= 523.0);
  }

  TEST_CASE("an old port is looked for where it is on the flare of now") {
    World made;
    made.wish = {100.0, 1, level};
    made.record.ridges = {{50.0, 0.4, {}}, {75.0, 0.4, {}}};
    made.record.old_ports = {{40.0, 10.0, 80.0, 2020, false}};  // halfway round then, halfway round now
    CHECK(placed(made).places.front().clockwise_cm == within(75.0, cell_cm));
    made.record.old_ports = {{40.0, 10.0, {}, 2020, false}};
    made.record.ridges[1].crest_cm = 42.0;
    CHECK(placed(made).places.front().clockwise_cm == within(50.0, cell_cm));
  }

  TEST_CASE("a port above an old one needs the distance sideways several times over, and more from one that leaked") {
    World made;
    made.wish = {60.0, 1, level};
    made.record.ridges = {{30.0, 0.2, {}}};
    const auto complete = [&](double height, bool leaked) { return placed(with_old(made, {{30.0, height, {}, 2020, leaked}})).complete; };
    CHECK_FALSE(complete(10.0 + 14.9, false));
    CHECK(complete(10.0 + 15.1, false));
    CHECK_FALSE(complete(10.0 + 22.4, true));
    CHECK(complete(10.0 + 22.6, true));
    CHECK_FALSE(placed(with_old(made, {{30.0, {}, {}, 2020, false}})).complete);
    CHECK(placed(with_old(made, {{26.5, {}, {}, 2020, false}})).complete);
    made.wish.heights = {10.0, 40.0};
    const auto lifted = placed(with_old(made, {{30.0, 12.0, {}, 2020, false}}));
    CHECK(lifted.complete);
    CHECK(lifted.places.front().height_cm == within(40.0, 1e-9));
  }

  TEST_CASE("where not all find room the answer says how many do and which come too near") {
    World made;
    made.wish = {100.0, 8, level};
    made.record.bad.push_back({0.0, 40.0, {}});
    const auto few = placed(made);
    CHECK(few.complete);
    CHECK(few.places.size() == 8);  // 56 cm of sound wood at 7.5 cm
    made.record.bad.push_back({60.0, 90.0, {}});
    CHECK(placed(made).places.size() == 4);
    made.record.bad.push_back({0.0, 99.9, {}});
    const auto none = placed(made);
    CHECK(none.places.empty());
    CHECK_FALSE(none.complete);
    CHECK(none.clear == 0);

    World crowded;
    crowded.wish = {100.0, 8, level};
    for (int i = 0; i < 50; ++i) crowded.record.old_ports.push_back({2.0 * i, 10.0, {}, 2023, false});
    crowded.record.old_ports.erase(crowded.record.old_ports.begin() + 20, crowded.record.old_ports.begin() + 23);  // clear from 41 to 43
    const auto plan = placed(crowded);
    CHECK(plan.places.size() == 8);
    CHECK(plan.clear == 1);
    CHECK(too_near(plan) == 7);
    CHECK(*plan.least_share == within(1.0 / 3.0, 1e-6));
  }

  TEST_CASE("what cannot be a flare is refused") {
    World made;
    made.wish = {530.0, 40, level};
    const auto line = [&] {
      const auto places = book::place_ports(made.record, made.wish, rules);
      return places ? std::string{} : places.error().line();
    };
    CHECK(line().empty());
    made.wish.ports = 0;
    CHECK(line() == "ports: expected 1 to 400");
    made.wish = {3.0, 1, level};
    CHECK(line() == "flare: expected a circumference from 5 to 3000 cm");
    made.wish = {530.0, 40, {20.0, 10.0}};
    CHECK(line() == "port heights: expected a lowest and a highest from -100 to 300 cm, in this order");
    made.wish.heights = level;
    made.record.old_ports.push_back({std::nan(""), 10.0, {}, {}, false});
    CHECK(line() == "old port: expected finite numbers, and flares of 5 to 3000 cm");
  }

  TEST_CASE("sixty ports among two hundred old ones are all placed, and the time it takes is told") {
    World made = veteran(5);
    made.wish.ports = 60;
    REQUIRE(made.record.old_ports.size() == 205);
    double best_s = 1e9;
    for (int i = 0; i < 5; ++i) {
      const auto begun = std::chrono::steady_clock::now();
      const auto places = placed(made);
      best_s = std::min(best_s, std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count());
      CHECK(places.places.size() == 60);
    }
    MESSAGE("60 ports, 205 old: " << best_s * 1e3 << " ms");
  }

  TEST_CASE("a fourth treatment of a veteran finds room by going up") {
    const auto places = placed(veteran(3));
    CHECK(places.places.size() == 41);
    MESSAGE("41 ports, 123 old: least share " << *places.least_share << ", too near " << too_near(places) << ", clear " << places.clear);
    World same_level = veteran(3);
    same_level.wish.heights = {12.0, 12.0};
    CHECK(*placed(same_level).least_share < *places.least_share);
  }
}
