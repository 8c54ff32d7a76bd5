// RFC 5545 (Internet Calendaring and Scheduling Core Object Specification, 2009): what we write, and what another reader makes of it.
#include "calendar/ics.h"

#include <doctest/doctest.h>
#include <stdio.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>

namespace {

using Json = nlohmann::json;

const units::UtcTime stamp = *units::parse_instant("2026-07-13T22:00Z");

std::string odd_text(std::mt19937& dice) {
  static const std::array<std::string, 12> pieces{
      "Oak Court", ",", ";",   "back\\slash", "\n", "\xE2\x9A\xA1", "\xD9\x85\xD8\xB1", "a very long name indeed ",
      "\"q\"",     ":", "  x", "END:VEVENT"};
  std::string text = "x";
  for (std::size_t i = 0, n = dice() % 30; i < n; ++i) text += pieces[dice() % pieces.size()];
  return text + "x";
}

std::vector<calendar::Event> odd_events(std::size_t count) {
  std::mt19937 dice{7};
  std::vector<calendar::Event> events;
  for (std::size_t i = 0; i < count; ++i) {
    calendar::Event event{"J" + std::to_string(i) + "@sapdraw",
                          static_cast<int>(dice() % 40),
                          *units::parse_day("2026-07-14") + std::chrono::days{dice() % 300},
                          {},
                          {},
                          {},
                          {},
                          {}};
    if (dice() % 4 != 0) event.begins = stamp + std::chrono::minutes{dice() % 200000};
    if (event.begins) event.ends = *event.begins + std::chrono::minutes{30 + dice() % 800};
    event.summary = odd_text(dice);
    event.location = dice() % 3 == 0 ? "" : odd_text(dice);
    event.description = odd_text(dice);
    events.push_back(event);
  }
  return events;
}

// The events as the other reader has them; empty where it is not installed.
std::optional<Json> read_back(const std::string& text) {
  const std::filesystem::path file = std::filesystem::temp_directory_path() / ("sapdraw-ics-" + std::to_string(::getpid()) + ".ics");
  std::ofstream{file, std::ios::binary} << text;
  FILE* pipe = ::popen(("/usr/bin/python3 " READER " " + file.string() + " 2>/dev/null").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string out;
  std::array<char, 4096> part{};
  while (const std::size_t got = ::fread(part.data(), 1, part.size(), pipe)) out.append(part.data(), got);
  const bool ran = ::pclose(pipe) == 0;
  std::filesystem::remove(file);
  return ran ? std::optional{Json::parse(out)} : std::nullopt;
}

}  // namespace

TEST_SUITE("calendar") {
  TEST_CASE("every event has what the standard requires, lines end in CRLF and hold at most 75 octets of whole characters") {
    const std::string text = calendar::ics(odd_events(200), stamp);
    CHECK(text.starts_with("BEGIN:VCALENDAR\r\n"));
    CHECK(text.ends_with("END:VCALENDAR\r\n"));
    std::size_t stamps = 0, uids = 0;
    for (std::size_t at = 0, end; at < text.size(); at = end + 2) {
      end = text.find("\r\n", at);
      REQUIRE(end != std::string::npos);
      const std::string line = text.substr(at, end - at);
      CHECK(line.size() <= 75);
      CHECK(line.find('\n') == std::string::npos);
      stamps += line == "DTSTAMP:20260713T220000Z" ? 1 : 0;
      uids += line.starts_with("UID:") ? 1 : 0;
    }
    CHECK(stamps == 200);
    CHECK(uids == 200);
  }

  TEST_CASE("text is escaped as section 3.3.11 asks") {
    calendar::Event event{"J1@sapdraw", 1, *units::parse_day("2026-07-14"), {}, {}, "a\\,b", {}, "x\\;\ny"};
    const std::string text = calendar::ics({event}, stamp);
    CHECK(text.find("\r\nSUMMARY:a\\\\\\,b\r\n") != std::string::npos);
    CHECK(text.find("\r\nDESCRIPTION:x\\\\\\;\\ny\r\n") != std::string::npos);
  }

  // It undoes one kind of escape after the other, and so misreads a backslash before a comma: that is checked above.
  TEST_CASE("another reader finds in it what was put in") {
    const auto events = odd_events(200);
    const auto read = read_back(calendar::ics(events, stamp));
    if (!read) {
      MESSAGE("skipped: the Python package icalendar is not installed");
      return;
    }
    REQUIRE(read->size() == events.size());
    for (std::size_t i = 0; i < events.size(); ++i) {
      const Json& there = (*read)[i];
      const calendar::Event& event = events[i];
      CHECK(there["uid"] == event.uid);
      CHECK(there["sequence"] == event.sequence);
      CHECK(there["summary"] == event.summary);
      CHECK(there["location"] == event.location);
      CHECK(there["description"] == event.description);
      const std::string start = there["start"];
      CHECK(start.starts_with(event.begins ? units::to_text(*event.begins).substr(0, 16) : units::to_text(event.day)));
      CHECK(there["end"].is_null() == !event.ends.has_value());
    }
  }
}
