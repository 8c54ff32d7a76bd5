// Changes of records: kept whole with who and when, refused with the field named, never laid over another's unseen.
#include <doctest/doctest.h>

#include "support/book_place.h"

using book::Edit;
using store::Mode;

namespace {

std::vector<std::string> lines(const store::Applied& applied) {
  std::vector<std::string> all;
  for (const auto& refusal : applied.refusals)
    for (const auto& fault : refusal.faults) all.push_back(fault.line());
  return all;
}

std::string only_line(const store::Applied& applied) {
  const auto all = lines(applied);
  REQUIRE(all.size() == 1);
  return all.front();
}

store::Applied apply(store::Book& book, const std::vector<Edit>& edits, Mode mode = Mode::all_or_nothing) {
  return book.apply(edits, ann(), mode);
}

const Edit elm = add("tree", "elm-1", {{"site", "green"}, {"species", "American elm"}, {"dose_l", "250.1"}});

}  // namespace

TEST_SUITE("store: edits") {
  TEST_CASE("an added record is found as it was written, in canonical text, at version 1") {
    const BookPlace place;
    auto book = place.open();
    keep(book,
         {some_site(), add("tree", "elm-1",
                           {{"site", "green"}, {"species", " American elm "}, {"dose_l", "250.10"}, {"note", "a\r\nb"}, {"name", ""}})});
    const auto tree = book.find("tree", "elm-1");
    REQUIRE(tree);
    CHECK(tree->version == 1);
    CHECK(!tree->removed);
    CHECK(tree->fields == book::Fields{{"site", "green"}, {"species", "American elm"}, {"dose_l", "250.1"}, {"note", "a\nb"}});
    CHECK(!book.find("tree", "elm-2"));
  }
  TEST_CASE("a change touches the fields it names, and an empty one clears") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), elm});
    keep(book, {change("tree", "elm-1", {{"dose_l", ""}, {"ports", "41"}})});
    const auto tree = book.find("tree", "elm-1");
    CHECK(tree->version == 2);
    CHECK(tree->fields == book::Fields{{"site", "green"}, {"species", "American elm"}, {"ports", "41"}});
  }
  TEST_CASE("a change to what stands there already is none") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), elm});
    const auto applied = apply(book, {change("tree", "elm-1", {{"dose_l", "250.10"}})});
    CHECK(applied.written.front().unchanged);
    CHECK(book.find("tree", "elm-1")->version == 1);
    CHECK(book.history({}).size() == 2);
  }
  TEST_CASE("what cannot be is refused with the field named, and nothing of it is kept") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), elm});
    CHECK(only_line(apply(book, {change("tree", "elm-1", {{"dose_l", "lots"}})})) == "dose_l: 'lots': expected a number from 0.1 to 5000");
    CHECK(only_line(apply(book, {change("tree", "elm-1", {{"site", "nowhere"}})})) ==
          "site: 'nowhere': expected the id of a site in the book");
    CHECK(only_line(apply(book, {change("tree", "elm-1", {{"height", "3"}})})) == "height: expected a field of a tree");
    CHECK(only_line(apply(book, {change("tree", "elm-9", {{"ports", "3"}})})) == "tree: 'elm-9': expected the id of a tree in the book");
    CHECK(only_line(apply(book, {change("tree", "elm-1", {{"species", ""}})})).find("species: expected a text") == 0);
    CHECK(only_line(apply(book, {elm})) == "tree: 'elm-1': expected another id: there is such a tree");
    CHECK(only_line(apply(book, {add("tree", " x", {{"site", "green"}, {"species", "elm"}})})).find("tree: ' x': expected an id") == 0);
    CHECK(only_line(apply(book, {add("shrub", "x", {})})) == "kind: 'shrub': expected a kind of record that there is");
    CHECK(book.find("tree", "elm-1")->version == 1);
    CHECK(book.history({}).size() == 2);
  }
  TEST_CASE("all faults of a record are told at once") {
    const BookPlace place;
    auto book = place.open();
    CHECK(lines(apply(book, {add("tree", "x", {{"site", "nowhere"}, {"dose_l", "0"}})})).size() == 3);
  }
  TEST_CASE("hostile texts are kept as they are or refused by their field") {
    const BookPlace place;
    auto book = place.open();
    const std::string sql = "x'); DROP TABLE tree; --", emoji = "\xF0\x9F\x8C\xB3\xF0\x9F\x8F\xBD",
                      right_to_left = "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xE2\x80\xAE";
    keep(book,
         {some_site(),
          add("tree", sql,
              {{"site", "green"}, {"species", "elm"}, {"name", emoji}, {"tag", ":id ? $1 %s"}, {"note", std::string(1'000'000, 'n')}}),
          add("tree", "../../etc", {{"site", "green"}, {"species", right_to_left}})});
    CHECK(book.find("tree", sql)->text("name") == emoji);
    CHECK(book.find("tree", sql)->text("tag") == ":id ? $1 %s");
    CHECK(book.find("tree", sql)->text("note").size() == 1'000'000);
    CHECK(book.find("tree", "../../etc")->text("species") == right_to_left);
    CHECK(only_line(apply(book, {change("tree", sql, {{"name", std::string{"a\0b", 3}}})})) ==
          "name: 'a?b': expected a text without NUL bytes");
    CHECK(only_line(apply(book, {change("tree", sql, {{"full_leaf_on", "2026-02-30"}})})).find("full_leaf_on: '2026-02-30'") == 0);
    CHECK(book.check().empty());
  }
  TEST_CASE("one refused edit keeps all from being written, unless the good ones are asked for") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site()});
    const std::vector<Edit> mixed{elm, add("tree", "bad", {{"site", "green"}}),
                                  add("tree", "elm-2", {{"site", "green"}, {"species", "elm"}})};
    CHECK(!apply(book, mixed).kept);
    CHECK(!apply(book, mixed, Mode::dry_run).kept);
    CHECK(book.count("tree", true) == 0);
    const auto good = apply(book, mixed, Mode::take_good);
    CHECK(good.kept);
    CHECK(good.refusals.front().edit == 1);
    CHECK(book.count("tree", true) == 2);
    CHECK(book.check().empty());
  }
  TEST_CASE("edits of one group stand and fall together") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site()});
    const auto pair = [](const std::string& tree, const std::string& dbh, std::size_t group) {
      return std::vector{add("tree", tree, {{"site", "green"}, {"species", "elm"}}, group),
                         add("diameter", "", {{"tree", tree}, {"measured_on", "2026-05-01"}, {"dbh_cm", dbh}}, group)};
    };
    std::vector<Edit> edits = pair("a", "50", 1);
    for (const auto& more : {pair("b", "1", 2), pair("c", "60", 3)}) edits.insert(edits.end(), more.begin(), more.end());
    const auto applied = apply(book, edits, Mode::take_good);
    CHECK(applied.refusals.size() == 1);
    CHECK(book.find("tree", "a"));
    CHECK(!book.find("tree", "b"));
    CHECK(book.find("tree", "c"));
    CHECK(book.count("diameter", true) == 2);
    CHECK(book.check().empty());
  }
  TEST_CASE("ids that nobody gave are the next free number") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {add("client", "K2", {{"name", "a"}}), add("client", "", {{"name", "b"}}), add("client", "", {{"name", "c"}})});
    std::vector<std::string> ids;
    for (const auto& client : book.list("client", {})) ids.push_back(client.id);
    CHECK(ids == std::vector<std::string>{"K1", "K2", "K3"});
  }
  TEST_CASE("a change from an older view is a conflict that shows both sides") {
    const BookPlace place;
    auto desk_a = place.open();
    auto desk_b = place.open();
    keep(desk_a, {some_site(), elm});
    keep(desk_a, {change("tree", "elm-1", {{"dose_l", "260"}})});
    keep(desk_a, {change("tree", "elm-1", {{"dose_l", "270"}, {"ports", "40"}})});
    Edit late = change("tree", "elm-1", {{"dose_l", "300"}});
    late.version = 1;
    const auto applied = apply(desk_b, {late});
    CHECK(!applied.kept);
    REQUIRE(applied.refusals.front().conflict);
    const auto& conflict = *applied.refusals.front().conflict;
    CHECK(conflict.present == 3);
    CHECK(conflict.by == "Ann");
    CHECK(conflict.theirs.at("dose_l") == book::Changed{"250.1", "270"});
    CHECK(conflict.theirs.at("ports") == book::Changed{std::nullopt, "40"});
    CHECK(conflict.mine == book::Fields{{"dose_l", "300"}});
    CHECK(desk_b.find("tree", "elm-1")->text("dose_l") == "270");
    late.version = 3;
    CHECK(apply(desk_b, {late}).kept);
  }
  TEST_CASE("a removed record leaves lists, keeps its history and can come back") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), elm});
    CHECK(only_line(apply(book, {{Edit::What::remove, "site", "green"}})) == "site: 'green': expected no tree left to it: elm-1");
    keep(book, {{Edit::What::remove, "tree", "elm-1"}});
    CHECK(book.list("tree", {}).empty());
    CHECK(book.list("tree", {.with_removed = true}).size() == 1);
    CHECK(book.find("tree", "elm-1")->removed);
    CHECK(only_line(apply(book, {change("tree", "elm-1", {{"ports", "4"}})})).find("expected a tree that was not removed") !=
          std::string::npos);
    CHECK(only_line(apply(book, {elm})) == "tree: 'elm-1': expected another id: a removed tree had this one");
    CHECK(only_line(apply(book, {add("diameter", "", {{"tree", "elm-1"}, {"measured_on", "2026-05-01"}, {"dbh_cm", "90"}})}))
              .find("tree: 'elm-1'") == 0);
    keep(book, {{Edit::What::bring_back, "tree", "elm-1"}});
    CHECK(book.list("tree", {}).size() == 1);
    CHECK(book.check().empty());
  }
  TEST_CASE("an application record is corrected with a reason, and its first version stays in history") {
    const BookPlace place;
    auto book = place.open();
    keep(book,
         {some_site(), elm, add("treatment", "R1", {{"tree", "elm-1"}, {"outcome", "done"}, {"day", "2026-07-09"}, {"mix_l", "250"}})});
    CHECK(only_line(apply(book, {change("treatment", "R1", {{"mix_l", "240"}})})).find("--why: expected a reason") == 0);
    CHECK(only_line(apply(book, {{Edit::What::remove, "treatment", "R1"}})).find("--why: expected a reason") == 0);
    CHECK(book.apply({change("treatment", "R1", {{"mix_l", "240"}})}, {"Ann", units::UtcTime{}, "misread"}, Mode::all_or_nothing).kept);
    const auto history = book.history({.kind = "treatment", .id = "R1"});
    REQUIRE(history.size() == 2);
    CHECK(history[0].changes.at("mix_l").now == "250");
    CHECK(history[1].changes.at("mix_l") == book::Changed{"250", "240"});
    CHECK(history[1].author.why == "misread");
  }
  TEST_CASE("the owner's own fields are fields like the others") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), elm, add("own_field", "F1", {{"of_kind", "tree"}, {"name", "parcel"}, {"type", "whole"}})});
    keep(book, {change("tree", "elm-1", {{"own_parcel", "77"}})});
    CHECK(book.find("tree", "elm-1")->text("own_parcel") == "77");
    CHECK(only_line(apply(book, {change("tree", "elm-1", {{"own_parcel", "north"}})})).find("own_parcel: 'north'") == 0);
    CHECK(book.kind_with_own("tree").field("own_parcel") != nullptr);
    CHECK(book.check().empty());
  }
  TEST_CASE("what comes back must have what it leans on") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), elm, add("job", "j", {{"tree", "elm-1"}, {"state", "done"}})});
    keep(book, {{Edit::What::remove, "tree", "elm-1"}});
    keep(book, {{Edit::What::remove, "site", "green"}});
    CHECK(only_line(apply(book, {{Edit::What::bring_back, "tree", "elm-1"}})) == "site: 'green': expected the id of a site in the book");
    CHECK(only_line(apply(book, {change("job", "j", {{"state", "wanted"}})})).find("tree: 'elm-1': expected the id of a tree") == 0);
  }
  TEST_CASE("a name given for an id is answered with the id") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {add("client", "parish", {{"name", "St. Ann's"}})});
    auto site = some_site();
    site.set["client"] = "St. Ann's";
    CHECK(only_line(apply(book, {site})) == "client: 'St. Ann's': expected the id of a client in the book; the id of that one is parish");
  }
  TEST_CASE("a version that never was is no conflict but a slip") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), elm});
    Edit ahead = change("tree", "elm-1", {{"ports", "3"}});
    ahead.version = 99;
    CHECK(only_line(apply(book, {ahead})) == "--seen: '99': expected a version that there is: the last is 1");
  }
  TEST_CASE("an own field stays what it began as, and no two of a kind are called alike") {
    const BookPlace place;
    auto book = place.open();
    keep(book, {some_site(), elm,
                add("own_field", "F1", {{"of_kind", "tree"}, {"name", "ward"}, {"type", "choice"}, {"choices", "north,south"}})});
    keep(book, {change("tree", "elm-1", {{"own_ward", "north"}})});
    CHECK(only_line(apply(book, {change("own_field", "F1", {{"type", "whole"}})})).find("type: 'whole': expected what it began with") == 0);
    CHECK(only_line(apply(book, {add("own_field", "F2", {{"of_kind", "tree"}, {"name", "ward"}, {"type", "text"}})}))
              .find("name: 'ward': expected another name") == 0);
    keep(book, {change("own_field", "F1", {{"choices", "east,west"}})});
    CHECK(book.check().empty());  // what was entered before stands
  }
}
