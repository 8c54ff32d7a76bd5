#include "app/plan_facts.h"

#include <algorithm>

namespace app {
namespace {

using book::Record;

class Reader {
 public:
  Reader(store::Book& book, const Common& common) : book_(book), common_(common) {}

  PlanFacts read() {
    for (const char* state : {"under_way", "confirmed", "wanted"})
      for (Record& job : book_.list("job", {.equal = {{"state", state}}})) facts_.jobs.push_back(std::move(job));
    std::ranges::sort(facts_.jobs, {}, &Record::id);
    std::set<std::string> booked;
    for (const Record& job : facts_.jobs) {
      booked.insert(job.text("tree"));
      add_tree(job.text("tree"));
      if (was_moved(job.id)) facts_.moved_lately.insert(job.id);
    }
    for (DueTree& tree : due_trees(book_, common_, static_cast<std::size_t>(common_.models.office.most_trees)))
      if (!booked.contains(tree.tree.tree)) {
        add_tree(tree.tree.tree);
        facts_.due.push_back(std::move(tree));
      }
    facts_.crews = book_.list("crew", {});
    for (const Record& depot : book_.list("depot", {})) facts_.depots.emplace(depot.id, depot);
    facts_.people = {book_.list("member", {}), book_.list("licence", {}), book_.list("day_off", {})};
    facts_.rigs = book_.list("rig", {});
    facts_.tanks = book_.list("water_tank", {});
    facts_.rules = book_.list("rule", {});
    find_refused();
    return std::move(facts_);
  }

 private:
  void add_tree(const std::string& id) {
    auto tree = book_.find("tree", id);
    if (!tree || facts_.trees.contains(id)) return;
    const std::string site_id = tree->text("site");
    if (auto site = book_.find("site", site_id); site && !facts_.sites.contains(site_id)) {
      if (auto client = book_.find("client", site->text("client"))) facts_.clients.emplace(client->id, *client);
      facts_.sites.emplace(site_id, std::move(*site));
    }
    facts_.trees.emplace(id, std::move(*tree));
  }

  [[nodiscard]] bool was_moved(const std::string& job) {
    const auto since = common_.now - std::chrono::seconds{static_cast<long>(86400.0 * common_.models.planning.settled_d)};
    return std::ranges::any_of(book_.history({.kind = "job", .id = job}), [&](const book::HistoryEntry& entry) {
      const auto day = entry.changes.find("day");
      return entry.author.when > since && entry.what == "change" && day != entry.changes.end() && day->second.was && day->second.now;
    });
  }

  void find_refused() {
    const auto since = common_.now - std::chrono::seconds{static_cast<long>(3600.0 * common_.models.planning.refused_h)};
    for (const Record& move : book_.list("move", {.equal = {{"state", "refused"}}}))
      if (const auto proposal = book_.find("proposal", move.text("proposal")); proposal && *proposal->instant("made_at") > since)
        (move.text("job").empty() ? facts_.refused_trees : facts_.refused_lately)
            .insert(move.text(move.text("job").empty() ? "tree" : "job"));
  }

  store::Book& book_;
  const Common& common_;
  PlanFacts facts_;
};

}  // namespace

PlanFacts read_plan_facts(store::Book& book, const Common& common) {
  PlanFacts facts;
  book.at_one_moment([&] { facts = Reader{book, common}.read(); });
  return facts;
}

}  // namespace app
