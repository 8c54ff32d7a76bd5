#include "text/template.h"

#include <doctest/doctest.h>

#include "text/composer.h"
#include "text/orders.h"

using namespace text;

namespace {

std::string refusal(TemplateKind kind, const std::string& text) {
  const auto parsed = Template::parse(kind, text, "templates.evening");
  return parsed ? "" : parsed.error().line();
}

std::string evening(const std::string& text) { return refusal(TemplateKind::evening, text); }

const std::string full = "{crew} {day}[ {old_weather}] {stops}[ {holds}][ {safety}]";

}  // namespace

TEST_SUITE("text") {
  TEST_CASE("the standard templates are sound") {
    for (const auto kind :
         {TemplateKind::evening, TemplateKind::morning, TemplateKind::correction, TemplateKind::stop, TemplateKind::prep_stop})
      CHECK(refusal(kind, std::string{standard_text(kind)}) == "");
    CHECK(evening(full) == "");
  }

  TEST_CASE("a template that would fail a message is refused, and the fault names the piece") {
    CHECK(evening(full + "[ {weather}]").starts_with("templates.evening: '{weather}': expected one of {crew}, {day}, {stops}, "));
    CHECK(evening(full + "[ {long words}]").find("'{long words}'") != std::string::npos);
    CHECK(evening(full + "[ {gate}]").find("'{gate}'") != std::string::npos);  // of a stop
    CHECK(evening("{crew} {day}[ {old_weather}] {stops}[ {safety}]") == "templates.evening: expected {holds}: it is never left out");
    CHECK(evening("{crew} {day}[ {old_weather}][ {holds}][ {safety}]") == "templates.evening: expected {stops}: it is never left out");
    CHECK(evening(full + " {stops}") == "templates.evening: '{stops}': expected each piece once");
    CHECK(evening("[{crew}] " + full.substr(7)) == "templates.evening: '{crew}': expected outside of [ ]: it is never left out");
    CHECK(evening(full + " {call}") == "templates.evening: '{call}': expected within [ ]: it may be empty or left out");
    CHECK(refusal(TemplateKind::correction, "Hello {do}[ {changes}]") == "templates.evening: expected to begin with {do}");
  }

  TEST_CASE("braces and brackets must match") {
    for (const std::string broken : {"{crew", "crew}", "[{call}", "{call}]", "[[{call}]]", "[words]", "{}", "{{crew}}"})
      CHECK(evening(full + " " + broken) != "");
    CHECK(evening("") != "");
  }

  TEST_CASE("own words are few and in the alphabet of phones") {
    CHECK(evening(full + " Good morning") == "");
    CHECK(evening(full + std::string(70, 'x')) == "templates.evening: expected at most 60 characters of own words");
    CHECK(evening(full + " доброе утро").find("seven-bit alphabet") != std::string::npos);
    CHECK(evening(full + "\r").find("seven-bit alphabet") != std::string::npos);
  }

  TEST_CASE("what stands in a piece is never read as a template, and an empty piece takes its bracket along") {
    const auto parsed = Template::parse(TemplateKind::prep_stop, "{n}. {name}[ at {address}!] {arrive} {verdict} {off}", "t");
    REQUIRE(parsed.has_value());
    const auto say = [](Piece piece) -> std::string {
      return piece == Piece::name ? "{n}[{address}]" : piece == Piece::address ? "" : "x";
    };
    CHECK(parsed->fill(say) == "x. {n}[{address}] x x x");
  }

  TEST_CASE("an owner's template lays a message out his way") {
    Templates own = standard_templates();
    own.stop = *Template::parse(TemplateKind::stop, "{n}: {name} {arrive} {verdict} {mix} {open} {shut} {off}[ ({gate})]", "stop");
    own.evening =
        *Template::parse(TemplateKind::evening, "Good evening {crew} {day}[ {old_weather}]\n{stops}[\n{holds}][\n{safety}]", "evening");
    CHECK(evening_text(orders::one_stop(), own).text ==
          "Good evening Crew B Tue Jul 7\n1: Oak Court elm 7:30am GO 66 gal mix + 5 gal flush valves open 9am valves shut by 4pm off site "
          "by 5pm "
          "(Gate 4412)");
  }
}
