#include "book/sense.h"

#include <algorithm>
#include <array>
#include <sstream>

#include "book/flare_of_tree.h"
#include "book/kind.h"
#include "units/text.h"

namespace book {
namespace {

struct InOrder {
  const char *kind, *earlier, *later;
};

constexpr std::array in_order{InOrder{"day_off", "first_day", "last_day"},      InOrder{"rig", "out_from", "out_until"},
                              InOrder{"client", "consent_on", "consent_until"}, InOrder{"site", "ticket_called_on", "ticket_until"},
                              InOrder{"site", "ticket_from", "ticket_until"},   InOrder{"site", "work_from", "work_until"},
                              InOrder{"crew", "works_from", "works_until"},     InOrder{"job", "not_before", "not_after"},
                              InOrder{"treatment", "started_at", "ended_at"},   InOrder{"job", "opened_at", "shut_by"},
                              InOrder{"message", "made_at", "not_after"}};

}  // namespace

std::vector<units::Fault> nonsense(const Record& record) {
  std::vector<units::Fault> faults;
  // Days and instants are texts that sort by time.
  for (const InOrder& pair : in_order) {
    const std::string &earlier = record.text(pair.earlier), &later = record.text(pair.later);
    if (record.kind == pair.kind && !earlier.empty() && !later.empty() && later < earlier)
      faults.push_back({pair.later, later, std::string{"expected "} + pair.earlier + " (" + earlier + ") or later"});
  }
  for (const char* field : {"bad_sectors", "ridges"})
    if (const auto read = stretches(field, record.text(field)); record.kind == "tree" && !read)
      faults.push_back(read.error());
    else if (record.kind == "tree" && record.text("flare_cm").empty() && std::string_view{field} == "ridges" &&
             std::ranges::any_of(*read, [](const auto& ridge) { return ridge.second < ridge.first; }))
      faults.push_back({field, record.text(field), "expected flare_cm beside a ridge that runs over the tag"});
  if (record.kind == "day_off" && record.text("crew").empty() && record.text("member").empty())
    faults.push_back({"crew", "", "expected a crew or a member who is off"});
  if (record.kind == "message" && record.text("crew").empty() && record.text("client").empty() && record.text("purpose") != "office")
    faults.push_back({"crew", "", "expected a crew or a client to tell, or the purpose office"});
  if (record.kind == "message" && (record.text("state") == "queued" || record.text("state") == "sending"))
    for (const char* field : {"purpose", "road", "made_at", "not_after", "next_try_at"})
      if (record.text(field).empty()) faults.push_back({field, "", "expected a value: the message is to be sent"});
  if ((record.kind == "crew" || record.kind == "client") && record.text("quiet_from").empty() != record.text("quiet_until").empty())
    faults.push_back(
        {record.text("quiet_from").empty() ? "quiet_from" : "quiet_until", "", "expected quiet_from and quiet_until together"});
  if (record.kind == "treatment") {
    const auto day = record.day("day");
    const auto begun = record.instant("started_at"), ended = record.instant("ended_at");
    // A day at the tree is within a day of its UTC date; nobody runs a tree for longer than three.
    if (const auto apart =
            day && begun ? units::LocalDay{std::chrono::floor<std::chrono::days>(*begun).time_since_epoch()} - *day : std::chrono::days{0};
        apart > std::chrono::days{1} || apart < std::chrono::days{-1})
      faults.push_back({"started_at", record.text("started_at"), "expected an instant of " + record.text("day")});
    if (begun && ended && *ended - *begun > std::chrono::hours{72})
      faults.push_back({"ended_at", record.text("ended_at"), "expected an instant within three days of " + record.text("started_at")});
  }
  if (record.kind == "crew" || record.kind == "site") {
    std::istringstream days{record.text("work_days")};
    constexpr std::array<std::string_view, 7> week{"Mo", "Tu", "We", "Th", "Fr", "Sa", "Su"};
    for (std::string day; days >> day;)
      if (std::ranges::find(week, day) == week.end())
        faults.push_back({"work_days", units::for_message(day), "expected days of the week: Mo Tu We Th Fr Sa Su"});
  }
  if (record.kind == "own_field") {
    const auto more = nonsense_in_own_field(record);
    faults.insert(faults.end(), more.begin(), more.end());
  }
  return faults;
}

std::vector<units::Fault> nonsense_in_own_field(const Record& record) {
  std::vector<units::Fault> faults;
  const std::string &of_kind = record.text("of_kind"), &name = record.text("name");
  if (!of_kind.empty() && (find_kind(of_kind) == nullptr || of_kind == "own_field"))
    faults.push_back({"of_kind", of_kind, "expected a kind of record such as tree, site or treatment"});
  const auto plain = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; };
  if (!name.empty() && (name.size() > 40 || !std::ranges::all_of(name, plain)))
    faults.push_back({"name", name, "expected small letters, digits and _, at most 40"});
  if (record.text("type") == "choice" && record.text("choices").empty()) faults.push_back({"choices", "", "expected the choices: a,b,c"});
  return faults;
}

namespace {

Field plain(const Record& own_field) {
  const std::string name = "own_" + own_field.text("name"), &type = own_field.text("type");
  const std::string& label = own_field.text("label").empty() ? own_field.text("name") : own_field.text("label");
  if (type == "note") return note_field(name, label);
  if (type == "whole") return whole_field(name, -1e9, 1e9, label);
  if (type == "number") return number_field(name, -1e12, 1e12, label);
  if (type == "day") return day_field(name, label);
  if (type == "yes_no") return yes_no_field(name, label);
  if (type != "choice") return text_field(name, label);
  std::vector<std::string> choices;
  std::string_view rest = own_field.text("choices");
  while (!rest.empty()) {
    const auto comma = std::min(rest.find(','), rest.size());
    if (const auto choice = units::trimmed(rest.substr(0, comma)); !choice.empty()) choices.emplace_back(choice);
    rest.remove_prefix(std::min(comma + 1, rest.size()));
  }
  return choice_field(name, choices, label);
}

}  // namespace

Field described_by(const Record& own_field) {
  Field field = plain(own_field);
  field.required = own_field.yes("required");
  field.personal = own_field.yes("personal");
  return field;
}

}  // namespace book
