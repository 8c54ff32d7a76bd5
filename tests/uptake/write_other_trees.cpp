// Writes the tables of other trees and soils anew into a document: build/release/other-trees docs/model/uptake.md
#include <fstream>
#include <iostream>
#include <sstream>

#include "uptake/other_trees.h"

int main(int count, char** arguments) {
  if (count != 2) {
    std::cerr << "usage: other-trees DOCUMENT\n";
    return 2;
  }
  std::ostringstream document;
  document << std::ifstream{arguments[1]}.rdbuf();
  std::ofstream{arguments[1]} << other_trees::with_tables(document.str());
  return 0;
}
