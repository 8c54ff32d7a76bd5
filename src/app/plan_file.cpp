#include "app/plan_file.h"

#include <cmath>
#include <optional>
#include <utility>

#include "feeds/json_node.h"

namespace app {
namespace {

using feeds::JsonNode;
using units::Fault;

// Reads members of objects until the first fault, and keeps that: what comes after it no longer counts.
class Reading {
 public:
  [[nodiscard]] std::optional<Fault>& fault() { return fault_; }

  std::optional<JsonNode> member(const JsonNode& node, std::string_view key) {
    if (fault_) return std::nullopt;
    auto found = node.need(key);
    if (found) return *found;
    fault_ = found.error();
    return std::nullopt;
  }

  double number(const JsonNode& node, std::string_view key) {
    const auto found = member(node, key);
    return found ? number(*found) : 0.0;
  }

  double number(const JsonNode& node) {
    if (fault_) return 0.0;
    const auto value = node.number();
    if (value) return *value;
    fault_ = value.error();
    return 0.0;
  }

  int whole(const JsonNode& node, std::string_view key) {
    const auto found = member(node, key);
    return found ? whole(*found) : 0;
  }

  int whole(const JsonNode& node) {
    const double value = number(node);
    if (!fault_ && !(std::abs(value) < 1e9 && value == std::floor(value))) fault_ = node.fault("expected a whole number");
    return fault_ ? 0 : static_cast<int>(value);
  }

  bool flag(const JsonNode& node, std::string_view key) {
    const auto found = member(node, key);
    if (!found) return false;
    const auto value = found->printed();
    if (value != "true" && value != "false") fault_ = found->fault("expected true or false");
    return value == "true";
  }

  std::vector<JsonNode> items(const JsonNode& node, std::string_view key) {
    const auto found = member(node, key);
    return found ? items(*found) : std::vector<JsonNode>{};
  }

  std::vector<JsonNode> items(const JsonNode& node) {
    std::vector<JsonNode> all;
    if (!fault_ && !node.is_array()) fault_ = node.fault("expected an array");
    if (fault_) return all;
    for (std::size_t index = 0; index < node.size(); ++index) all.push_back(node.item(index));
    return all;
  }

  std::vector<double> numbers(const JsonNode& node, std::string_view key) {
    std::vector<double> all;
    for (const auto& item : items(node, key)) all.push_back(number(item));
    return all;
  }

  std::vector<int> wholes(const JsonNode& node, std::string_view key) {
    std::vector<int> all;
    for (const auto& item : items(node, key)) all.push_back(whole(item));
    return all;
  }

 private:
  std::optional<Fault> fault_;
};

plan::Point read_point(Reading& read, const JsonNode& node) { return {read.number(node, "x_km"), read.number(node, "y_km")}; }

std::optional<plan::CrewDay> crew_day(int day, int crew) {
  if (day == -1) return std::nullopt;
  return plan::CrewDay{day, crew};
}

plan::Job read_job(Reading& read, const JsonNode& node) {
  plan::Job job;
  job.at = read_point(read, node);
  job.weight = read.number(node, "weight");
  job.earliest = read.whole(node, "earliest");
  job.latest = read.whole(node, "latest");
  job.rig = read.flag(node, "rig");
  job.locked = read.flag(node, "locked");
  job.promised = crew_day(read.whole(node, "promised_day"), read.whole(node, "promised_crew"));
  job.crews = read.wholes(node, "crews");
  job.hours = read.numbers(node, "hours");
  job.chance = read.numbers(node, "chance");
  return job;
}

}  // namespace

units::Result<plan::Instance> read_instance(const std::string& content, std::string_view name) {
  const auto document = feeds::JsonDocument::parse(std::string(name), content);
  if (!document) return tl::make_unexpected(document.error());
  const JsonNode root = document->root();
  Reading read;
  plan::Instance instance;
  instance.days = read.whole(root, "days");
  instance.max_stops = read.whole(root, "max_stops");
  instance.rigs_per_day = read.wholes(root, "rigs_per_day");
  if (const auto worth = read.member(root, "objective"))
    instance.worth = {read.number(*worth, "late_per_day"),  read.number(*worth, "travel_per_h"), read.number(*worth, "move_day"),
                      read.number(*worth, "move_tomorrow"), read.number(*worth, "move_crew"),    read.number(*worth, "drop")};
  if (const auto travel = read.member(root, "travel"))
    instance.travel = {read.number(*travel, "detour"), read.number(*travel, "speed_km_h"), read.number(*travel, "stop_h")};
  for (const auto& crew : read.items(root, "crew")) instance.crews.push_back({read_point(read, crew), read.numbers(crew, "hours")});
  for (const auto& job : read.items(root, "job")) instance.jobs.push_back(read_job(read, job));
  if (read.fault()) return tl::make_unexpected(*read.fault());
  return instance;
}

std::string plan_file(const plan::Plan& plan) {
  std::string text = "{\"plan\":[";
  for (const auto& booked : plan) {
    if (text.back() != '[') text += ',';
    text += booked ? "[" + std::to_string(booked->day) + "," + std::to_string(booked->crew) + "]" : "[-1,-1]";
  }
  return text + "]}\n";
}

units::Result<plan::Plan> read_plan(const std::string& content, std::string_view name) {
  const auto document = feeds::JsonDocument::parse(std::string(name), content);
  if (!document) return tl::make_unexpected(document.error());
  Reading read;
  plan::Plan plan;
  for (const auto& item : read.items(document->root(), "plan")) {
    const auto pair = read.items(item);
    if (!read.fault() && pair.size() != 2) read.fault() = item.fault("expected [day, crew]");
    if (read.fault()) return tl::make_unexpected(*read.fault());
    plan.push_back(crew_day(read.whole(pair[0]), read.whole(pair[1])));
  }
  if (read.fault()) return tl::make_unexpected(*read.fault());
  return plan;
}

}  // namespace app
