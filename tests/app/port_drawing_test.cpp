// The flare as drawn: every mark in its place, and nothing outside the paper.
#include "app/port_drawing.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <regex>

#include "app/port_marks.h"
#include "app/svg.h"
#include "support/within.h"

namespace {

constexpr book::PlaceRules rules{3.0, 5.0, 1.5, 0.5, 0.6, 1.5, 2.0, 5.0, 20.0};

app::PortPlan planned(book::FlareRecord record, int ports) {
  record.flare_cm = record.flare_cm.value_or(530.0);
  auto plan = app::plan_ports(record, ports, 500.0, rules);
  REQUIRE(plan.has_value());
  return *plan;
}

struct Circle {
  double x, y, r;
};

std::vector<Circle> circles(const std::string& svg, const std::string& fill) {
  std::vector<Circle> found;
  const std::regex circle{"<circle cx=\"([-0-9.]+)\" cy=\"([-0-9.]+)\" r=\"([-0-9.]+)\" fill=\"" + fill + "\""};
  for (std::sregex_iterator at{svg.begin(), svg.end(), circle}, end; at != end; ++at)
    found.push_back({std::stod((*at)[1]), std::stod((*at)[2]), std::stod((*at)[3])});
  return found;
}

std::size_t count(const std::string& text, const std::string& piece) {
  std::size_t found = 0;
  for (auto at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1)) ++found;
  return found;
}

book::FlareRecord crowded() {
  book::FlareRecord record;
  for (int i = 0; i < 120; ++i)
    record.old_ports.push_back({4.1 * i, i % 7 == 0 ? std::nullopt : std::optional{6.0 + i % 3}, 520.0, 2014 + 3 * (i % 4), i % 11 == 0});
  record.bad = {{510.0, 8.0, {}}, {200.0, 230.0, 500.0}};
  for (int i = 0; i < 9; ++i) record.ridges.push_back({59.0 * i, 24.0, {}});
  return record;
}

}  // namespace

