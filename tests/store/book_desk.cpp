// A desk that writes trees with their diameters until it is killed, and tells each that the book has acknowledged:
//   book-desk write ADDRESS NAME    one line on stdout for every acknowledged tree
//   book-desk verify ADDRESS FILE   every tree named in FILE is there with its diameter and its change, no tree without one, the book sound
#include <unistd.h>

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
  const book::Author author{name, units::UtcTime{}};
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
  std::set<std::string> trees, measured;
  for (const auto& tree : book.list("tree", {})) {
    trees.insert(tree.id);
    if (tree.text("ports") != "41") complain(tree.id + ": half a change");
  }
  for (const auto& diameter : book.list("diameter", {})) measured.insert(diameter.text("tree"));
  if (trees != measured) complain("trees and diameters differ: half a change");
  std::ifstream acknowledged{file};
  for (std::string id; std::getline(acknowledged, id);)
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
