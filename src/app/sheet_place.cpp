#include "app/sheet_place.h"

#include <utility>

#include "app/words.h"

namespace app {
namespace {

using book::Record;

// "gate 4711, dog friendly": what is known, by the words in front.
std::string joined(const std::vector<std::pair<std::string, std::string>>& parts) {
  std::string line;
  for (const auto& [word, value] : parts)
    if (!value.empty()) line += (line.empty() ? "" : ", ") + (word.empty() ? value : word + " " + value);
  return line;
}

}  // namespace

std::vector<std::string> place_of_tree(store::Book& book, const Record& tree, const std::optional<Record>& job) {
  const auto linked = [&](const std::optional<Record>& from, const char* kind) {
    return (from ? book.find(kind, from->text(kind)) : std::nullopt).value_or(Record{kind, ""});
  };
  const Record site = linked(tree, "site"), client = linked(site, "client"), crew = linked(job, "crew");
  const auto start = job ? job->clock("start") : std::nullopt;
  const bool own_place = !tree.text("lat").empty();
  const Record& at = own_place ? tree : site;
  std::vector<std::string> lines;
  for (std::string line : {joined({{"", site.text("name")}, {"", site.text("address")}, {"", at.text("lat") + " " + at.text("lon")}}),
                           joined({{"gate", site.text("gate")},
                                   {"dog", site.text("dog")},
                                   {"parking", site.text("parking")},
                                   {"water", site.text("water")},
                                   {"tag", tree.text("tag")}}),
                           joined({{"for", client.text("name")}, {"ask for", client.text("contact")}, {"", client.text("phone")}}),
                           joined({{"job", job ? job->id : ""},
                                   {"crew", crew.text("name")},
                                   {"on site from", start ? words::clock(units::LocalTime{*start}) : ""}})})
    if (!line.empty()) lines.push_back(std::move(line));
  return lines;
}

}  // namespace app
