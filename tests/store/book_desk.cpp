// A desk that writes trees with their diameters until it is killed, and tells each that the book has acknowledged:
//   book-desk write ADDRESS NAME    one line on stdout for every acknowledged tree
//   book-desk verify ADDRESS FILE   every tree named in FILE is there with its diameter and its change, no tree without one, the book sound
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <iostream>
#include <set>
#include <string>

#include "store/book.h"

namespace {

store::Book open(const std::string& address) {
  return store::Book::open(*store::read_address(address), store::Book::Missing::create, "/tmp", units::UtcTime{});
}

book::Edit add(const std::string& kind, const std::string& id, const book::Fields& fields, std::size_t group = 0) {
  return {book::Edit::What::add, kind, id, fields, {}, group};
}

void tell(const std::string& line) {
  const std::string whole = line + "\n";
  if (::write(STDOUT_FILENO, whole.data(), whole.size()) < 0) ::_exit(3);
}

int write_trees(const std::string& address, const std::string& name) {
  auto book = open(address);
  const book::Author author{name, units::UtcTime{std::chrono::hours{24 * 20000}}};
  if (!book.find("site", "green"))
    (void)book.apply(
        {add("site", "green", {{"name", "x"}, {"lat", "43"}, {"lon", "-91"}, {"elevation_m", "300"}, {"zone", "UTC"}, {"soil", "loam"}})},
        author, store::Mode::all_or_nothing);
  for (int i = 0;; ++i) {
    const std::string id = name + "-" + std::to_string(i);
    const std::vector<book::Edit> edits{add("tree", id, {{"site", "green"}, {"species", "elm"}}, 1),
                                        add("diameter", "", {{"tree", id}, {"measured_on", "2026-05-01"}, {"dbh_cm", "90"}}, 1),
                                        {book::Edit::What::change, "tree", id, {{"ports", "41"}}, {}, 1}};
    if (!book.apply(edits, author, store::Mode::all_or_nothing).kept) return 1;
    tell(id);
  }
}

int verify(const std::string& address, const std::string& file) {
  auto book = open(address);
  int wrong = 0;
  const auto complain = [&](const std::string& line) {
    std::cout << line << "\n";
    ++wrong;
  };
  // Others may go on writing: what was acknowledged is read first, the tables in one snapshot after it.
  std::vector<std::string> acknowledged;
  std::ifstream lines{file};
  for (std::string id; std::getline(lines, id);) acknowledged.push_back(id);
  std::set<std::string> trees, measured;
  book.each_row([&](const store::Table& table, const store::Cells& row) {
    const auto cell = [&](const char* name) {
      return row[static_cast<std::size_t>(std::ranges::find(table.columns, name, &store::TableColumn::name) - table.columns.begin())]
          .value_or("");
    };
    if (table.name == "tree") trees.insert(cell("id"));
    if (table.name == "tree" && cell("ports") != "41") complain(cell("id") + ": half a change");
    if (table.name == "diameter") measured.insert(cell("tree"));
  });
  if (trees != measured) complain("trees and diameters differ: half a change");
  for (const std::string& id : acknowledged)
    if (!trees.contains(id)) complain(id + ": acknowledged and lost");
  for (const auto& line : book.check()) complain(line);
  std::cout << trees.size() << " trees\n";
  return wrong == 0 ? 0 : 1;
}

}  // namespace

int main(int count, char** arguments) {
  try {
    const std::string what = count == 4 ? arguments[1] : "";
    if (what == "write") return write_trees(arguments[2], arguments[3]);
    if (what == "verify") return verify(arguments[2], arguments[3]);
  } catch (const store::Failure& failure) {
    std::cerr << failure.what() << "\n";
    return 5;
  }
  return 2;
}
