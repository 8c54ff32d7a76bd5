#include "app/record_faults.h"

#include <fmt/format.h>

#include "units/text.h"

namespace app {
namespace {

std::string in_quotes(const std::optional<std::string>& value) { return value ? "'" + units::for_message(*value) + "'" : "nothing"; }

}  // namespace

std::vector<std::string> conflict_lines(const std::string& kind, const std::string& id, const book::Conflict& conflict) {
  std::vector<std::string> lines{fmt::format("{} {}: --seen: '{}': expected {}: {} changed it at {}; nothing was written", kind, id,
                                             conflict.seen, conflict.present, conflict.by.empty() ? "nobody" : conflict.by,
                                             units::to_text(conflict.at))};
  for (const auto& [field, theirs] : conflict.theirs) {
    std::string line = fmt::format("{} {}: {}: was {}, now {}", kind, id, field, in_quotes(theirs.was), in_quotes(theirs.now));
    if (const auto mine = conflict.mine.find(field); mine != conflict.mine.end())
      line += fmt::format(", yours {}", in_quotes(mine->second));
    lines.push_back(line);
  }
  for (const auto& [field, mine] : conflict.mine)
    if (!conflict.theirs.contains(field))
      lines.push_back(fmt::format("{} {}: {}: yours {}, theirs unchanged", kind, id, field, in_quotes(mine)));
  return lines;
}

void tell_refusals(const store::Applied& applied, const std::function<std::string(std::size_t edit)>& where, Outcome& outcome) {
  for (const store::Refusal& refusal : applied.refusals) {
    const std::string place = where(refusal.edit);
    for (units::Fault fault : refusal.faults) {
      fault.where = place + fault.where;
      outcome.refuse(fault);
    }
  }
}

}  // namespace app
