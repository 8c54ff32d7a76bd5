#include "days/job_time.h"

#include <doctest/doctest.h>

#include "days/scene.h"
#include "support/within.h"

namespace {

days::TreeCase ported(std::optional<double> counted) {
  days::TreeCase tree = scene::elm(100);
  tree.subject.port_count = counted;
  tree.subject.port_spacing = units::Centimetres{13};
  tree.subject.source.flare_factor.value = 1.2;
  return tree;
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("ports stand along the flare, in whole numbers, unless they were counted") {
    // 100 cm of trunk, 1.2 times as much flare: 377 cm, and 377/13 is 29.0.
    CHECK(days::flare_circumference(ported({})).value == within(3.770, 0.0005));
    CHECK(days::port_count(ported({})) == 29);
    CHECK(days::port_count(ported(18.0)) == 18);
    CHECK(days::port_count(ported(18.6)) == 19);
    CHECK(days::port_count(ported(0.0)) == 1);
  }

  TEST_CASE("each phase takes its hours, by port and by metre where the work is") {
    days::Phases phases;
    phases.dig_h = 0.5;
    phases.dig_h_per_m = 0.1;
    phases.layout_h = 0.25;
    phases.drill_h_per_port = 0.05;
    phases.leak_check_h = 0.3;
    phases.mix_h_per_tank = 0.2;
    phases.tear_down_h = 0.4;
    phases.tear_down_h_per_port = 0.01;
    const auto job = days::job_time(ported(20.0), phases);
    CHECK(job.dig.value == within(0.877, 0.0001));
    CHECK(job.drill.value == within(1.0, 1e-12));
    // 0.877 + 0.25 + 1 + 0.3 + 0.2, whatever the number of tanks.
    CHECK(job.before().value == within(2.627, 0.0001));
    CHECK(job.after().value == within(0.6, 1e-12));
    days::TreeCase thirsty = ported(20.0);
    thirsty.subject.dose = units::Litres{5000};
    CHECK(days::job_time(thirsty, phases).before().value == job.before().value);
  }

  TEST_CASE("a begun tank counts whole, and a small dose still needs one") {
    days::TreeCase tree = ported({});
    const auto tanks = [&](double dose_l) {
      tree.subject.dose = units::Litres{dose_l};
      days::SetUp set_up;
      set_up.tank_l = 114;
      return days::tank_count(tree, set_up);
    };
    CHECK(tanks(10) == 1);
    CHECK(tanks(114) == 1);
    CHECK(tanks(114.5) == 2);
    CHECK(tanks(228) == 2);
    CHECK(tanks(3 * 114.0 * (1.0 + 1e-15)) == 3);
  }
}
