// The plan as a dispatcher uses it: the rainy week of weather-samples/rainy-week, asked in the order in which he would ask.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "rainy_week.h"

namespace {

using Json = nlohmann::json;

using rainy_week::load;
using rainy_week::samples;
const char* const monday_evening = "2026-07-13T22:00Z";

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

Arguments asked(Arguments arguments, const std::string& weather = "wet-week.json") {
  arguments.insert(arguments.end(), {"--weather", samples + "/" + weather, "--now", monday_evening, "--iterations", "20000"});
  return arguments;
}

Json json_of(const BookOfTests& book, Arguments arguments) {
  arguments.push_back("--json");
  return Json::parse(book.done(arguments));
}

std::map<std::string, std::string> bookings(const BookOfTests& book) {
  std::map<std::string, std::string> found;
  const Json list = json_of(book, {"booking", "list"});
  for (const Json& job : list["jobs"]) {
    const Json& fields = job["fields"];
    found[job["id"]] = fields.value("day", "-") + " " + fields.value("crew", "-") + " " + fields.value("start", "-");
  }
  return found;
}

const Json* move_of(const Json& plan, const std::string& job) {
  for (const Json& move : plan["moves"])
    if (move["job"] == job) return &move;
  return nullptr;
}

}  // namespace

TEST_SUITE("cli: plan") {
  TEST_CASE("in the fair week nobody moves") {
    const BookOfTests book;
    load(book);
    const Json plan = json_of(book, asked({"plan", "rework"}, "fair-week.json"));
    CHECK_MESSAGE(plan["moves"].empty(), plan["moves"].dump());
    CHECK(plan["stays"].size() + plan["stays_no_go"].size() == 14);
  }

  TEST_CASE("the rainy week: what must move, what can wait, what cannot move and why") {
    const BookOfTests book;
    load(book);
    const auto before = bookings(book);
    const Json plan = json_of(book, asked({"plan", "rework"}));
    CHECK(plan["saves_at_most_h"].get<double>() < 0.05);
    // Wednesday and Thursday are rained out: every job of those days moves but for the locked one.
    for (const char* job : {"J4", "J5", "J6", "J8", "J9", "J10"}) {
      CAPTURE(job);
      REQUIRE(move_of(plan, job) != nullptr);
      const Json& move = *move_of(plan, job);
      CHECK_FALSE(move["may_wait"].get<bool>());
      CHECK(holds(move["why"], "NO GO"));
      CHECK(holds(move["call"], "Rain on "));
      if (!move["to"].is_null()) CHECK((move["to"]["day"] == "2026-07-14" || move["to"]["day"] >= "2026-07-17"));
    }
    // The library is open to us on Wednesdays and Thursdays, and no later than this week.
    CHECK((*move_of(plan, "J8"))["to"].is_null());
    CHECK(holds((*move_of(plan, "J8"))["why"], "No other day that suits it"));
    // The Fenwick ticket ends on Friday: it goes before the rain, and that is told.
    CHECK((*move_of(plan, "J9"))["to"]["day"] == "2026-07-14");
    CHECK(holds((*move_of(plan, "J9"))["breaks"].dump(), "utility locate ticket"));
    // Friday is four days off, and only damp: one of its jobs may be saved by a later forecast.
    const Json* barnyard = move_of(plan, "J11");
    REQUIRE(barnyard != nullptr);
    CHECK((*barnyard)["may_wait"] == true);
    CHECK((*barnyard)["decide_by"] == "2026-07-16T22:00Z");
    CHECK((*barnyard)["saved_chance"].get<double>() > 0.2);
    // Tuesday is fair, next week far off, the inn locked: they stay.
    for (const char* job : {"J1", "J2", "J3", "J7", "J14"}) CHECK(move_of(plan, job) == nullptr);
    CHECK(plan["stays_no_go"].size() == 1);
    CHECK(plan["stays_no_go"][0]["job"] == "J7");
    for (const Json& move : plan["moves"])
      if (!move["refusing_costs_h"].is_null()) CHECK(move["refusing_costs_h"].get<double>() > 0.0);
    // Asking changed no booking.
    CHECK(bookings(book) == before);
    const std::string text = book.done(asked({"plan", "rework"}));
    for (const char* part : {"PLAN Tue Jul 14 to", "MOVE\n", "CAN WAIT\n", "CANNOT MOVE\n", "STAYS\n", "FREE CREWS COULD PREPARE", "CALL\n",
                             "it is locked", "No plan is better than this one.", "leave it until Thu Jul 16 5:00 pm",
                             "Mrs Hale, 555-0121: Oak Court elm (J4), Wed Jul 15 -> ", "The label is the law"})
      CHECK_MESSAGE(holds(text, part), part);
    for (std::size_t at = 0, end; at < text.size(); at = end + 1) {
      end = std::min(text.find('\n', at), text.size());
      CHECK(end - at <= 100);
    }
    for (const char* jargon : {"VPD", " REW", "MPa", "p90", "embolism"}) CHECK_FALSE(holds(text, jargon));
  }

  TEST_CASE("what the crews do that the rain has freed") {
    const BookOfTests book;
    load(book);
    const Json plan = json_of(book, asked({"plan", "rework"}));
    CHECK(plan["prepare"].size() >= 3);
    for (const Json& one : plan["prepare"]) {
      CHECK(one["day"] < one["for_day"]);
      CHECK(one["hours"].get<double>() > 0.3);
      for (const Json& day : plan["schedule"]) CHECK_FALSE((day["day"] == one["day"] && day["crew"] == one["crew"]));
    }
  }

  TEST_CASE("what if one stays, a crew is out, a rig is down: told against the plan without it, and nothing kept") {
    const BookOfTests book;
    load(book);
    const std::string stays = book.done(asked({"plan", "what-if", "--stays", "J4"}));
    CHECK(holds(stays, "WHAT IF: costs "));
    CHECK(holds(stays, "Oak Court elm (J4): Wed Jul 15 7:00 am, Crew A, not "));
    const Json out = json_of(book, asked({"plan", "what-if", "--crew-out", "A@2026-07-20", "--rig-down", "G3"}));
    for (const Json& day : out["schedule"]) CHECK_FALSE((day["day"] == "2026-07-20" && day["crew"] == "A"));
    CHECK(holds(book.done({"plan", "accept", "--all"}), "No move waits"));
  }

  TEST_CASE("moves are accepted or refused one by one or together, with history and drafts to the clients") {
    const BookOfTests book;
    load(book);
    const auto before = bookings(book);
    const Json plan = json_of(book, asked({"plan", "rework"}));
    const std::string fenwick = (*move_of(plan, "J9"))["move"], library = (*move_of(plan, "J8"))["move"],
                      barnyard = (*move_of(plan, "J11"))["move"];
    CHECK(holds(book.done({"plan", "accept", fenwick, "--why", "she agreed"}), "1 draft to clients"));
    CHECK(bookings(book)["J9"] == "2026-07-14 " + (*move_of(plan, "J9"))["to"]["crew"].get<std::string>() + " " +
                                      (*move_of(plan, "J9"))["to"]["arrive_local"].get<std::string>());
    const std::string history = book.done({"booking", "show", "J9", "--history"});
    CHECK(holds(history, "she agreed"));
    const Json drafts = json_of(book, {"booking", "message", "list"})["messages"];
    REQUIRE(drafts.size() == 1);
    CHECK(drafts[0]["fields"]["state"] == "draft");
    CHECK(drafts[0]["fields"]["client"] == "K5");
    CHECK(holds(drafts[0]["fields"]["body"], "Rain on Thursday"));
    CHECK(book.run({"plan", "accept", fenwick}).exit == 3);
    book.done({"plan", "refuse", library});
    book.done({"plan", "accept", "--all"});
    auto after = bookings(book);
    CHECK(after["J8"] == before.at("J8"));
    CHECK(after["J11"] == before.at("J11"));  // it can wait: --all leaves it
    CHECK(after["J4"] != before.at("J4"));
    CHECK(holds(json_of(book, {"booking", "show", "J4"})["fields"]["state"].dump(), "confirmed"));
    // A move answered, moved jobs stay: the same forecast asks for nothing that was done or refused today.
    const Json again = json_of(book, asked({"plan", "rework"}));
    for (const char* job : {"J4", "J5", "J6", "J8", "J9"}) CHECK_MESSAGE(move_of(again, job) == nullptr, job);
    CHECK(book.run({"plan", "accept", barnyard}).exit == 3);  // of a proposal that a newer one closed
    CHECK(book.done({"book", "check"}).find("sound") != std::string::npos);
  }

  TEST_CASE("a move that needs another one's room is refused without it") {
    const BookOfTests book;
    load(book);
    {
      auto kept = book.place().open();
      keep(kept, {add("proposal", "P", {{"made_at", monday_evening}, {"state", "open"}}),
                  add("move", "M1",
                      {{"proposal", "P"},
                       {"job", "J4"},
                       {"tree", "T3"},
                       {"state", "open"},
                       {"job_version", "1"},
                       {"to_day", "2026-07-20"},
                       {"to_crew", "C"},
                       {"needs", "J13"}}),
                  add("move", "M2",
                      {{"proposal", "P"},
                       {"job", "J13"},
                       {"tree", "T12"},
                       {"state", "open"},
                       {"job_version", "1"},
                       {"to_day", "2026-07-20"},
                       {"to_crew", "A"}})});
    }
    const auto before = bookings(book);
    const Ran alone = book.run({"plan", "accept", "M1"});
    CHECK(alone.exit == 3);
    CHECK(holds(alone.err, "move M1: 'without that of job J13': expected both"));
    CHECK(bookings(book) == before);
    book.done({"plan", "accept", "M1", "M2"});
    CHECK(bookings(book)["J4"].starts_with("2026-07-20 C"));
  }

  TEST_CASE("a move is refused where the day it goes to is no longer what it was") {
    const BookOfTests book;
    load(book);
    const Json plan = json_of(book, asked({"plan", "rework"}));
    const Json& fenwick = *move_of(plan, "J9");
    const std::string id = fenwick["move"], crew = fenwick["to"]["crew"], day = fenwick["to"]["day"];
    const auto before = bookings(book);
    const auto refused = [&](const std::string& because) {
      const Ran ran = book.run({"plan", "accept", id});
      CHECK(ran.exit == 3);
      CHECK_MESSAGE(holds(ran.err, because), ran.err);
      CHECK(bookings(book)["J9"] == before.at("J9"));
    };
    SUBCASE("somebody else was booked there") {
      book.done({"booking", "change", "J13", "--day", day, "--crew", crew});
      refused("job J13 was booked there since");
    }
    SUBCASE("the crew has the day off") {
      book.done({"crew", "day-off", "add", "--crew", crew, "--first-day", day, "--last-day", day});
      refused("expected a crew that works that day");
    }
    SUBCASE("the site is closed") {
      book.done({"site", "change", "S5", "--work-days", "Th Fr"});
      refused("expected a day that suits the site, Th Fr");
    }
    SUBCASE("a rule is no longer met") {
      book.done({"site", "change", "S5", "--ticket-called-on", "", "--ticket-from", "2026-07-16"});
      refused("expected a day on which it may lawfully go");
    }
    SUBCASE("nothing has changed") { book.done({"plan", "accept", id}); }
  }

  TEST_CASE("a job that stays is shown at the hour that was said, and stays there however little it is worth") {
    const BookOfTests book;
    load(book);
    book.done({"booking", "change", "J1", "--value", "0"});
    const Json plan = json_of(book, asked({"plan", "rework"}));
    for (const Json& day : plan["schedule"])
      for (const Json& visit : day["visits"])
        if (move_of(plan, visit["job"]) == nullptr) CHECK_MESSAGE(visit["arrive_local"] == "07:00", visit.dump());
  }

  TEST_CASE("a job moved within the week, or booked far ahead, stays though another day were better, and hours stay hours") {
    const BookOfTests book;
    load(book);
    book.done({"booking", "change", "J12", "--day", "2026-07-16", "--crew", "C", "--now", "2026-07-13T20:00Z"});
    book.done({"booking", "change", "J10", "--day", "2026-07-24", "--now", "2026-07-12T20:00Z"});
    const Json plan = json_of(book, asked({"plan", "rework"}));
    CHECK(move_of(plan, "J12") == nullptr);
    CHECK(plan["worth_h"].get<double>() > 0.0);
    CHECK(plan["saves_at_most_h"].get<double>() < 1.0);
  }

  TEST_CASE("refusing all gives back the old plan") {
    const BookOfTests book;
    load(book);
    const auto before = bookings(book);
    book.done(asked({"plan", "rework"}));
    book.done({"plan", "refuse", "--all"});
    CHECK(bookings(book) == before);
    CHECK(json_of(book, {"booking", "message", "list"})["messages"].empty());
  }

  TEST_CASE("a job that another desk changed meanwhile is a conflict, and nothing is written") {
    const BookOfTests book;
    load(book);
    const Json plan = json_of(book, asked({"plan", "rework"}));
    book.done({"booking", "change", "J4", "--note", "call Mrs Hale first", "--by", "Ann"});
    const auto before = bookings(book);
    const Ran ran = book.run({"plan", "accept", (*move_of(plan, "J4"))["move"], (*move_of(plan, "J9"))["move"]});
    CHECK(ran.exit == 3);
    CHECK(holds(ran.err, "Ann changed it"));
    CHECK(bookings(book) == before);
  }

  TEST_CASE("wanted jobs and due trees are booked, promises stay") {
    const BookOfTests book;
    load(book);
    book.done({"booking", "add", "new", "--tree", "T14", "--state", "wanted"});
    book.done({"booking", "remove", "J12"});
    const Json plan = json_of(book, asked({"plan", "propose"}, "fair-week.json"));
    REQUIRE(move_of(plan, "new") != nullptr);
    CHECK((*move_of(plan, "new"))["what"] == "booked");
    CHECK(plan["moves"].size() == 1);
    book.done({"plan", "accept", "--all"});
    CHECK(json_of(book, {"booking", "show", "new"})["fields"]["state"] == "confirmed");
  }

  TEST_CASE("the grid and the crews' days show the bookings as they stand") {
    const BookOfTests book;
    load(book);
    const Arguments weather{"--weather", samples + "/wet-week.json", "--now", monday_evening};
    Arguments grid{"plan", "show"}, crews{"plan", "show", "--by-crew"};
    grid.insert(grid.end(), weather.begin(), weather.end());
    crews.insert(crews.end(), weather.begin(), weather.end());
    const std::string table = book.done(grid);
    CHECK(holds(table, "Oak Court elm (J4)"));
    CHECK(holds(table, "A Crew A."));
    const std::string days = book.done(crews);
    CHECK(holds(days, "Tue Jul 14: 7:00 am Courthouse elm (J1), GO"));
    CHECK(holds(days, "Crew F"));
  }

  TEST_CASE("a calendar holds every confirmed job, as RFC 5545 asks") {
    const BookOfTests book;
    load(book);
    const std::string all = book.done({"plan", "calendar"}), crew = book.done({"plan", "calendar", "--crew", "F"});
    const auto count = [](const std::string& text, const std::string& part) {
      std::size_t found = 0;
      for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++found;
      return found;
    };
    CHECK(all.starts_with("BEGIN:VCALENDAR\r\n"));
    CHECK(all.ends_with("END:VCALENDAR\r\n"));
    CHECK(count(all, "BEGIN:VEVENT\r\n") == 14);
    for (const char* required : {"\r\nUID:", "\r\nDTSTAMP:", "\r\nDTSTART:", "\r\nDTEND:"}) CHECK(count(all, required) == 14);
    CHECK(count(all, "\n") == count(all, "\r\n"));
    CHECK(count(crew, "BEGIN:VEVENT") == 1);
    CHECK(holds(crew, "DTSTART:20260717T120000Z"));  // seven in the morning, Central daylight time
    for (std::size_t at = 0, end; at < all.size(); at = end + 2) {
      end = all.find("\r\n", at);
      CHECK(end - at <= 75);  // octets a line, section 3.1
    }
  }

  TEST_CASE("a job that cannot stay on a good day says what forbids it, not that it makes room") {
    const BookOfTests book;
    load(book);
    SUBCASE("the site's days") {
      book.done({"site", "change", "S1", "--set", "work_days=We Th"});
      const std::string text = book.done(asked({"plan", "rework"}));
      CHECK(holds(text, "! days that suit the site: We Th"));
      CHECK_FALSE(holds(text, "makes room"));
    }
    SUBCASE("the crew's licence") {
      book.done({"crew", "licence", "change", "L1", "--expires-on", "2026-07-01"});
      CHECK(holds(book.done(asked({"plan", "rework"})), "! not lawful that day: MISSING licence"));
    }
    SUBCASE("the crew's day off") {
      CHECK(holds(book.done(asked({"plan", "what-if", "--crew-out", "A@2026-07-14"})), "! Crew A does not work on Tue Jul 14"));
    }
  }

  TEST_CASE("nobody digs before the locate ticket holds, or on a day when the site is closed") {
    const BookOfTests book;
    load(book);
    book.done({"site", "change", "S2", "--set", "ticket_from=2026-07-17"});
    book.done({"site", "change", "S8", "--set", "work_days=Mo Tu Fr"});
    const Json plan = json_of(book, asked({"plan", "rework"}));
    int elsewhere = 0;
    for (const Json& one : plan["prepare"]) {
      CAPTURE(one.dump());
      if (one["tree"] == "T3" || one["tree"] == "T4")
        CHECK(one["day"] >= "2026-07-17");
      else if (one["tree"] == "T12" || one["tree"] == "T13")
        CHECK(one["day"] != "2026-07-16");
      else
        ++elsewhere;
    }
    CHECK(elsewhere > 0);
  }

  TEST_CASE("a rig pumps at one tree at a time: a crew without one borrows what would else pump side by side") {
    const BookOfTests book;
    load(book);
    for (const char* job : {"J4", "J5", "J6", "J7", "J8", "J9", "J10", "J11", "J12", "J13", "J14"}) book.done({"booking", "remove", job});
    book.done({"booking", "change", "J2", "--crew", "A"});
    book.done({"booking", "change", "J3", "--crew", "B"});
    for (const char* crew : {"C", "D", "E", "F"})
      book.done({"crew", "day-off", "add", "--crew", crew, "--first-day", "2026-07-01", "--last-day", "2026-08-31"});
    for (const char* rig : {"G4", "G5", "G6", "G7"}) book.done({"crew", "rig", "remove", rig});
    const auto beside = [&] {
      const Json plan = json_of(book, asked({"plan", "rework", "--look-only"}));
      int count = 0;
      for (const Json& day : plan["schedule"])
        for (const Json& visit : day["visits"]) count += visit["beside"].get<bool>() ? 1 : 0;
      return count;
    };
    CHECK(beside() == 1);
    book.done({"crew", "rig", "remove", "G3"});
    CHECK(beside() == 0);
  }

  TEST_CASE("of two jobs of one tree one is planned, and the other is told") {
    const BookOfTests book;
    load(book);
    book.done({"booking", "add", "twin", "--tree", "T1", "--state", "wanted"});
    const Json plan = json_of(book, asked({"plan", "rework"}));
    CHECK(move_of(plan, "twin") == nullptr);
    CHECK(holds(plan["left_alone"].dump(), "its tree has job J1 too"));
  }

  TEST_CASE("a job with a spoilt day and no crew is told to the dispatcher") {
    const BookOfTests book;
    load(book);
    book.done({"booking", "change", "J4", "--set", "crew="});
    const Json plan = json_of(book, asked({"plan", "rework"}));
    REQUIRE(plan["left_alone"].size() == 1);
    CHECK(plan["left_alone"][0]["needs_you"] == true);
    CHECK(holds(plan["left_alone"][0]["why"], "nobody can go on Wed Jul 15, and it has no crew"));
  }

  TEST_CASE("a crew's short day is told beside the odds of the weather") {
    const BookOfTests book;
    load(book);
    for (const char* crew : {"A", "B", "C", "D", "E", "F"})
      book.done({"crew", "change", crew, "--set", "works_until=07:30", "--set", "overtime_h=0"});
    const std::string text = book.done(asked({"plan", "rework"}));
    const auto stays = text.find("STAYS\n");
    REQUIRE(stays != std::string::npos);
    const auto job = text.find("Millrace elm (J3)", stays);
    REQUIRE(job != std::string::npos);
    const auto next = text.find('\n', job) + 1;
    CHECK(text.substr(next).starts_with("      ! the hours it gets leave under 1 in 10\n"));
  }

  TEST_CASE("what cannot be is told with what would relax it") {
    SUBCASE("no crews") {
      const BookOfTests book;
      book.done({"tree", "import", demo_trees});
      const Ran ran = book.run({"plan", "rework", "--weather", demo_weather});
      CHECK(ran.exit == 3);
      CHECK(holds(ran.err, "crews: 'none': expected a crew in the book: sapdraw crew add"));
    }
    SUBCASE("nobody works") {
      const BookOfTests book;
      load(book);
      for (const char* crew : {"A", "B", "C", "D", "E", "F"})
        book.done({"crew", "day-off", "add", "--crew", crew, "--first-day", "2026-07-01", "--last-day", "2026-08-31"});
      const Ran ran = book.run(asked({"plan", "rework"}));
      CHECK(ran.exit == 3);
      CHECK(holds(ran.err, "expected a crew that works on one of the days ahead"));
    }
    SUBCASE("locks that contradict each other") {
      const BookOfTests book;
      load(book);
      book.done({"booking", "change", "J1", "--day", "2026-07-15", "--crew", "D", "--locked", "yes"});
      const Ran ran = book.run(asked({"plan", "rework"}));
      CHECK(ran.exit == 3);
      CHECK(holds(ran.err,
                  "jobs J1, J7: locked on Wed Jul 15 with Crew D: expected jobs that its hours allow on one day: unlock one of them"));
    }
    SUBCASE("a day that is over") {
      const BookOfTests book;
      load(book);
      book.done({"booking", "change", "J1", "--day", "2026-07-10"});
      CHECK(holds(book.done(asked({"plan", "rework"})), "booked for Fri Jul 10 2026, which is over: record what became of it"));
    }
    SUBCASE("a licence that has expired for all") {
      const BookOfTests book;
      load(book);
      for (const char* licence : {"L1", "L2", "L3", "L4", "L5", "L6"})
        book.done({"crew", "licence", "change", licence, "--expires-on", "2026-07-01"});
      const std::string text = book.done(asked({"plan", "rework"}));
      CHECK(holds(text, "CANNOT MOVE"));
      CHECK(holds(text, "licence, category 3A: held until Wed Jul 1 2026 only"));
    }
    SUBCASE("unknown things, and nothing asked") {
      const BookOfTests book;
      load(book);
      CHECK(holds(book.run(asked({"plan", "what-if", "--crew-out", "Z"})).err, "crew: 'Z': expected the id of a crew in the book"));
      CHECK(book.run(asked({"plan", "what-if"})).exit == 2);
      book.done({"booking", "change", "J1", "--crew", ""});
      CHECK(
          holds(book.run(asked({"plan", "what-if", "--stays", "J1"})).err, "job J1: expected one that has a day and a crew to stay with"));
      CHECK(book.run({"plan", "accept"}).exit == 2);
      CHECK(book.run({"plan", "accept", "V99"}).exit == 3);
      CHECK(book.run({"plan", "calendar", "--crew", "Z"}).exit == 3);
      CHECK(book.run(asked({"plan", "what-if", "--crew-out", "A@tomorrow"})).exit == 2);
    }
  }
}
