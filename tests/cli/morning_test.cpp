// What crews are told, through whole commands: three days of the invented office of weather-samples/rainy-week.
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <future>
#include <nlohmann/json.hpp>

#include "rainy_week.h"

namespace {

using Json = nlohmann::json;

// Wall clocks of the office are five hours behind.
const std::string monday_evening = "2026-07-13T23:00Z", tuesday_morning = "2026-07-14T10:30Z", tuesday_noon = "2026-07-14T17:05Z",
                  tuesday_evening = "2026-07-14T23:00Z";

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

class Office {
 public:
  Office() { rainy_week::load(book_); }

  [[nodiscard]] const BookOfTests& book() const { return book_; }
  [[nodiscard]] std::filesystem::path spool() const { return scratch_.folder() / "spool"; }

  // Texts go into a folder, one file each.
  [[nodiscard]] Ran morning(const std::string& weather, const std::string& now, Arguments more = {}) const {
    std::filesystem::create_directories(spool());
    const std::string config = scratch_.file("config.toml", "[post]\nsending = \"on\"\ntexts = \"spool\"\nspool = \"" + spool().string() +
                                                                "\"\ncall = \"555-0100\"\noffice = \"555-0199\"\n");
    Arguments arguments{"morning", "--config", config, "--weather", rainy_week::samples + "/" + weather, "--now", now};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return book_.run(arguments);
  }
  [[nodiscard]] Json preview(const std::string& weather, const std::string& now, Arguments more = {}) const {
    Arguments arguments{"text", "preview", "--json", "--weather", rainy_week::samples + "/" + weather, "--now", now};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return Json::parse(book_.run(arguments).out);
  }

  // The words of every message to a crew about a day, in the order in which they are to be read.
  [[nodiscard]] std::vector<std::string> told(const std::string& crew, const std::string& day = "2026-07-14") const {
    std::vector<std::string> words;
    const Json status = Json::parse(book_.done({"text", "status", "--json", "--crew", crew, "--day", day}));
    for (const Json& message : status["messages"]) words.push_back(message["text"]);
    return words;
  }

  // Messages in the folder; beside them lies a folder in which they are written.
  [[nodiscard]] std::ptrdiff_t files() const {
    return std::ranges::count_if(std::filesystem::directory_iterator{spool()}, [](const auto& entry) { return entry.is_regular_file(); });
  }

 private:
  BookOfTests book_;
  Scratch scratch_;
};

Json of_crew(const Json& preview, const std::string& crew) {
  const auto found = std::ranges::find_if(preview["texts"], [&](const Json& text) { return text["crew"] == crew; });
  REQUIRE(found != preview["texts"].end());
  return *found;
}

}  // namespace

