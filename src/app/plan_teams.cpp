#include "app/plan_teams.h"

#include <algorithm>

namespace app {
namespace {

using book::Record;
using units::LocalDay;

bool is_out(const std::vector<WhatIf>& ifs, WhatIf::What what, const std::string& id, LocalDay day) {
  return std::ranges::any_of(ifs, [&](const WhatIf& one) { return one.what == what && one.id == id && (!one.day || *one.day == day); });
}

bool works(const Record& rig, const std::vector<WhatIf>& ifs, LocalDay day) {
  const auto from = rig.day("out_from"), until = rig.day("out_until");
  const bool out = from && *from <= day && (!until || day <= *until);
  return !out && !is_out(ifs, WhatIf::What::rig_down, rig.id, day);
}

double hours(std::optional<std::chrono::minutes> clock, double otherwise_h) {
  return clock ? std::chrono::duration<double, std::ratio<3600>>(*clock).count() : otherwise_h;
}

plan::Team team_of(const Common& common, const PlanFacts& facts, const std::vector<WhatIf>& ifs, const Record& crew, LocalDay first_day,
                   int days) {
  const auto& usual = common.models.practice.day;
  plan::Team team;
  team.overtime_h = crew.number("overtime_h").value_or(0.0);
  for (const Record& tank : facts.tanks)
    if (tank.text("crew") == crew.id) team.tank_l = team.tank_l.value_or(0.0) + tank.number("volume_l").value_or(0.0);
  const bool has_people = std::ranges::any_of(facts.people.members, [&](const Record& one) { return one.text("crew") == crew.id; });
  for (int index = 0; index < days; ++index) {
    const LocalDay day = first_day + std::chrono::days{index};
    const auto there = book::at_work(facts.people, crew.id, day);
    const bool off = !book::goes_out(crew, facts.people.days_off, day) || (has_people && there.members.empty()) ||
                     is_out(ifs, WhatIf::What::crew_out, crew.id, day);
    team.from_h.push_back(off ? 0.0 : hours(crew.clock("works_from"), usual.earliest_start_h));
    team.until_h.push_back(off ? 0.0 : hours(crew.clock("works_until"), usual.off_site_h));
    team.people.push_back(std::max<int>(1, static_cast<int>(there.members.size())));
    const bool licensed =
        std::ranges::any_of(there.licences, [&](const Record& one) { return one.text("expires_on") >= units::to_text(day); });
    const auto pumps =
        std::ranges::count_if(facts.rigs, [&](const Record& rig) { return rig.text("crew") == crew.id && works(rig, ifs, day); });
    team.pumps.push_back(licensed ? std::max(1, static_cast<int>(pumps)) : 1);
  }
  return team;
}

// Crews without a rig of their own go out with one of nobody's, or with another crew's spare one, which then does not pump beside its
// first.
void lend_spare_rigs(const PlanFacts& facts, const std::vector<WhatIf>& ifs, LocalDay day, std::size_t index, plan::Office& office) {
  const auto owned_by = [&](const Record& rig, const Record& crew) { return rig.text("crew") == crew.id && works(rig, ifs, day); };
  int wanting = 0;
  for (std::size_t crew = 0; crew < facts.crews.size(); ++crew) {
    const bool has = std::ranges::any_of(facts.rigs, [&](const Record& rig) { return owned_by(rig, facts.crews[crew]); });
    if (!has && office.teams[crew].from_h[index] < office.teams[crew].until_h[index]) ++wanting;
  }
  for (const Record& rig : facts.rigs)
    if (works(rig, ifs, day) && std::ranges::none_of(facts.crews, [&](const Record& crew) { return owned_by(rig, crew); })) --wanting;
  for (plan::Team& team : office.teams) team.pumps[index] = std::max(1, team.pumps[index] - std::max(0, wanting));
}

}  // namespace

void add_teams(const Common& common, const PlanFacts& facts, const std::vector<WhatIf>& ifs, LocalDay first_day,
               const std::function<plan::Point(double, double)>& place, plan::Office& office, Outcome& outcome) {
  for (const Record& crew : facts.crews) {
    plan::Team team = team_of(common, facts, ifs, crew, first_day, office.days);
    const auto depot = facts.depots.find(crew.text("depot"));
    const auto latitude = depot == facts.depots.end() ? std::nullopt : depot->second.number("lat");
    const auto longitude = depot == facts.depots.end() ? std::nullopt : depot->second.number("lon");
    if (latitude && longitude)
      team.depot = place(*latitude, *longitude);
    else
      outcome.warn("crew " + crew.id + ": depot: expected one with latitude and longitude: taken to start amid all sites");
    office.teams.push_back(std::move(team));
  }
  for (int index = 0; index < office.days; ++index) {
    const LocalDay day = first_day + std::chrono::days{index};
    lend_spare_rigs(facts, ifs, day, static_cast<std::size_t>(index), office);
    const auto rigs = std::ranges::count_if(facts.rigs, [&](const Record& rig) { return works(rig, ifs, day); });
    office.rigs_per_day.push_back(facts.rigs.empty() ? static_cast<int>(facts.crews.size()) : static_cast<int>(rigs));
  }
  if (facts.rigs.empty() && !facts.crews.empty()) outcome.warn("rigs: the book has none: every crew is taken to have one");
}

}  // namespace app
