#include "app/lawful_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/edit_plan.h"
#include "app/words.h"
#include "book/crew_day.h"

namespace app {
namespace {

using book::Finding;
using book::Record;

std::optional<Record> linked(store::Book& book, const std::optional<Record>& from, const char* kind) {
  return from && !from->text(kind).empty() ? book.find(kind, from->text(kind)) : std::nullopt;
}

void add_crew(store::Book& book, const Record& job, book::JobFacts& facts) {
  const std::string& crew = job.text("crew");
  facts.has_crew = !crew.empty();
  if (!facts.has_crew) return;
  book::People people{book.list("member", {.equal = {{"crew", crew}}}), {}, book.list("day_off", {.equal = {{"crew", crew}}})};
  for (const Record& member : people.members) {
    for (Record& licence : book.list("licence", {.equal = {{"member", member.id}}})) people.licences.push_back(std::move(licence));
    for (Record& off : book.list("day_off", {.equal = {{"member", member.id}}})) people.days_off.push_back(std::move(off));
  }
  book::AtWork there = book::at_work(people, crew, facts.day);
  facts.members_at_work = there.members.size();
  facts.licences = std::move(there.licences);
}

std::string what(const Finding& finding) {
  const std::string& needs = finding.rule.text("needs");
  if (needs == "consent") return "client's consent";
  if (needs == "notice") return "neighbours' notice";
  if (needs == "posting") return "signs";
  if (needs == "ticket") return "utility locate ticket";
  if (needs == "attended") return "somebody at the lines";
  const std::string& category = finding.rule.text("category");
  return category.empty() ? "licence" : "licence, category " + category;
}

std::string reason(const Finding& finding, const units::ZoneOffsets& zone) {
  switch (finding.why) {
    case book::Why::not_entered:
      return "not entered";
    case book::Why::refused:
      return "refused";
    case book::Why::too_late: {
      const auto wall = zone.to_local(*finding.before);
      return fmt::format("had to be there by {} {}", words::dated(std::chrono::floor<std::chrono::days>(wall)), words::clock(wall));
    }
    case book::Why::not_yet:
      return "holds from " + words::dated(*finding.from) + " only";
    case book::Why::lapsed:
      return "held until " + words::dated(*finding.until) + " only";
    case book::Why::nobody:
      return "nobody on the crew that day";
    case book::Why::nothing:
      break;
  }
  return finding.until ? "holds until " + words::dated(*finding.until) : "there";
}

}  // namespace

std::vector<Finding> findings_of(store::Book& book, const Common& common, const Record& job) {
  const auto day = job.day("day");
  const auto site = linked(book, linked(book, job, "tree"), "site");
  const auto rules = book.list("rule", {});
  if (!day || !site || rules.empty()) return {};

  const auto zone = zone_of_record(book, common, job).value_or(units::ZoneOffsets::utc());
  book::JobFacts facts{*day,  zone.to_utc(units::LocalTime{*day} + job.clock("start").value_or(std::chrono::minutes{0})),
                       zone,  linked(book, site, "client"),
                       *site, {},
                       0,     false};
  add_crew(book, job, facts);
  return book::lawful(rules, facts, common.models.office.warn_days);
}

std::string finding_key(const Finding& finding) {
  return finding.state == book::Lawful::met ? "met" : finding.state == book::Lawful::expiring ? "expiring" : "missing";
}

std::string why_key(const Finding& finding) {
  switch (finding.why) {
    case book::Why::not_entered:
      return "not_entered";
    case book::Why::refused:
      return "refused";
    case book::Why::too_late:
      return "too_late";
    case book::Why::not_yet:
      return "not_yet";
    case book::Why::lapsed:
      return "lapsed";
    case book::Why::nobody:
      return "nobody";
    case book::Why::nothing:
      break;
  }
  return {};
}

std::string finding_text(const Finding& finding, const units::ZoneOffsets& zone) {
  const char* mark = finding.state == book::Lawful::met ? "met" : finding.state == book::Lawful::expiring ? "EXPIRING" : "MISSING";
  const std::string& law = finding.rule.text("law");
  return fmt::format("{:<9}{}: {} (rule {}{})", mark, what(finding), reason(finding, zone), finding.rule.id, law.empty() ? "" : ", " + law);
}

std::vector<std::string> reopened(store::Book& book, const Common& common, const Record& before, const Record& moved) {
  std::vector<std::string> lines;
  const auto was = findings_of(book, common, before), is = findings_of(book, common, moved);
  const auto zone = zone_of_record(book, common, moved).value_or(units::ZoneOffsets::utc());
  for (std::size_t i = 0; i < is.size(); ++i) {
    const bool met_before = i < was.size() && was[i].state != book::Lawful::missing;
    if (is[i].state == book::Lawful::missing && met_before) lines.push_back("opens again: " + finding_text(is[i], zone));
  }
  return lines;
}

}  // namespace app
