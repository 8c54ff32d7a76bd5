// What is wrong with a piece of input, in the one form every face prints: where, what was found, what was expected.
#pragma once
#include <string>
#include <tl/expected.hpp>

namespace units {

struct Fault {
  std::string where;     // a file with line, a field, a key: "trees.csv:4: dbh_cm"
  std::string found;     // the offending value as the user wrote it; may be empty
  std::string expected;  // "expected a number from 2 to 400"

  // One line for a person: "trees.csv:4: dbh_cm: 'forty': expected a number from 2 to 400".
  [[nodiscard]] std::string line() const {
    std::string text = where;
    if (!found.empty()) text += ": '" + found + "'";
    return text + ": " + expected;
  }
};

template <class T>
using Result = tl::expected<T, Fault>;

[[nodiscard]] inline tl::unexpected<Fault> fault(std::string where, std::string found, std::string expected) {
  return tl::make_unexpected(Fault{std::move(where), std::move(found), std::move(expected)});
}

}  // namespace units
