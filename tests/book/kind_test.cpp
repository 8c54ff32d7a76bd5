// The list of kinds holds together.
#include "book/kind.h"

#include <doctest/doctest.h>

#include <set>

TEST_SUITE("book: kinds") {
  TEST_CASE("every kind and every field of a kind has a name of its own, of small letters, digits and _") {
    std::set<std::string> names, prefixes, plurals;
    const auto plain = [](const std::string& name) {
      return name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == std::string::npos;
    };
    for (const book::Kind& kind : book::kinds()) {
      CHECK(names.insert(kind.name).second);
      CHECK(plurals.insert(kind.plural).second);
      CHECK_MESSAGE(prefixes.insert(kind.prefix).second, kind.prefix);
      CHECK(plain(kind.name));
      std::set<std::string> fields{"id", "version", "removed", "own"};
      for (const book::Field& field : kind.fields) {
        CHECK_MESSAGE(fields.insert(field.name).second, field.name);
        CHECK(plain(field.name));
        CHECK(!field.help.empty());
      }
    }
  }
  TEST_CASE("a kind links only to kinds listed before it") {
    std::set<std::string> before;
    for (const book::Kind& kind : book::kinds()) {
      for (const book::Field& field : kind.fields)
        if (field.type == book::FieldType::link) CHECK_MESSAGE(before.contains(field.links_to), kind.name << "." << field.name);
      before.insert(kind.name);
    }
  }
  TEST_CASE("limits and choices stand where a type needs them") {
    for (const book::Kind& kind : book::kinds())
      for (const book::Field& field : kind.fields) {
        const bool numeric = field.type == book::FieldType::number || field.type == book::FieldType::whole;
        CHECK((field.lowest < field.highest) == numeric);
        CHECK(!field.choices.empty() == (field.type == book::FieldType::choice));
      }
  }
}