TEST_SUITE("app") {
  TEST_CASE("from above a port stands at its share of the way round, tag on top, clockwise") {
    const app::PortPlan plan = planned({}, 8);
    const auto dots = circles(app::flare_ring_svg(plan), "#000");
    REQUIRE(dots.size() == 8);
    constexpr double x = 46.0, y = 47.5;  // the middle of the ring
    for (std::size_t i = 0; i < dots.size(); ++i) {
      const double turn = 2.0 * std::numbers::pi * plan.places.places[i].clockwise_cm / plan.flare_cm;
      const double radius = std::hypot(dots[i].x - x, dots[i].y - y);
      CHECK(dots[i].x == within(x + radius * std::sin(turn), 0.02));
      CHECK(dots[i].y == within(y - radius * std::cos(turn), 0.02));
    }
  }

  TEST_CASE("unrolled, ports stand along the tape in rows and the higher one is drawn higher") {
    app::PortPlan plan = planned({}, 12);
    plan.places.places[1].height_cm = 15.0;
    const auto dots = circles(app::flare_strip_svg(plan, app::UnitSystem::si), "#000");
    REQUIRE(dots.size() == 13);  // and one that explains the mark
    const double row_cm = plan.flare_cm / 3.0, mm_per_cm = 172.0 / row_cm;
    for (std::size_t i = 0; i < 12; ++i) {
      const double cm = plan.places.places[i].clockwise_cm, row = std::floor(cm / row_cm);
      CHECK(dots[i].x == within(11.0 + (cm - row * row_cm) * mm_per_cm, 0.01));
      if (i > 0 && row > std::floor(plan.places.places[i - 1].clockwise_cm / row_cm)) CHECK(dots[i].y > dots[i - 1].y + 20.0);
    }
    CHECK(dots[1].y < dots[0].y);
    CHECK(dots[2].y == dots[0].y);
  }

  TEST_CASE("every treatment has a shape of its own, whatever the ink") {
    std::vector<std::string> drawn;
    for (std::size_t treatment = 0; treatment < 10; ++treatment) {
      app::svg::Drawing drawing{"one", "mark", 10.0, 10.0};
      app::PortMarks::old_port(drawing, {5.0, 5.0}, treatment, false);
      drawn.push_back(drawing.finished());
    }
    for (std::size_t i = 0; i < 5; ++i)
      for (std::size_t j = 0; j < i; ++j) CHECK(drawn[i] != drawn[j]);
    app::svg::Drawing leaked{"one", "mark", 10.0, 10.0};
    app::PortMarks::old_port(leaked, {5.0, 5.0}, 0, true);
    CHECK(leaked.finished() != drawn[0]);
  }

  TEST_CASE("each treatment is drawn on its own ring and named in the legend, newest first") {
    const app::PortPlan plan = planned(crowded(), 40);
    const std::string strip = app::flare_strip_svg(plan, app::UnitSystem::us), ring = app::flare_ring_svg(plan);
    std::size_t before = 0;
    for (const char* year : {"old, 2023", "old, 2020", "old, 2017", "old, 2014"}) {
      CHECK(count(strip, year) == 1);
      CHECK(strip.find(year) > before);
      before = strip.find(year);
    }
    CHECK(count(ring, "stroke-dasharray") == 4);
    for (const char* what : {"leaked", "height unknown", "bad wood: no port", "ridge"})
      CHECK_MESSAGE(count(strip, std::string{">"} + what) == 1, what);
  }

  TEST_CASE("no mark lies outside the paper, on small flares and large") {
    for (const double flare : {40.0, 150.0, 530.0, 719.0, 1900.0}) {
      book::FlareRecord record = crowded();
      record.flare_cm = flare;
      for (book::OldPort& old : record.old_ports) old.clockwise_cm = std::fmod(old.clockwise_cm, flare), old.flare_cm = flare;
      const app::PortPlan plan = planned(record, std::max(2, static_cast<int>(flare / 13.0)));
      for (const std::string& svg : {app::flare_strip_svg(plan, app::UnitSystem::us), app::flare_ring_svg(plan)}) {
        CAPTURE(flare);
        std::smatch box;
        REQUIRE(std::regex_search(svg, box, std::regex{"viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\""}));
        const double width = std::stod(box[1]), height = std::stod(box[2]);
        const std::regex place{"<text x=\"([-0-9.]+)\" y=\"([-0-9.]+)\" font-size=\"([0-9.]+)\""};
        for (std::sregex_iterator at{svg.begin(), svg.end(), place}, end; at != end; ++at) {
          CHECK((std::stod((*at)[1]) >= 0.0 && std::stod((*at)[1]) <= width));
          CHECK((std::stod((*at)[2]) >= 0.72 * std::stod((*at)[3]) && std::stod((*at)[2]) <= height));
        }
        for (const char* fill : {"#000", "none"})
          for (const Circle& circle : circles(svg, fill))
            CHECK((circle.x >= circle.r && circle.x <= width && circle.y >= circle.r && circle.y + circle.r <= height));
        CHECK(svg.find("nan") == std::string::npos);
        CHECK(svg.find("inf\"") == std::string::npos);
      }
    }
  }

  TEST_CASE("a tape reads in quarter inches and half centimetres") {
    const auto us = [](double inches) { return app::words::on_tape(2.54 * inches, app::UnitSystem::us); };
    CHECK(us(0.0) == "0");
    CHECK(us(0.25) == "1/4");
    CHECK(us(87.26) == "87 1/4");
    CHECK(us(87.9) == "88");
    CHECK(us(-2.5) == "-2 1/2");
    CHECK(app::words::on_tape(221.3, app::UnitSystem::si) == "221.5");
    CHECK(app::words::on_tape(-0.1, app::UnitSystem::si) == "0");
    CHECK(app::words::around(530.0, app::UnitSystem::us) == "17 ft 5 in");
    CHECK(app::words::around(304.8, app::UnitSystem::us) == "10 ft");
  }

  TEST_CASE("text cannot break out of the drawing") {
    CHECK(app::xml_text("a<b>&\"'\x01\x7f") == "a&lt;b&gt;&amp;&quot;&#39;??");
    app::svg::Drawing drawing{"one", "</title><script>", 10.0, 10.0};
    drawing.text({1.0, 1.0}, 2.0, "<&>");
    CHECK(drawing.finished().find("<script>") == std::string::npos);
    CHECK(drawing.finished().find("&lt;&amp;&gt;") != std::string::npos);
  }
}
