// What the book holds that a plan rests on, read at one moment.
#pragma once
#include <map>
#include <set>
#include <string>
#include <vector>

#include "app/due_command.h"
#include "app/request.h"
#include "book/crew_day.h"
#include "store/book.h"

namespace app {

struct PlanFacts {
  std::vector<book::Record> jobs;                                     // not removed: wanted, confirmed, under way
  std::map<std::string, book::Record> trees, sites, clients, depots;  // by id; of the jobs and due trees
  std::vector<book::Record> crews, rigs, tanks, rules;
  book::People people;
  std::set<std::string> moved_lately;    // jobs whose day was changed within Planning::settled_d
  std::set<std::string> refused_lately;  // jobs of which a move was refused within Planning::refused_h
  std::set<std::string> refused_trees;   // trees without a job whose booking was refused likewise
  std::vector<DueTree> due;              // without an open job
};

[[nodiscard]] PlanFacts read_plan_facts(store::Book& book, const Common& common);

}  // namespace app
