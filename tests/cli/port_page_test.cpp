// `sapdraw sheet --ports --page`: where the ports go, in text, in JSON and on a printed page.
#include <doctest/doctest.h>

#include <cstdlib>
#include <nlohmann/json.hpp>

#include "program.h"

namespace {

using Json = nlohmann::ordered_json;

const std::string old_ports = "weather-samples/old-ports.csv";

Ran sheet(const Arguments& arguments) {
  Arguments all{"sheet", "--now", demo_now, "--trees", demo_trees, "--tree", "courthouse-elm"};
  all.insert(all.end(), arguments.begin(), arguments.end());
  return sapdraw(all);
}

bool holds(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

std::size_t count(const std::string& text, const std::string& piece) {
  std::size_t found = 0;
  for (auto at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1)) ++found;
  return found;
}

// As a strict reader of XML sees the page, but for the doctype, which HTML alone has.
bool well_formed(const std::filesystem::path& page) {
  const std::string command =
      "python3 -c \"import sys, xml.dom.minidom as x; x.parseString(open(sys.argv[1], 'rb').read().replace(b'<!DOCTYPE html>', b''))\" '" +
      page.string() + "'";
  return std::system(command.c_str()) == 0;
}

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("a sheet with old ports lists a place for every port, alike in JSON and text") {
    const Json json = Json::parse(sheet({"--ports", old_ports, "--json"}).out);
    REQUIRE(json["port_places"].size() == json["ports"]["count"]);
    CHECK(json["flare_circumference_m"] == 5.3);
    CHECK(json["port_places"][0]["n"] == 1);
    double before = -1.0;
    for (const Json& place : json["port_places"]) {
      const double at = place["clockwise_cm"];
      CHECK(at > before);
      CHECK_MESSAGE((at < 203.5 * 530 / 524 - 2 || at > 241.0 * 530 / 524 + 2), "in the cavity");
      before = at;
    }
    CHECK(json["port_places_complete"] == false);
    CHECK(holds(json["port_places_say"][0], "Nearer to old ports than wanted (30 mm sideways, 150 mm straight above or below): port "));
    CHECK(holds(json["port_places_say"][1], " would find room clear of all old ports."));

    const std::string text = sheet({"--ports", old_ports, "--units", "si"}).out;
    CHECK(holds(text, "Laid out on a flare of 530 cm around, as measured."));
    CHECK(holds(text, "  1      "));
    CHECK(holds(text, " 41  "));
    CHECK(widest_line(text) <= 100);
    CHECK(holds(sheet({"--ports", old_ports}).out, "Laid out on a flare of 17 ft 5 in around, as measured."));
  }

  TEST_CASE("a sheet without old ports says that none are on record and lists no places in text") {
    const Ran ran = sheet({});
    CHECK(holds(ran.out, "No old ports are on record"));
    CHECK(holds(ran.out, "reckoned from the trunk. Measure it first"));
    CHECK_FALSE(holds(ran.out, "Clockwise from the tag, and above the tag line:"));
    const Json json = Json::parse(sheet({"--json"}).out);
    CHECK(json["port_places"].size() == json["ports"]["count"]);
    CHECK(json["port_places_complete"] == true);
  }

  TEST_CASE("a list with few old ports is satisfied, and the flare is the newest treatment's") {
    const Scratch scratch;
    const std::string list =
        scratch.file("few.csv", "clockwise_cm,height_cm,year,flare_cm\n10,8,2017,500\n200,8,2023,520\n90,8,2020,510\n");
    const Json json = Json::parse(sheet({"--ports", list, "--json"}).out);
    CHECK(json["port_places_complete"] == true);
    CHECK(json["flare_circumference_m"] == 5.2);
    CHECK(holds(json["port_places_say"][0], "All 41 ports find room away from the old ones"));
    CHECK(holds(json["port_places_say"][1], "of 520 cm around, as measured in 2023. Measure it first"));
  }

  TEST_CASE("bad wood all around leaves no place, and the sheet says so") {
    const Scratch scratch;
    const std::string list = scratch.file("bad.csv", "kind,clockwise_cm,to_cm,flare_cm\nbad,0,499,500\n");
    const Json json = Json::parse(sheet({"--ports", list, "--json"}).out);
    CHECK(json["port_places"].empty());
    CHECK(json["port_places_say"][0] == "Only 0 of 41 ports find room: bad wood leaves no place for more.");
    CHECK(sheet({"--ports", list, "--page", (scratch.folder() / "page.html").string()}).exit == 0);
    CHECK(well_formed(scratch.folder() / "page.html"));
  }

  TEST_CASE("a bad list of old ports is refused with its line, and no sheet is printed") {
    const Scratch scratch;
    const Ran ran = sheet({"--ports", scratch.file("old.csv", "clockwise_cm\nnorth side\n")});
    CHECK(ran.exit == 3);
    CHECK(ran.out.empty());
    CHECK(ran.err == "old.csv:2: clockwise_cm: 'north side': expected a number from 0 to 3000\n");
    CHECK(sheet({"--ports", "nowhere.csv"}).exit == 3);
    CHECK(sheet({"--page", "/nowhere/page.html"}).exit == 3);
  }

  TEST_CASE("the page holds what the sheet says, both drawings, every place and room to write") {
    const Scratch scratch;
    const auto file = scratch.folder() / "page.html";
    const Ran ran = sheet({"--ports", old_ports, "--page", file.string(), "--weather", demo_weather});
    CHECK(ran.exit == 0);
    CHECK(ran.out.find("SET-UP SHEET") != std::string::npos);
    const std::string page = content_of(file);
    CHECK(well_formed(file));
    for (const char* piece : {"DRAFT: THE DOSE BELOW",
                              "SET-UP SHEET",
                              "Courthouse elm",
                              "DOSE",
                              "WATER",
                              "TIME on ",
                              "valves shut by",
                              "off site by",
                              "ORDER OF WORK",
                              "Drill and seat section by section",
                              "BRING",
                              "backflow preventer",
                              "On the ridges of the flare",
                              "The label is the law",
                              "Flare measured",
                              "Tank mark",
                              "<td class=\"at\">9:30</td>",
                              "Signature",
                              "TAG",
                              "clockwise",
                              "old, 2017",
                              "old, 2020",
                              "old, 2023",
                              "leaked",
                              "bad wood: no port",
                              "nearer than wanted"})
      CHECK_MESSAGE(holds(page, piece), piece);
    CHECK(count(page, "<svg ") == 2);
    CHECK(count(page, "<tr><td>") >= 41);
    CHECK(holds(page, "font-weight=\"bold\">41</text>"));
    for (const char* word : {"VPD", "REW", "MPa", "embolism", "http://www.w3.org/1999/xhtml", "<script", "src="})
      CHECK_MESSAGE(!holds(page, word), word);
  }

  TEST_CASE("names of a tree list cannot break the page") {
    const Scratch scratch;
    const auto page = scratch.folder() / "page.html";
    const std::string list = scratch.file(
        "trees.csv", tree_header + "\nelm-1,\"<b>Tom & \"\"Ann's\"\" elm\",Ulmus americana,95,43.70,-91.90,320,America/Chicago,loam\n");
    CHECK(sapdraw({"sheet", "--now", demo_now, "--trees", list, "--tree", "elm-1", "--page", page.string()}).exit == 0);
    CHECK(well_formed(page));
    CHECK(holds(content_of(page), "&lt;b&gt;Tom &amp; &quot;Ann&#39;s&quot; elm"));
    CHECK_FALSE(holds(content_of(page), "<b>Tom"));
  }
}
