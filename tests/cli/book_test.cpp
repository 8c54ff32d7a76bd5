// The commands of the book, run as an office runs them.
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

#include "book_of_tests.h"
#include "support/outside.h"
#include "support/random_book.h"

namespace {

using Json = nlohmann::json;

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

Json json_of(const BookOfTests& book, Arguments arguments) {
  arguments.push_back("--json");
  return Json::parse(book.done(arguments));
}

// An office of one crew, a client, the demo's trees, the owner's rules.
void set_up(const BookOfTests& book) {
  for (const Arguments& arguments : std::vector<Arguments>{
           {"client", "add", "parish", "--name", "St. Ann's", "--phone", "555-0100", "--address", "1 Church St", "--consent", "yes",
            "--consent-on", "2026-03-01"},
           {"tree", "import", demo_trees},
           {"site", "change", "courthouse-elm", "--client", "parish", "--ticket", "77", "--ticket-called-on", "2026-07-06", "--address",
            "Courthouse Sq"},
           {"tree", "change", "courthouse-elm", "--dose-gal", "66"},
           {"crew", "add", "a", "--name", "Crew A"},
           {"crew", "member", "add", "bob", "--crew", "a", "--name", "Bob"},
           {"crew", "licence", "add", "--member", "bob", "--number", "123", "--category", "3A", "--expires-on", "2026-12-31"},
           {"book", "rule", "add", "--needs", "ticket", "--wait-days", "2", "--valid-days", "30"},
           {"book", "rule", "add", "--needs", "licence", "--category", "3A"},
           {"book", "rule", "add", "--needs", "notice", "--lead-hours", "48"},
           {"booking", "add", "--tree", "courthouse-elm", "--crew", "a", "--day", "2026-07-09", "--start", "07:00"}})
    book.done(arguments);
}

}  // namespace

