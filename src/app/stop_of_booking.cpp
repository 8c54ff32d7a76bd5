#include "app/stop_of_booking.h"

#include <algorithm>

#include "app/words.h"
#include "days/crew_day.h"
#include "days/job_time.h"

namespace app {
namespace {

using book::Record;

void add_hours(const days::DayAnswer& answer, const days::TreeCase& tree, text::Stop& to) {
  const auto local = [&](units::UtcTime instant) { return tree.zone.to_local(instant); };
  to.arrive = local(answer.arrive);
  to.off_site_by = local(answer.off_site_by);
  to.verdict = answer.verdict;
  to.chance = answer.chance_all_clear;
  to.takes_h = answer.uptake_h;
  // Hazards of the hours on this site; what is over before the crew comes, or begins after it has left, is another stop's.
  for (const days::Hold& hold : answer.holds)
    if (hold.until > answer.arrive && hold.from < answer.off_site_by)
      to.holds.push_back({hold.code, local(hold.from), local(hold.until), hold.worst});
}

void add_mix(const days::TreeCase& tree, const days::SetUp& set_up, const Record& site, text::Stop& to) {
  to.mix_l = tree.subject.dose.value;
  to.flush_l = tree.subject.flush.value;
  to.ports = days::port_count(tree);
  to.tanks = days::tank_count(tree, set_up);
  if (site.text("water") == "none")
    to.haul_l = to.mix_l + to.flush_l;
  else
    to.water = site.text("water");
}

}  // namespace

std::string stop_name(const BookedStop& stop) {
  const std::string& tree = stop.tree.text("name");
  const std::string& site = stop.site.text("name");
  if (tree.empty()) return site.empty() ? stop.tree.id : site;
  const std::string first = site.substr(0, site.find(' '));
  return site.empty() || tree.find(first) != std::string::npos ? tree : tree + " (" + site + ")";
}

std::string law_line(const book::Finding& finding) {
  const std::string& needs = finding.rule.text("needs");
  const std::string no_valves = ": open no valves";
  if (needs == "ticket")
    return finding.why == book::Why::not_yet  ? "Do not dig before " + words::day(*finding.from) + ": utility ticket"
           : finding.why == book::Why::lapsed ? "Do not dig: utility ticket ended " + words::day(*finding.until)
                                              : "Do not dig: no utility ticket";
  if (needs == "consent") return (finding.why == book::Why::refused ? "Client refused" : "No client's consent") + no_valves;
  if (needs == "notice") return "Neighbors not told in time" + no_valves;
  if (needs == "posting") return "Signs not up in time" + no_valves;
  if (needs == "attended") return "Nobody to watch the lines" + no_valves;
  return "No valid licence on the crew" + no_valves;
}

bool can_open_valves(const days::DayAnswer& answer) { return answer.valves_open < answer.valves_shut_by; }

text::Stop stop_of_booking(const Common& common, const BookedStop& stop, const std::optional<Record>& client,
                           const std::vector<book::Finding>& law, const TreeReport* tree) {
  text::Stop to;
  to.name = stop_name(stop);
  to.code = stop.job.id;
  to.address = stop.site.text("address");
  to.gate = stop.site.text("gate");
  to.dog = stop.site.text("dog");
  if (client) to.home = client->text("contact");
  bool may_dig = true, lawful = true;
  for (const book::Finding& finding : law)
    if (finding.state == book::Lawful::missing) {
      lawful = false;
      may_dig = may_dig && finding.rule.text("needs") != "ticket";
      to.safety.push_back(law_line(finding));
    }
  if (tree == nullptr) {
    const units::LocalTime day{*stop.job.day("day")};
    const auto hour = [](double h) { return std::chrono::seconds{static_cast<long>(3600.0 * h)}; };
    to.arrive =
        day + stop.job.clock("start").value_or(std::chrono::minutes{static_cast<long>(60.0 * common.models.practice.day.earliest_start_h)});
    to.off_site_by = stop.leave_by ? day + *stop.leave_by : day + hour(common.models.practice.day.off_site_h);
    to.safety.push_back("Hours not known: open no valves");
  } else {
    const days::TreeCase& of = tree->tree.tree;
    const days::DayAnswer& answer = tree->answers.front();
    add_hours(answer, of, to);
    if (!of.dose_from_label) to.safety.push_back("No label dose in the book: mix nothing");
    if (lawful && of.dose_from_label && can_open_valves(answer)) {
      to.valves = text::Valves{of.zone.to_local(answer.valves_open), of.zone.to_local(answer.valves_shut_by)};
      add_mix(of, common.models.practice.set_up, stop.site, to);
    }
  }
  if (!to.valves && !stop.job.day("prepared_on")) {
    if (may_dig) to.prep.push_back("dig and brush the flare");
    to.prep.push_back(may_dig ? "measure, lay out" : "measure above ground");
  }
  return to;
}

}  // namespace app