TEST_SUITE("cli: morning") {
  TEST_CASE("a good day: everybody is told once the evening before, and in the morning there is nothing to add") {
    const Office office;
    const Ran evening = office.morning("fair-week.json", monday_evening, {"--evening"});
    CHECK_MESSAGE(evening.exit == 0, evening.err);
    CHECK(office.files() == 3);
    const auto to_a = office.told("A");
    REQUIRE(to_a.size() == 1);
    for (const char* part : {"Crew A Tue Jul 14\n", "1) 7am Courthouse elm: GO ", " 9 in 10, takes ", "66 gal mix + 3 gal flush", "hydrant",
                             "Valves open 9:08am", "shut by 6:29pm", "off site by 7pm"})
      CHECK_MESSAGE(holds(to_a.front(), part), to_a.front());
    CHECK(!holds(to_a.front(), "DRAFT"));
    CHECK(holds(office.told("D").front(), "haul 62 gal"));

    CHECK(office.morning("fair-week.json", monday_evening, {"--evening"}).exit == 0);
    const Ran morning = office.morning("fair-week.json", tuesday_morning);
    CHECK_MESSAGE(morning.exit == 0, morning.err);
    CHECK(holds(morning.out, "Crew A           no change"));
    CHECK(office.files() == 3);
    CHECK(office.told("A").size() == 1);
  }

  TEST_CASE("thunder at three on hauled water: one correction at noon, what to do first, and no second one") {
    const Office office;
    CHECK(office.morning("fair-week.json", monday_evening, {"--evening"}).exit == 0);
    const Ran noon = office.morning("stormy-tuesday.json", tuesday_noon, {"--correction"});
    CHECK_MESSAGE(noon.exit == 0, noon.err);
    const auto to_d = office.told("D");
    REQUIRE(to_d.size() == 2);
    CHECK(to_d[1].starts_with("Shut valves by 3pm, into truck, leave lines on. 30 min after last thunder: back."));
    CHECK(holds(to_d[1], "Mix no more at Millrace elm: "));
    CHECK(holds(to_d[1], " in 10 to finish."));
    CHECK(!holds(to_d[1], "pen no valves"));  // they are open
    CHECK(holds(to_d[1], "New HOLD 3-6:30pm thunder."));
    CHECK(holds(to_d[1], "Call 555-0100"));
    CHECK(office.files() == 6);
    // The next look at the same sky says nothing.
    const Ran again = office.morning("stormy-tuesday.json", "2026-07-14T17:25Z", {"--correction"});
    CHECK(again.exit == 0);
    CHECK(office.told("D").size() == 2);
    CHECK(office.files() == 6);
    // No booking was touched.
    CHECK(holds(office.book().done({"booking", "show", "J3"}), "2026-07-14"));
  }

  TEST_CASE("a sky that turns back and forth sends no stream: what calls off goes at once, what eases waits its hour") {
    const Office office;
    CHECK(office.morning("fair-week.json", monday_evening, {"--evening", "--crew", "A"}).exit == 0);
    const auto look = [&](const char* weather, const char* now) {
      CHECK(office.morning(weather, now, {"--correction", "--crew", "A"}).exit == 0);
    };
    look("stormy-tuesday.json", "2026-07-14T17:05Z");
    look("fair-week.json", "2026-07-14T17:25Z");
    look("stormy-tuesday.json", "2026-07-14T17:45Z");
    CHECK(office.told("A").size() == 2);
    look("fair-week.json", "2026-07-14T18:10Z");
    const auto told = office.told("A");
    REQUIRE(told.size() == 3);
    CHECK(told[2].starts_with("Go ahead at Courthouse elm: "));
  }

  TEST_CASE("one failed look at the weather turns no day") {
    const Office office;
    CHECK(office.morning("fair-week.json", monday_evening, {"--evening"}).exit == 0);
    const Scratch scratch;
    const std::string config =
        scratch.file("config.toml", "contact = \"office@example.org\"\n[post]\nsending = \"on\"\ntexts = \"standard-output\"\n");
    const Ran blind = office.book().run({"morning", "--correction", "--offline", "--config", config, "--now", tuesday_noon});
    CHECK(blind.exit == 4);
    CHECK(holds(blind.out, "no weather to hold its day against; what was said stands"));
    CHECK(office.told("A").size() == 1);
  }

  TEST_CASE("on a NO GO evening nothing of mix or valves is said") {
    const Office office;
    const std::string text = of_crew(office.preview("wet-week.json", "2026-07-14T23:00Z"), "B")["text"];
    CHECK(holds(text, "NO GO "));
    CHECK(holds(text, "open no valves"));
    CHECK(!holds(text, " gal"));
    CHECK(!holds(text, "Valves open"));
  }

  TEST_CASE("a tree without the label's dose is prepared only") {
    const Office office;
    office.book().done({"tree", "change", "T1", "--dose-l", ""});
    const std::string text = of_crew(office.preview("fair-week.json", monday_evening), "A")["text"];
    CHECK(holds(text, "No label dose in the book: mix nothing"));
    CHECK(!holds(text, " GO "));
  }

  TEST_CASE("a second morning with newer changes tells them") {
    const Office office;
    CHECK(office.morning("fair-week.json", monday_evening, {"--evening", "--crew", "A"}).exit == 0);
    const auto again = [&](const char* start, const char* now) {
      office.book().done({"booking", "change", "J1", "--start", start, "--now", now});
      CHECK(office.morning("fair-week.json", now, {"--crew", "A"}).exit == 0);
    };
    again("08:00", "2026-07-14T10:30Z");
    again("09:30", "2026-07-14T11:00Z");
    const auto told = office.told("A");
    REQUIRE(told.size() == 3);
    CHECK(holds(told[1], "arrive 8am (was 7am)"));
    CHECK(holds(told[2], "arrive 9:30am (was 8am)"));
  }

  TEST_CASE("the line down and old weather: preparation only, whatever the figures would say") {
    const Office office;
    const Json old = office.preview("fair-week-met.json", tuesday_evening);
    const Json to_a = of_crew(old, "A");
    const std::string text = to_a["text"];
    CHECK(
        text.starts_with("Crew A Wed Jul 15\nPrep only, weather 38h old: dig, brush clean, measure flare, lay out. Drill nothing, "
                         "open no valves till we call."));
    CHECK(!holds(text, " GO "));
    CHECK(!holds(text, "Valves open"));
    CHECK(to_a["parts"] <= 2);
    CHECK(holds(old["missing"].dump(), "Crew A: no weather fresh enough for a GO: preparation only"));
    // Where no ticket holds nobody is told to dig.
    office.book().done({"site", "change", "S2", "--ticket-until", "2026-07-10"});
    const std::string no_ticket = of_crew(office.preview("fair-week-met.json", tuesday_evening), "A")["text"];
    CHECK(holds(no_ticket, "Prep only, weather 38h old, open no valves till we call."));
    CHECK(holds(no_ticket, "Do not dig: utility ticket ended Fri Jul 10"));
    // Told all the same, and the office hears why.
    const Ran evening = office.morning("fair-week-met.json", tuesday_evening, {"--evening"});
    CHECK(evening.exit == 3);
    CHECK(office.told("A", "2026-07-15").size() == 1);
  }

  TEST_CASE("where the weather fails altogether crews are told to prepare, and the exit code says so") {
    const Office office;
    std::filesystem::create_directories(office.spool());
    Scratch scratch;
    const std::string config =
        scratch.file("config.toml", "contact = \"office@example.org\"\n[post]\nsending = \"on\"\ntexts = \"spool\"\nspool = \"" +
                                        office.spool().string() + "\"\n");
    const Ran ran = office.book().run({"morning", "--evening", "--offline", "--config", config, "--now", monday_evening});
    CHECK(ran.exit == 4);
    const auto to_b = office.told("B");
    REQUIRE(to_b.size() == 1);
    CHECK(holds(to_b.front(), "Prep only, weather of unknown age"));
  }

  TEST_CASE("figures of a message are those of the order, and the order those of the book and of days") {
    const Office office;
    const Json preview = office.preview("fair-week.json", monday_evening);
    const Json days = Json::parse(office.book().done(
        {"days", "--json", "--weather", rainy_week::samples + "/fair-week.json", "--now", monday_evening, "--tree", "T1"}));
    const Json stop = of_crew(preview, "A")["order"]["stops"][0];
    CHECK(stop["code"] == "J1");
    CHECK(stop["arrive_local"] == "2026-07-14T07:00");
    CHECK(stop["mix_l"] == days["trees"][0]["dose_l"]);
    CHECK(stop["ports"] == days["trees"][0]["ports"]);
    const Json& tuesday = *std::ranges::find_if(days["trees"][0]["days"], [](const Json& day) { return day["date"] == "2026-07-14"; });
    CHECK(std::abs(stop["chance"].get<double>() - tuesday["chance_to_finish"].get<double>()) < 0.1);
    // The crew leaves at seven in the evening, an hour before the day's end.
    CHECK(stop["off_site_by_local"] == "2026-07-14T19:00");
  }

  TEST_CASE("what the law lacks is said and nothing is treated") {
    const Office office;
    office.book().done({"client", "change", "K1", "--consent", "asked"});
    const Json text = of_crew(office.preview("fair-week.json", monday_evening), "A");
    CHECK(holds(text["text"], "No client's consent: open no valves"));
    CHECK(!holds(text["text"], " GO "));
    CHECK(text["order"]["stops"][0]["valves"].is_null());
    office.book().done({"site", "change", "S1", "--ticket-until", "2026-07-10"});
    CHECK(holds(of_crew(office.preview("fair-week.json", monday_evening), "A")["text"], "Do not dig: utility ticket ended Fri Jul 10"));
  }

  TEST_CASE("a move accepted since is told to both crews, and in the morning as a change") {
    const Office office;
    CHECK(office.morning("fair-week.json", monday_evening, {"--evening"}).exit == 0);
    office.book().done({"booking", "change", "J2", "--day", "2026-07-21", "--now", "2026-07-14T03:00Z"});
    const Ran morning = office.morning("fair-week.json", tuesday_morning);
    CHECK_MESSAGE(morning.exit == 0, morning.err);
    const auto to_b = office.told("B");
    REQUIRE(to_b.size() == 2);
    CHECK(holds(to_b[1], "Not today: Bandstand elm (Courthouse)"));
    CHECK(office.told("A").size() == 1);
  }

  TEST_CASE("what a held morning would have said is in the correction that overtakes it") {
    const Office office;
    office.book().done({"crew", "change", "A", "--quiet-from", "21:00", "--quiet-until", "07:00"});
    CHECK(office.morning("fair-week.json", monday_evening, {"--evening", "--crew", "A"}).exit == 0);
    office.book().done({"booking", "change", "J2", "--crew", "A", "--start", "13:00", "--now", "2026-07-14T03:00Z"});
    CHECK(holds(office.morning("fair-week.json", tuesday_morning, {"--crew", "A"}).out, "queued, held"));
    CHECK(office.morning("stormy-tuesday.json", "2026-07-14T12:05Z", {"--correction", "--crew", "A"}).exit == 0);
    const auto to_a = office.told("A");
    REQUIRE(to_a.size() == 3);
    CHECK(to_a[2].starts_with("Shut valves by 3pm"));
    CHECK_MESSAGE(holds(to_a[2], "New stop at 1pm: Bandstand elm (Courthouse)."), to_a[2]);
    CHECK_MESSAGE(holds(to_a[2], "\nNew: 2) 1pm Bandstand elm (Courthouse): NO GO"), to_a[2]);
    // One without news leaves the waiting message alone.
    CHECK(holds(office.morning("stormy-tuesday.json", "2026-07-14T12:25Z", {"--correction", "--crew", "A"}).out, "nothing to tell"));
  }

  TEST_CASE("where even the evening's has not left the next one tells the whole day") {
    const Office office;
    office.book().done({"crew", "change", "A", "--quiet-from", "17:00", "--quiet-until", "06:00"});
    CHECK(holds(office.morning("fair-week.json", monday_evening, {"--evening", "--crew", "A"}).out, "queued, held"));
    office.book().done({"booking", "change", "J1", "--start", "08:00", "--now", "2026-07-14T03:00Z"});
    CHECK(office.morning("fair-week.json", "2026-07-14T11:30Z", {"--crew", "A"}).exit == 0);
    const auto to_a = office.told("A");
    REQUIRE(to_a.size() == 2);
    CHECK_MESSAGE(to_a[1].starts_with("Crew A Tue Jul 14\n1) 8am Courthouse elm: GO "), to_a[1]);
  }

  TEST_CASE("a stop given back in the course of the day, and a day that is empty, are told with the number to call") {
    const Office office;
    CHECK(office.morning("fair-week.json", monday_evening, {"--evening", "--crew", "A"}).exit == 0);
    office.book().done({"booking", "change", "J1", "--crew", "B", "--now", "2026-07-14T03:00Z"});
    CHECK(office.morning("fair-week.json", tuesday_morning, {"--crew", "A"}).exit == 0);
    office.book().done({"booking", "change", "J1", "--crew", "A", "--start", "13:00", "--now", "2026-07-14T13:00Z"});
    CHECK(office.morning("fair-week.json", "2026-07-14T13:30Z", {"--crew", "A", "--correction"}).exit == 0);
    const auto to_a = office.told("A");
    REQUIRE(to_a.size() == 3);
    CHECK(to_a[1] == "Crew A Tue Jul 14, changed:\nNot today: Courthouse elm.\nCall 555-0100");
    CHECK_MESSAGE(to_a[2].starts_with("New stop at 1pm: Courthouse elm."), to_a[2]);
  }

  TEST_CASE("without weather a crew is off site as early as site and crew ask") {
    const Office office;
    office.book().done({"site", "change", "S2", "--work-until", "15:00"});
    const Ran ran = office.book().run({"text", "preview", "--offline", "--json", "--now", tuesday_evening, "--config", "/dev/null"});
    const Json preview = Json::parse(ran.out);
    CHECK(of_crew(preview, "A")["order"]["stops"][0]["off_site_by_local"] == "2026-07-15T15:00");
    CHECK(of_crew(preview, "C")["order"]["stops"][0]["off_site_by_local"] == "2026-07-15T19:00");
  }

  TEST_CASE("a tree booked twice for a day is treated by one crew, and the office hears of it") {
    const Office office;
    office.book().done(
        {"booking", "add", "J20", "--tree", "T1", "--crew", "C", "--day", "2026-07-14", "--start", "11:00", "--state", "confirmed"});
    const Json preview = office.preview("fair-week.json", monday_evening);
    CHECK(!of_crew(preview, "A")["order"]["stops"][0]["valves"].is_null());
    const Json second = of_crew(preview, "C")["order"]["stops"][0];
    CHECK(second["arrive_local"] == "2026-07-14T11:00");
    CHECK(second["valves"].is_null());
    CHECK(holds(preview["missing"].dump(), "(J20): no hours for it: J1 is booked for the same tree that day"));
  }

  TEST_CASE("what a booking asks of a site that does not suit it is told to the office") {
    const Office office;
    office.book().done({"site", "change", "S1", "--work-days", "We Th", "--work-from", "09:00"});
    office.book().done({"booking", "change", "J3", "--start", "23:30"});
    const Json preview = office.preview("fair-week.json", monday_evening);
    const std::string missing = preview["missing"].dump();
    CHECK_MESSAGE(holds(missing, "Courthouse elm (J1): Tue Jul 14 does not suit the site (We Th)"), missing);
    CHECK_MESSAGE(holds(missing, "Courthouse elm (J1): comes before 9:00 am, from when the site can be worked on"), missing);
    CHECK_MESSAGE(holds(missing, "Millrace elm (J3): comes too late to open valves"), missing);
    CHECK(of_crew(preview, "D")["order"]["stops"][0]["valves"].is_null());
  }

  TEST_CASE("a day that is over is told to nobody") {
    const Office office;
    const Ran late = office.morning("fair-week.json", "2026-07-16T23:00Z", {"--evening", "--day", "2026-07-14", "--crew", "A"});
    CHECK(late.exit == 3);
    CHECK_MESSAGE(holds(late.err, "Crew A: '2026-07-14T12:00Z': too late"), late.err);
    CHECK(office.told("A").empty());
  }

  TEST_CASE("a crew that is done is not told to stay away") {
    const Office office;
    CHECK(office.morning("fair-week.json", monday_evening, {"--evening", "--crew", "A"}).exit == 0);
    office.book().done({"booking", "change", "J1", "--state", "done", "--now", "2026-07-14T17:00Z"});
    CHECK(holds(office.morning("fair-week.json", tuesday_noon, {"--correction", "--crew", "A"}).out, "nothing to tell"));
    CHECK(office.told("A").size() == 1);
  }

  TEST_CASE("two mornings at once tell everybody once") {
    const Office office;
    std::filesystem::create_directories(office.spool());
    const auto run = [&] { return office.morning("fair-week.json", monday_evening, {"--evening"}).exit; };
    auto other = std::async(std::launch::async, run);
    const int mine = run();
    CHECK(mine == 0);
    CHECK(other.get() == 0);
    CHECK(office.files() == 3);
    for (const char* crew : {"A", "B", "D"}) CHECK(office.told(crew).size() == 1);
  }

  TEST_CASE("while sending is not on it shows what would leave, queues nothing, and says so") {
    const Office office;
    const Ran ran = office.book().run(
        {"morning", "--evening", "--weather", rainy_week::samples + "/fair-week.json", "--now", monday_evening, "--config", "/dev/null"});
    CHECK(ran.exit == 3);
    CHECK(holds(ran.out, "Crew A Tue Jul 14"));
    CHECK(holds(ran.out, "NOT SENT, and nothing was queued"));
    const Ran as_json = office.book().run({"morning", "--evening", "--json", "--weather", rainy_week::samples + "/fair-week.json", "--now",
                                           monday_evening, "--config", "/dev/null"});
    CHECK(Json::parse(as_json.out)["texts"].size() == 3);
    CHECK(office.told("A").empty());
  }

  TEST_CASE("a crew that has not agreed to texts is not told, the others are, and the field to fill in is named") {
    const Office office;
    office.book().done({"crew", "change", "A", "--texts-agreed-on", ""});
    const Ran ran = office.morning("fair-week.json", monday_evening, {"--evening"});
    CHECK(ran.exit == 3);
    CHECK(holds(ran.err, "texts_agreed_on"));
    CHECK(holds(ran.out, "NOT TOLD"));
    CHECK(office.told("A").empty());
    CHECK(office.told("B").size() == 1);
  }

  TEST_CASE("a monitor finds a heartbeat, whatever happened") {
    const Office office;
    const Scratch scratch;
    const auto beat = scratch.folder() / "beat.json";
    CHECK(office.morning("fair-week.json", monday_evening, {"--evening", "--heartbeat", beat.string()}).exit == 0);
    Json heart = Json::parse(content_of(beat));
    CHECK(heart["exit"] == 0);
    CHECK(heart["sent"] == 3);
    CHECK(heart["ended_at"] == monday_evening);
    CHECK(office.morning("no-such-file.json", monday_evening, {"--evening", "--heartbeat", beat.string()}).exit != 0);
    heart = Json::parse(content_of(beat));
    CHECK(heart["exit"] != 0);
    CHECK(!heart["lines"].empty());
  }

  TEST_CASE("an owner's wording is checked when it is saved, and used") {
    const Office office;
    const std::string layout = "{crew}, {day}:[ {changed}]\n{stops}[\n{holds}][\n{safety}][\nRing {call}][ {weather_age}][ {old_weather}]";
    const Ran kept = office.book().run({"book", "wording", "add", "--message", "evening", "--layout", layout});
    CHECK_MESSAGE(kept.exit == 0, kept.err);
    CHECK(of_crew(office.preview("fair-week.json", monday_evening), "A")["text"].get<std::string>().starts_with("Crew A, Tue Jul 14:"));
    for (const auto& [bad, expected] : std::vector<std::pair<std::string, std::string>>{
             {"{crew} {day} {stops}", "{old_weather}"}, {"{crew} {colour}", "{colour}"}, {"{crew} [{day}", "["}}) {
      const Ran refused = office.book().run({"book", "wording", "change", "Y1", "--layout", bad});
      CHECK(refused.exit == 3);
      CHECK_MESSAGE(holds(refused.err, expected), refused.err);
    }
    CHECK(office.book().run({"book", "wording", "add", "--message", "evening", "--layout", layout}).exit == 3);
  }

  TEST_CASE("names that somebody typed to break a message break none") {
    const Office office;
    const std::string long_name(200, 'x');
    office.book().done({"site", "change", "S1", "--name",
                        "Court\xE2\x80\xAE"
                        "House \xF0\x9F\x8C\xB3 {call} [x] " +
                            long_name});
    office.book().done({"tree", "change", "T1", "--name", "elm"});
    const Json text = of_crew(office.preview("fair-week.json", monday_evening), "A");
    CHECK(text["parts"] <= 2);
    CHECK(text["alphabet"] == "gsm7");
    CHECK(std::ranges::count(text["text"].get<std::string>(), '\n') <= 3);
    CHECK(!holds(text["text"], "\xE2\x80\xAE"));
  }

  TEST_CASE("a mail brings the whole day, a set-up sheet for every stop and a calendar") {
    const Office office;
    office.book().done({"crew", "change", "A", "--email", "lead@crews.example", "--road", "email"});
    Scratch scratch;
    // No mail server is there: the message waits in the outbox with all it brings.
    const std::string config = scratch.file("config.toml",
                                            "[post]\nsending = \"on\"\ntexts = \"standard-output\"\n[post.smtp]\nhost = "
                                            "\"127.0.0.1\"\nport = 1\nfrom = \"office@crews.example\"\n");
    const Ran ran = office.book().run({"morning", "--evening", "--crew", "A", "--config", config, "--weather",
                                       rainy_week::samples + "/fair-week.json", "--now", monday_evening});
    CHECK(ran.exit == 4);
    const Json list = Json::parse(office.book().done({"booking", "message", "list", "--json"}));
    const auto mail =
        std::ranges::find_if(list["messages"], [](const Json& one) { return one["fields"].value("purpose", "") == "evening"; });
    REQUIRE(mail != list["messages"].end());
    const Json fields = (*mail)["fields"];
    CHECK(fields["state"] == "queued");
    CHECK(fields["subject"] == "Crew A Tue Jul 14: 1 stop");
    CHECK(holds(fields["body"], "valves open 9:08 am, valves shut by 6:29 pm, off site by 7:00 pm"));
    const Json attachments = Json::parse(fields["attachments"].get<std::string>());
    REQUIRE(attachments.size() == 2);
    CHECK(attachments[0]["name"] == "sheet-J1.html");
    CHECK(holds(attachments[0]["text"], "Courthouse elm"));
    CHECK(holds(attachments[1]["text"], "BEGIN:VEVENT"));
  }

  TEST_CASE("nobody has a booking: nothing to tell, and that is no fault") {
    const Office office;
    const Ran ran = office.morning("fair-week.json", "2026-07-17T23:00Z", {"--evening"});
    CHECK(ran.exit == 0);
    CHECK(holds(ran.out, "No crew has a booking"));
    const Ran preview =
        office.book().run({"text", "preview", "--weather", rainy_week::samples + "/fair-week.json", "--now", "2026-07-17T23:00Z"});
    CHECK(preview.exit == 1);
    CHECK(office.book().run({"text", "preview", "--crew", "Z", "--weather", rainy_week::samples + "/fair-week.json"}).exit == 3);
  }
}