TEST_SUITE("cli: book") {
  TEST_CASE("a tree is given in inches or by its girth, its diameter kept with its day") {
    const BookOfTests book;
    book.done({"site", "add", "green", "--name", "Green", "--lat", "43.7", "--lon", "-91.9", "--elevation-ft", "1050", "--zone",
               "America/Chicago", "--soil", "loam"});
    book.done({"tree", "add", "a", "--site", "green", "--species", "American elm", "--dbh-in", "48", "--measured-on", "2026-05-01"});
    book.done({"tree", "add", "b", "--site", "green", "--species", "American elm", "--girth-in", "150.796447372"});
    const Json diameters = json_of(book, {"tree", "diameter", "list"})["diameters"];
    REQUIRE(diameters.size() == 2);
    CHECK(diameters[0]["fields"]["dbh_cm"].get<double>() == doctest::Approx(121.92));
    CHECK(diameters[1]["fields"]["dbh_cm"].get<double>() == doctest::Approx(121.92));
    CHECK(diameters[0]["fields"]["measured_on"] == "2026-05-01");
    CHECK(diameters[1]["fields"]["measured_on"] == "2026-07-06");  // the day of --now at the tree
    CHECK(json_of(book, {"site", "show", "green"})["fields"]["elevation_m"].get<double>() == doctest::Approx(320.04));
    CHECK(holds(book.done({"tree", "show", "a"}), "dbh 48 in"));
    CHECK(holds(book.done({"tree", "show", "a", "--units", "si"}), "dbh 121.92 cm"));
    const Ran both = book.run({"tree", "change", "a", "--dbh-in", "48", "--dbh-cm", "120"});
    CHECK(both.exit == 3);
    CHECK(both.err == "dbh_in: '48': expected dbh under one name only\n");
    const Ran tall = book.run({"tree", "change", "a", "--dbh-in", "400"});
    CHECK(tall.exit == 3);
    CHECK(holds(tall.err, "dbh_in: '400': expected a number from 0.7874 to 157.5"));
  }
  TEST_CASE("a change says what was, who changed it stands in history, and an older view is a conflict") {
    const BookOfTests book;
    set_up(book);
    CHECK(book.done({"tree", "change", "courthouse-elm", "--dose-gal", "70", "--by", "Eve"}) ==
          "tree courthouse-elm changed, version 3\n  dose: 70 gal, was 66 gal\n");
    const Ran late = book.run({"tree", "change", "courthouse-elm", "--dose-gal", "72", "--seen", "2"});
    CHECK(late.exit == 3);
    CHECK(late.out.empty());
    CHECK(holds(late.err, "tree courthouse-elm: --seen: '2': expected 3: Eve changed it at 2026-07-06T10:30Z; nothing was written"));
    CHECK(holds(late.err, "dose_l: was '249.837177744', now '264.97882488', yours '272.549"));
    CHECK(holds(book.done({"tree", "show", "courthouse-elm", "--history"}),
                "Eve  change tree courthouse-elm\n    dose_l was 249.837177744, now 264.97882488"));
    CHECK(json_of(book, {"tree", "change", "courthouse-elm", "--dose-gal", "70"})[0]["unchanged"] == true);
  }
  TEST_CASE("a job lists what is met, missing and expiring, and a move opens again what its date touches") {
    const BookOfTests book;
    set_up(book);
    const std::string shown = book.done({"booking", "show", "J1"});
    CHECK(holds(shown, "MAY IT GO: NO, by the owner's rules"));
    CHECK(holds(shown, "met      utility locate ticket: holds until Tue Aug 4 2026 (rule U1)"));
    CHECK(holds(shown, "MISSING  neighbours' notice: not entered (rule U3)"));
    book.done({"site", "change", "courthouse-elm", "--notice-at", "2026-07-06 9:00"});
    CHECK(holds(book.done({"booking", "show", "J1"}), "MAY IT GO: by the owner's rules, yes"));
    const Ran moved = book.run({"booking", "change", "J1", "--day", "2026-07-08"});
    CHECK(moved.exit == 0);
    CHECK(lines_of(moved.err).size() == 2);  // the ticket too: two working days have not passed
    CHECK(lines_of(moved.err).back() ==
          "warning: job J1 opens again: MISSING  neighbours' notice: had to be there by Mon Jul 6 2026 7:00 am (rule U3)");
    CHECK(json_of(book, {"booking", "show", "J1"})["lawful"][2]["why"] == "too_late");
    book.done({"crew", "day-off", "add", "--member", "bob", "--first-day", "2026-07-08", "--last-day", "2026-07-08"});
    CHECK(json_of(book, {"booking", "show", "J1"})["lawful"][1]["state"] == "missing");
  }
  TEST_CASE("an application record is filled from the book, tells what is missing, and is corrected with a reason") {
    const BookOfTests book;
    set_up(book);
    book.done({"record", "add", "--job", "J1", "--outcome", "done", "--started-at", "2026-07-09 9:10", "--ended-at", "2026-07-09 14:00",
               "--mix-gal", "66"});
    const Json record = json_of(book, {"record", "show", "R1"});
    CHECK(record["fields"]["for_name"] == "St. Ann's");
    CHECK(record["fields"]["for_address"] == "1 Church St");
    CHECK(record["fields"]["location"] == "Courthouse Sq");
    CHECK(record["fields"]["started_at"] == "2026-07-09T14:10Z");
    CHECK(record["missing"] == Json::parse(R"(["area","applicator","licence_number","mix"])"));
    CHECK(json_of(book, {"booking", "show", "J1"})["fields"]["state"] == "done");
    book.done({"record", "mix", "add", "--treatment", "R1", "--tank", "1", "--volume-gal", "66", "--product", "Example 20 <b>",
               "--registration", "1-2", "--amount", "4 oz"});
    const Ran bare = book.run({"record", "change", "R1", "--mix-gal", "65"});
    CHECK(bare.exit == 3);
    CHECK(holds(bare.err, "--why: expected a reason"));
    book.done({"record", "change", "R1", "--mix-gal", "65", "--area", "1 tree", "--applicator", "Bob", "--licence-number", "123", "--why",
               "tank misread"});
    const std::string shown = book.done({"record", "show", "R1"});
    CHECK(holds(shown, "COMPLETE by 7 CFR 110.3 and 40 CFR 171.303(b)(7)"));
    CHECK(holds(shown, "mix: 65 gal instead of 66 gal"));
    CHECK(holds(shown, "Why: tank misread"));

    CHECK(json_of(book,
                  {"record", "find", "--client", "parish", "--product", "example", "--from", "2026-07-09", "--to", "2026-07-09"})["records"]
              .size() == 1);
    CHECK(json_of(book, {"record", "find", "--product", "other"})["records"].empty());
    CHECK(json_of(book, {"record", "find", "--to", "2026-07-08"})["records"].empty());
    CHECK(json_of(book, {"record", "find", "--incomplete"})["records"].empty());
    CHECK(lines_of(book.done({"record", "find", "--csv"})).size() == 2);
    const std::string page = (book.folder() / "page.html").string();
    book.done({"record", "find", "R1", "--page", page});
    CHECK(holds(content_of(page), "Example 20 &lt;b&gt;"));
    CHECK(holds(content_of(page), "40 CFR 171.303(b)(7)"));
    CHECK(holds(content_of(page), "instead of"));
  }
  TEST_CASE("a list is taken whole or not at all, every bad row told by number and reason") {
    const BookOfTests book;
    const std::string list = book.file("old.csv",
                                       "TreeNo,Kind,Girth,Note\n1,American elm,150,\"a, \"\"b\"\"\nc\"\n2,,150,x\n3,American "
                                       "elm,forty,\n4,American elm,160,\n5,American elm\n");
    book.done({"site", "add", "green", "--name", "Green", "--lat", "43.7", "--lon", "-91.9", "--elevation-m", "320", "--zone",
               "America/Chicago", "--soil", "loam"});
    const Arguments import{"tree",  "import",         list,    "--map",     "id=TreeNo", "--map",     "species=Kind",
                           "--map", "girth_in=Girth", "--map", "note=Note", "--set",     "site=green"};
    const auto with = [&](const char* option) {
      Arguments more = import;
      more.emplace_back(option);
      return more;
    };
    for (const Arguments& arguments : {import, with("--dry-run")}) {
      const Ran ran = book.run(arguments);
      CHECK(ran.exit == 3);
      const auto lines = lines_of(ran.err);
      REQUIRE(lines.size() == 3);
      CHECK(lines[0] == "old.csv:4: row 2: species: expected a text on one line, at most 500 bytes, not nothing");
      CHECK(lines[1] == "old.csv:5: row 3: girth_in: 'forty': expected a number");
      CHECK(lines[2] == "old.csv:7: row 5: row: '2 cells': expected 4, as in the header");
    }
    CHECK(json_of(book, {"tree", "list"})["trees"].empty());
    Arguments good = with("--leave-out-bad");
    good.emplace_back("--json");
    const Ran taken = book.run(good);
    CHECK(taken.exit == 3);  // some rows were refused
    CHECK(Json::parse(taken.out)["taken"] == 2);
    CHECK(Json::parse(taken.out)["refused"][0]["row"] == 2);
    CHECK(json_of(book, {"tree", "show", "1"})["fields"]["note"] == "a, \"b\"\nc");
    const Ran again = book.run(with("--leave-out-bad"));
    CHECK(holds(again.err, "old.csv:2: row 1: tree: '1': expected another id: there is such a tree"));
    CHECK(json_of(book, {"tree", "list"})["trees"].size() == 2);
  }
  TEST_CASE("a list brought in again changes what is new in it and measures no tree twice") {
    const BookOfTests book;
    set_up(book);
    const auto diameters = [&] { return json_of(book, {"tree", "diameter", "list"})["diameters"].size(); };
    const std::string list = book.file("list.csv", "tree,name,dbh_cm\nmill-street-elm,Mill Street elm,91\ndepot-elm,Old depot elm,79\n");
    book.done({"tree", "import", list, "--change-known"});
    const auto first = diameters();
    const auto entries = json_of(book, {"book", "history", "--last", "0"})["history"].size();
    CHECK(json_of(book, {"tree", "show", "depot-elm"})["fields"]["name"] == "Old depot elm");
    book.done({"tree", "import", list, "--change-known"});
    CHECK(diameters() == first);
    CHECK(json_of(book, {"book", "history", "--last", "0"})["history"].size() == entries);
  }
  TEST_CASE("trees go out as GeoJSON points, longitude first, and come back") {
    const BookOfTests book;
    set_up(book);
    const std::string points = book.done({"tree", "export", "--geojson"});
    const Json json = Json::parse(points);
    CHECK(json["type"] == "FeatureCollection");
    REQUIRE(json["features"].size() == 5);
    CHECK(json["features"][0]["geometry"] == Json::parse(R"({"type":"Point","coordinates":[-91.9034,43.7012]})"));  // RFC 7946, 3.1.1 and 4
    const std::string file = book.file("points.geojson", R"({"type":"FeatureCollection","features":[
      {"type":"Feature","id":"p1","geometry":{"type":"Point","coordinates":[-91.5,43.5]},"properties":{"species":"American elm","site":"courthouse-elm","dbh_cm":90}},
      {"type":"Feature","geometry":{"type":"Polygon","coordinates":[]},"properties":{"species":"American elm","site":"courthouse-elm"}}]})");
    const Ran ran = book.run({"tree", "import", file, "--leave-out-bad"});
    CHECK(ran.exit == 3);
    CHECK(holds(ran.err, "row 2: lat: 'no point': expected a number from -90 to 90"));
    CHECK(json_of(book, {"tree", "show", "p1"})["fields"]["lon"] == -91.5);
  }
  TEST_CASE("texts that a spreadsheet takes for formulas go out harmless and come back as they were") {
    const BookOfTests book;
    set_up(book);
    for (const char* text : {"=1+2", "'=1", "''@x", "+1 555", "-", "'plain", "a"}) {
      book.done({"tree", "change", "courthouse-elm", "--set", std::string{"tag="} + text});
      const std::string csv = book.done({"tree", "export"});
      for (const char* dangerous : {",=", ",+", ",@", ",-,"}) CHECK(!holds(csv, dangerous));
      book.done({"tree", "change", "courthouse-elm", "--tag", ""});
      book.done({"tree", "import", book.file("back.csv", csv), "--change-known"});
      CHECK(json_of(book, {"tree", "show", "courthouse-elm"})["fields"]["tag"] == text);
    }
  }
  TEST_CASE("a random book of 2,000 trees written out as CSV and read in is the same book") {
    const BookOfTests book;
    {
      auto there = book.place().open();
      keep(there, random_book(2000, 2026));
    }
    const std::string folder = (book.folder() / "out").string(), other = (book.folder() / "other.sqlite").string();
    book.done({"book", "export", folder});
    const Ran in = sapdraw({"book", "import", folder, "--book", other, "--json"});
    CHECK_MESSAGE(in.exit == 0, in.err);
    const Json backup = json_of(book, {"book", "backup", (book.folder() / "b.sqlite").string()});
    CHECK(Json::parse(in.out) == backup);
    const Ran checked = sapdraw({"book", "check", "--book", other});
    CHECK_MESSAGE(checked.exit == 0, checked.err);
    const Ran twice = sapdraw({"book", "import", folder, "--book", other});
    CHECK(twice.exit == 3);
    CHECK(holds(twice.err, "expected a book that holds nothing yet"));
    // A cell changed on the way is noticed.
    const std::string trees = content_of(folder + "/tree.csv");
    std::ofstream{folder + "/tree.csv"} << std::string{trees}.replace(trees.find("\ntree 0") + 1, 6, "tree 9");
    const Ran changed = sapdraw({"book", "import", folder, "--book", (book.folder() / "third.sqlite").string()});
    CHECK(changed.exit == 3);
    CHECK(lines_of(changed.err).size() == 1);
    CHECK(holds(changed.err, "tree.csv:"));
  }
  TEST_CASE("backup, restore and check tell what they did, and a restore keeps what was there") {
    const BookOfTests book;
    set_up(book);
    const std::string file = (book.folder() / "backup.sqlite").string();
    book.done({"book", "backup", file});
    book.done({"client", "add", "later", "--name", "Later"});
    const Ran restored = book.run({"book", "restore", file});
    CHECK(restored.exit == 0);
    CHECK(holds(restored.err, "/kept-before/before-restore-2026-07-06T1030Z.sqlite"));
    CHECK(book.run({"client", "show", "later"}).exit == 3);
    CHECK(holds(book.done({"book", "check"}), "sound"));
    const std::string kept = restored.err.substr(restored.err.find("lies in ") + 8);
    CHECK(sapdraw({"client", "show", "later", "--book", kept.substr(0, kept.find('\n'))}).exit == 0);
    book.place().tamper("UPDATE tree SET dose_l = 1 WHERE id = 'courthouse-elm'");
    const Ran tampered = book.run({"book", "check"});
    CHECK(tampered.exit == 5);
    CHECK(holds(tampered.err, "tree courthouse-elm: expected what history leads to"));
  }
  TEST_CASE("due trees come overdue first, by growing seasons, with the best day that days has said") {
    const BookOfTests book;
    set_up(book);
    for (const auto& [tree, day] : {std::pair{"mill-street-elm", "2021-07-01"}, {"depot-elm", "2024-07-01"}, {"library-oak", "2026-06-20"}})
      book.done({"record", "add", "--tree", tree, "--outcome", "done", "--day", day});
    book.done({"tree", "change", "schoolyard-elm", "--urgent", "yes"});
    const Json due = json_of(book, {"tree", "due"});
    REQUIRE(due["trees"].size() == 4);
    CHECK(due["trees"][0]["tree"] == "schoolyard-elm");
    CHECK(due["trees"][0]["urgent"] == true);
    CHECK(due["trees"][1]["tree"] == "mill-street-elm");
    CHECK(due["trees"][1]["overdue"] == true);
    CHECK(due["trees"][1]["seasons_since"] == 5);
    CHECK(due["trees"][1]["due_by"] == "2024-06-30");
    CHECK(due["trees"][2]["due_by"] == "2027-06-30");
    CHECK(due["never_treated"] == 2);
  }
  TEST_CASE("a tree treated this season waits, and the south has its own half of the year") {
    const BookOfTests book;
    set_up(book);
    book.done({"tree", "change", "depot-elm", "--urgent", "yes"});
    book.done({"record", "add", "--tree", "depot-elm", "--outcome", "done", "--day", "2026-06-20"});
    book.done({"site", "add", "austral", "--name", "Parade", "--lat", "-35.0", "--lon", "138.6", "--elevation-m", "50", "--zone",
               "Australia/Adelaide", "--soil", "loam"});
    book.done({"tree", "add", "south-elm", "--site", "austral", "--species", "American elm", "--dbh-in", "40"});
    book.done({"record", "add", "--tree", "south-elm", "--outcome", "done", "--day", "2024-01-15"});
    const Json due = json_of(book, {"tree", "due"});
    for (const auto& tree : due["trees"]) {
      if (tree["tree"] == "depot-elm") CHECK(tree["urgent"] == false);
      if (tree["tree"] == "south-elm") CHECK(tree["due_by"] == "2026-12-30");
    }
  }
  TEST_CASE("a crew that is off cannot go") {
    const BookOfTests book;
    set_up(book);
    book.done({"book", "rule", "add", "--needs", "attended"});
    CHECK(json_of(book, {"booking", "show", "J1"})["lawful"][3]["state"] == "met");
    book.done({"crew", "day-off", "add", "--crew", "a", "--first-day", "2026-07-09", "--last-day", "2026-07-09"});
    const Json lawful = json_of(book, {"booking", "show", "J1"})["lawful"];
    CHECK(lawful[1]["why"] == "nobody");
    CHECK(lawful[3]["why"] == "nobody");
  }
  TEST_CASE("days and sheet take their trees from the book") {
    const BookOfTests book;
    set_up(book);
    const Ran from_book = book.run({"days", "--weather", demo_weather, "--json"});
    CHECK(from_book.exit == 0);
    const Json trees = Json::parse(from_book.out)["trees"];
    REQUIRE(trees.size() == 1);  // the one with a booking
    CHECK(trees[0]["tree"] == "courthouse-elm");
    CHECK(trees[0]["dose_from"] == "book");
    // The same numbers as from a list that says the same.
    const Ran from_list =
        sapdraw({"days", "--weather", demo_weather, "--trees", demo_trees, "--tree", "mill-street-elm", "--now", demo_now, "--json"});
    const Ran same = book.run({"days", "--weather", demo_weather, "--tree", "mill-street-elm", "--json"});
    Json list = Json::parse(from_list.out), mine = Json::parse(same.out);
    CHECK(list["trees"][0]["days"] == mine["trees"][0]["days"]);
    const Ran unknown = book.run({"days", "--weather", demo_weather, "--tree", "no-elm"});
    CHECK(unknown.exit == 3);
    CHECK(unknown.err == "--tree: 'no-elm': expected an id of the book\n");
  }
  TEST_CASE("a sheet of a tree of the book keeps away from the ports of its treatments") {
    const BookOfTests book;
    set_up(book);
    book.done({"tree", "change", "courthouse-elm", "--flare-cm", "530", "--bad-sectors", "203-241"});
    book.done({"record", "add", "--tree", "courthouse-elm", "--outcome", "done", "--day", "2023-07-01", "--flare-cm", "524"});
    std::string ports = "treatment,clockwise_cm,height_cm\n";
    for (int i = 0; i < 40; ++i) ports += "R1," + std::to_string(i * 13) + ",12\n";
    book.done({"record", "port", "import", book.file("ports.csv", ports)});
    const Json sheet = json_of(book, {"sheet", "--tree", "courthouse-elm"});
    REQUIRE(sheet["port_places"].size() == 41);
    for (const auto& place : sheet["port_places"]) {
      const double at = place["clockwise_cm"];
      CHECK((at < 203 || at > 241));
    }
    const Ran odd = book.run({"tree", "change", "courthouse-elm", "--bad-sectors", "north side"});
    CHECK(odd.exit == 3);
    CHECK(holds(odd.err, "bad_sectors: 'north side': expected stretches in cm clockwise"));
  }
  TEST_CASE("a sheet for a booking says where to drive, what is there, for whom, and takes its day") {
    const BookOfTests book;
    set_up(book);
    book.done({"site", "change", "courthouse-elm", "--gate", "4711", "--water", "tap"});
    const std::string sheet = book.done({"sheet", "--job", "J1", "--weather", demo_weather});
    for (const char* part : {"Courthouse elm, Courthouse Sq, 43.7012 -91.9034", "gate 4711, water tap", "for St. Ann's, 555-0100",
                             "job J1, crew Crew A, on site from 7:00 am", "Thu Jul 9"})
      CHECK_MESSAGE(holds(sheet, part), part);
    CHECK(book.run({"sheet", "--job", "J9"}).exit == 3);
    CHECK(book.run({"sheet"}).exit == 2);
  }
  TEST_CASE("readings of a job are kept in the book and count with those before") {
    const BookOfTests book;
    set_up(book);
    const Arguments weather{"--weather", demo_weather, "--now", "2026-07-09T15:05Z"};
    const auto reading = [&](Arguments arguments) {
      arguments.insert(arguments.end(), weather.begin(), weather.end());
      return book.run(arguments);
    };
    const Ran first = reading({"reading", "--job", "J1", "--opened", "9:00", "--taken", "9:30 9gal", "--json"});
    CHECK_MESSAGE(first.exit == 0, first.err);
    const Ran second = reading({"reading", "--job", "J1", "--taken", "10:00 17gal", "--json"});
    CHECK_MESSAGE(second.exit == 0, second.err);
    const Json job = json_of(book, {"booking", "show", "J1"});
    CHECK(job["fields"]["opened_at"] == "2026-07-09T14:00Z");
    CHECK(job["fields"]["state"] == "under_way");
    CHECK(json_of(book, {"booking", "reading", "list"})["readings"].size() == 2);
    // The same answer as from both readings typed at once.
    const Ran at_once =
        reading({"reading", "--tree", "courthouse-elm", "--opened", "9:00", "--taken", "9:30 9gal", "--taken", "10:00 17gal", "--json"});
    CHECK(Json::parse(second.out)["finish_h"] == Json::parse(at_once.out)["finish_h"]);
    CHECK(Json::parse(second.out)["finish_h"] != Json::parse(first.out)["finish_h"]);
    // A reading above the dose is refused and not kept; one without weather is kept.
    CHECK(reading({"reading", "--job", "J1", "--taken", "10:05 600gal"}).exit == 3);
    CHECK(json_of(book, {"booking", "reading", "list"})["readings"].size() == 2);
  }
  TEST_CASE("days, clocks, amounts and choices may be written as people write them") {
    const BookOfTests book;
    set_up(book);
    book.done({"site", "change", "courthouse-elm", "--notice-at", "7/6/2026 9:00 am", "--ticket-until", "7/20/2026"});
    const Json site = json_of(book, {"site", "show", "courthouse-elm"})["fields"];
    CHECK(site["notice_at"] == "2026-07-06T14:00Z");
    CHECK(site["ticket_until"] == "2026-07-20");
    book.done({"booking", "change", "J1", "--start", "7am", "--day", "7/10/2026"});
    CHECK(json_of(book, {"booking", "show", "J1"})["fields"]["start"] == "07:00");
    book.done({"tree", "change", "courthouse-elm", "--girth-in", "174 in", "--condition", "Good", "--leave-by", "3:30 pm"});
    CHECK(json_of(book, {"tree", "show", "courthouse-elm"})["fields"]["condition"] == "good");
    CHECK(json_of(book, {"tree", "show", "courthouse-elm"})["fields"]["leave_by"] == "15:30");
    CHECK(book.run({"booking", "change", "J1", "--day", "13/40/2026"}).exit == 3);
    // 2:30 am of 8 March 2026 was skipped.
    const Ran skipped = book.run({"site", "change", "courthouse-elm", "--posted-at", "2026-03-08 2:30"});
    CHECK(skipped.exit == 3);
    CHECK(holds(skipped.err, "the clocks went forward over it"));
  }
  TEST_CASE("what may be a slip is taken with a question, what cannot be is refused") {
    const BookOfTests book;
    set_up(book);
    const Ran thin = book.run({"tree", "change", "courthouse-elm", "--girth-in", "16.5"});
    CHECK(thin.exit == 0);
    CHECK(holds(thin.err, "warning: tree courthouse-elm: dbh 13.34 cm, it was 140 cm"));
    CHECK(holds(book.run({"tree", "add", "x", "--site", "courthouse-elm", "--species", "Amercan elm"}).err,
                "warning: species 'Amercan elm' is none"));
    CHECK(holds(book.run({"site", "change", "courthouse-elm", "--zone", "Mars/Olympus"}).err,
                "zone: 'Mars/Olympus': expected an IANA time zone"));
    CHECK(holds(book.run({"site", "change", "courthouse-elm", "--soil", "cheese"}).err, "soil: 'cheese'"));
    CHECK(holds(book.run({"record", "add", "--tree", "courthouse-elm", "--outcome", "done", "--day", "2030-01-01"}).err,
                "expected no later than now"));
    CHECK(holds(book.run({"tree", "change", "courthouse-elm", "--site", "Courthouse elm"}).err, "the id of that one is courthouse-elm"));
    book.done({"record", "add", "--tree", "courthouse-elm", "--outcome", "done", "--day", "2023-07-01", "--flare-cm", "520"});
    CHECK(holds(book.run({"record", "port", "add", "--treatment", "R1", "--clockwise-in", "290"}).err,
                "expected at most the flare's circumference then, 520 cm"));
    CHECK(book.run({"record", "add", "--tree", "depot-elm", "--job", "J1", "--outcome", "done", "--day", "2026-07-06"}).exit == 3);
    CHECK(book.run({"record", "change", "R1", "--mix-gal", "5", "--why", "  "}).exit == 3);
  }
  TEST_CASE("place, zone and soil belong to the site: of one's own they change with the tree's list, else they must agree") {
    const BookOfTests book;
    const auto list = [&](const char* row) {
      return book.file("one.csv", std::string{"tree,species,dbh_cm,lat,lon,elevation_m,zone,soil\n"} + row + "\n");
    };
    book.done({"tree", "import", list("a,American elm,90,43.7,-91.9,320,America/Chicago,loam")});
    book.done({"tree", "import", list("a,American elm,90,43.8,-91.8,330,America/Chicago,clay"), "--change-known"});
    const Json site = json_of(book, {"site", "show", "a"})["fields"];
    CHECK(site["soil"] == "clay");
    CHECK(site["lat"] == 43.8);
    CHECK(!json_of(book, {"tree", "show", "a"})["fields"].contains("lat"));
    book.done({"tree", "add", "b", "--site", "a", "--species", "American elm"});
    const Ran other = book.run({"tree", "change", "b", "--soil", "sand"});
    CHECK(other.exit == 3);
    CHECK(holds(other.err, "soil: 'sand': expected what site a has, 'clay': change it there"));
    const Ran forks = book.run({"tree", "change", "b", "--forks", "3"});
    CHECK(holds(forks.err, "forks: '3': expected dbh_cm beside it"));
    CHECK(json_of(book, {"tree", "add", "--site", "a", "--species", "American elm", "--dbh-in", "20"}).size() ==
          2);  // without an id, diameter and all
    // GeoJSON out and in changes nothing.
    const std::string points = book.done({"tree", "export", "--geojson"});
    book.done({"tree", "import", book.file("p.geojson", points), "--change-known"});
    CHECK(!json_of(book, {"tree", "show", "a"})["fields"].contains("lat"));
  }
  TEST_CASE("the day of an application is the day at the tree") {
    const BookOfTests book;
    set_up(book);
    book.done({"record", "add", "--tree", "courthouse-elm", "--outcome", "done", "--started-at", "2026-07-06T01:30Z"});
    CHECK(json_of(book, {"record", "show", "R1"})["fields"]["day"] == "2026-07-05");
    book.done({"record", "add", "--tree", "courthouse-elm", "--outcome", "done", "--started-at", "2010-07-09 9:30"});
    CHECK(json_of(book, {"record", "show", "R2"})["fields"]["started_at"] == "2010-07-09T14:30Z");
  }
  TEST_CASE("an address that names no file and no server is refused, and a password never repeated") {
    const std::vector<std::string> odd{
        "", ":memory:", "file:x?mode=memory", "postgresql:/u:s3cret@h/db", "Postgresql://u:s3cret@h", "password=s3cret"};
    for (const std::string& address : odd) {
      const Ran ran = sapdraw({"site", "list", "--book", address});
      CHECK_MESSAGE(ran.exit == 3, address);
      CHECK(!holds(ran.err, "s3cret"));
    }
  }
  TEST_CASE("control characters that somebody typed do not reach the terminal") {
    const BookOfTests book;
    set_up(book);
    for (const Arguments& arguments : std::vector<Arguments>{{"client", "change", "\x1b[31mX", "--name", "q"},
                                                             {"client", "show", "a\nb"},
                                                             {"client", "change", "parish", "--set", "a\nb=c"},
                                                             {"client", "add", "x", "--name", "a\x1b[31m"}}) {
      const Ran ran = book.run(arguments);
      CHECK(ran.exit == 3);
      CHECK(ran.err.find('\x1b') == std::string::npos);
      CHECK(lines_of(ran.err).size() == 1);
    }
  }
  TEST_CASE("an answer that has no place to go keeps a change from being made") {
    const BookOfTests book;
    set_up(book);
    const Ran ran = book.run({"client", "add", "lost", "--name", "Lost", "--out", "/nonexistent/x"});
    CHECK(ran.exit == 3);
    CHECK(book.run({"client", "show", "lost"}).exit == 3);
  }
  TEST_CASE("a client's data go out on request, and erased they are gone") {
    const BookOfTests book;
    set_up(book);
    const Json data = Json::parse(book.done({"client", "data", "parish"}));
    CHECK(data["client"][0]["fields"]["phone"] == "555-0100");
    CHECK(data["job"].size() == 1);
    const std::string preview = book.done({"client", "erase", "parish"});
    CHECK(holds(preview, "--for-good does it"));
    CHECK(holds(book.done({"client", "show", "parish"}), "555-0100"));
    const Ran erased = book.run({"client", "erase", "parish", "--why", "asked to", "--for-good"});
    CHECK(erased.exit == 0);
    CHECK(holds(erased.err, "backups made before still hold the data"));
    CHECK(!holds(book.done({"client", "show", "parish", "--history"}), "555-0100"));
    CHECK(!holds(book.done({"book", "history", "--last", "0"}), "555-0100"));
    CHECK(holds(book.done({"book", "check"}), "sound"));
  }
  TEST_CASE("the help of every command of the book is at most 100 columns wide") {
    for (const Arguments& command : std::vector<Arguments>{{"tree"},
                                                           {"tree", "add"},
                                                           {"tree", "import"},
                                                           {"tree", "due"},
                                                           {"tree", "diameter", "add"},
                                                           {"site", "add"},
                                                           {"client", "add"},
                                                           {"client", "erase"},
                                                           {"crew"},
                                                           {"crew", "add"},
                                                           {"crew", "licence", "add"},
                                                           {"booking", "add"},
                                                           {"booking", "message", "add"},
                                                           {"record", "add"},
                                                           {"record", "find"},
                                                           {"record", "mix", "change"},
                                                           {"book"},
                                                           {"book", "rule", "add"},
                                                           {"book", "field", "add"},
                                                           {"book", "restore"}}) {
      Arguments help = command;
      help.emplace_back("--help");
      const Ran ran = sapdraw(help);
      CHECK(ran.exit == 0);
      for (const auto& line : lines_of(ran.out)) CHECK_MESSAGE(widest_line(line) <= 100, line);
    }
  }
  TEST_CASE("the urban tree database goes through the mapping: 14,000 of its rows at least, the rest by reason") {
    const auto outside = outside_data("trees/urban_tree_database_raw.csv");
    if (!outside) return;
    const BookOfTests book;
    book.done({"site", "add", "city", "--name", "City", "--lat", "37.6", "--lon", "-121", "--elevation-m", "30", "--zone",
               "America/Los_Angeles", "--soil", "loam"});
    const Ran ran = book.run({"tree", "import", outside->string(), "--map", "id=DbaseID", "--map", "crown_m=crown_diam_m", "--set",
                              "site=city", "--set", "measured_on=2016-01-01", "--leave-out-bad", "--json"});
    CHECK(ran.exit == 3);
    const Json told = Json::parse(ran.out);
    CHECK(told["rows"] == 14487);
    CHECK(told["taken"].get<int>() >= 14000);
    CHECK(told["taken"].get<int>() + told["bad"].get<int>() == 14487);
    std::size_t reasons = 0;
    for (const auto& line : lines_of(ran.err)) reasons += holds(line, ": row ") && holds(line, ": expected ") ? 1 : 0;
    CHECK(reasons >= told["bad"].get<std::size_t>());
    MESSAGE("urban tree database: ", told["taken"].get<int>(), " of 14487 taken");
  }
}
