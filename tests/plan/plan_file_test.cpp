// Problems and plans as files.
#include "app/plan_file.h"

#include <doctest/doctest.h>

namespace {

const std::string small_problem = R"({"days":1,"max_stops":2,"rigs_per_day":[1],
"objective":{"late_per_day":0.02,"travel_per_h":0.25,"move_day":0.6,"move_tomorrow":1.5,"move_crew":0.1,"drop":0.5},
"travel":{"detour":1.3,"speed_km_h":45,"stop_h":0.08},"crew":[{"x_km":1,"y_km":2,"hours":[8]}],
"job":[{"x_km":3,"y_km":4,"weight":2,"earliest":0,"latest":0,"rig":true,"locked":false,"promised_day":0,"promised_crew":0,
"crews":[0],"hours":[2.5],"chance":[0.9]}]})";

std::string changed(const std::string& from, const std::string& to) {
  auto text = small_problem;
  text.replace(text.find(from), from.size(), to);
  return text;
}

std::string fault(const std::string& content) {
  const auto read = app::read_instance(content, "book.json");
  return read ? "" : read.error().line();
}

TEST_SUITE("plan file") {
  TEST_CASE("every member of a problem is read") {
    const auto read = app::read_instance(small_problem, "book.json");
    REQUIRE(read.has_value());
    CHECK(read->worth.move_tomorrow == 1.5);
    CHECK(read->travel.stop_h == 0.08);
    CHECK(read->crews.front().depot.y_km == 2.0);
    const auto& job = read->jobs.front();
    CHECK(job.rig);
    CHECK_FALSE(job.locked);
    CHECK(job.promised == plan::CrewDay{0, 0});
    CHECK(job.chance.front() == 0.9);
    CHECK_FALSE(app::read_instance(changed("\"promised_day\":0", "\"promised_day\":-1"), "book.json")->jobs.front().promised);
  }

  TEST_CASE("a plan comes back as it was written") {
    const plan::Plan plan{plan::CrewDay{3, 1}, std::nullopt, plan::CrewDay{0, 0}};
    CHECK(app::plan_file(plan) == "{\"plan\":[[3,1],[-1,-1],[0,0]]}\n");
    CHECK(app::read_plan(app::plan_file(plan), "plan.json") == plan);
    CHECK(app::read_plan("{\"plan\":[[1]]}", "plan.json").error().line() == "plan.json: plan[0]: '[...]': expected [day, crew]");
  }

  TEST_CASE("what is missing or of another kind is named by its place") {
    CHECK(fault(changed("\"weight\":2,", "")).find("job[0]") != std::string::npos);
    CHECK(fault(changed("\"rig\":true", "\"rig\":1")) == "book.json: job[0].rig: '1': expected true or false");
    CHECK(fault(changed("\"days\":1", "\"days\":1.5")) == "book.json: days: '1.5': expected a whole number");
    CHECK(fault(changed("\"crews\":[0]", "\"crews\":0")) == "book.json: job[0].crews: '0': expected an array");
    CHECK_FALSE(fault("{\"days\":").empty());
  }
}

}  // namespace
