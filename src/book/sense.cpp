#include "book/sense.h"

#include <algorithm>
#include <array>

#include "book/flare_of_tree.h"
#include "book/kind.h"

namespace book {
namespace {

struct InOrder {
  const char *kind, *earlier, *later;
};

constexpr std::array in_order{InOrder{"day_off", "first_day", "last_day"},
                              InOrder{"rig", "out_from", "out_until"},
                              InOrder{"client", "consent_on", "consent_until"},
                              InOrder{"site", "ticket_called_on", "ticket_until"},
                              InOrder{"site", "ticket_from", "ticket_until"},
                              InOrder{"treatment", "started_at", "ended_at"},
                              InOrder{"job", "opened_at", "shut_by"}};

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
    if (const auto read = stretches(field, record.text(field)); record.kind == "tree" && !read) faults.push_back(read.error());
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
  std::vector<std::string> choices(1);
  for (const char c : own_field.text("choices"))
    if (c == ',')
      choices.emplace_back();
    else
      choices.back() += c;
  return choice_field(name, choices, label);
}

}  // namespace

Field described_by(const Record& own_field) {
  Field field = plain(own_field);
  field.required = own_field.yes("required");
  return field;
}

}  // namespace book
