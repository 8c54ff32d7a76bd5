// The page of `sheet --page` on paper, as a browser prints it: two sheets, Letter and A4, for a veteran with three sets of old ports.
// Without a browser on the machine there is nothing to print with: the test says so and passes.
#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <regex>

#include "program.h"

namespace {

bool has_browser() { return std::system("command -v chromium >/dev/null 2>&1") == 0; }

// The media boxes of a PDF's pages, in points.
std::vector<std::pair<double, double>> printed(const Scratch& scratch, const std::string& html) {
  const auto pdf = scratch.folder() / "page.pdf";
  const std::string page = scratch.file("printed.html", html);
  const std::string command = "chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer --user-data-dir='" +
                              (scratch.folder() / "profile").string() + "' --print-to-pdf='" + pdf.string() + "' '" + page +
                              "' >/dev/null 2>&1";
  REQUIRE(std::system(command.c_str()) == 0);
  const std::string bytes = content_of(pdf);
  std::vector<std::pair<double, double>> pages;
  const std::regex box{"/MediaBox \\[0 0 ([0-9.]+) ([0-9.]+)\\]"};
  for (std::sregex_iterator at{bytes.begin(), bytes.end(), box}, end; at != end; ++at)
    pages.emplace_back(std::stod((*at)[1]), std::stod((*at)[2]));
  return pages;
}

std::string on_a4(std::string html) {
  const std::string rule = "@page { ";
  const auto at = html.find(rule);
  REQUIRE(at != std::string::npos);
  return html.insert(at + rule.size(), "size: A4; ");
}

}  // namespace

TEST_SUITE("print") {
  TEST_CASE("a veteran's fourth treatment fits two sheets of Letter and of A4, in inches and in centimetres") {
    if (!has_browser()) {
      MESSAGE("skipped: no chromium on this machine");
      return;
    }
    const Scratch scratch;
    for (const char* units : {"us", "si"}) {
      CAPTURE(units);
      const auto page = scratch.folder() / "page.html";
      const Ran ran = sapdraw({"sheet", "--now", demo_now, "--trees", demo_trees, "--tree", "courthouse-elm", "--weather", demo_weather,
                               "--ports", "weather-samples/old-ports.csv", "--units", units, "--page", page.string()});
      REQUIRE(ran.exit == 0);
      const auto letter = printed(scratch, content_of(page)), a4 = printed(scratch, on_a4(content_of(page)));
      REQUIRE(letter.size() == 2);
      CHECK(letter[0] == std::pair{612.0, 792.0});
      REQUIRE(a4.size() == 2);
      CHECK(a4[0].first == doctest::Approx(595).epsilon(0.002));
      CHECK(a4[0].second == doctest::Approx(842).epsilon(0.002));
    }
  }
}
