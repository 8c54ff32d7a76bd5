// Checked against the alphabet and the counting rules of 3GPP TS 23.038 and 23.040 (outside data), and against two libraries of the npm
// registry (tests/soak/sms_counts.js).
#include "text/encoding.h"

#include <doctest/doctest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <numeric>

#include "support/outside.h"
#include "text/code_points.h"
#include "text/gsm_alphabet.h"
#include "units/random.h"

using namespace text;

namespace {

std::string code_name(GsmCode code) {
  const auto character = gsm_character(code);
  if (!character) return "ESC";
  char name[16];
  std::snprintf(name, sizeof name, "U+%04X", static_cast<unsigned>(*character));
  return name;
}

std::string alphabet_name(Alphabet alphabet) { return alphabet == Alphabet::gsm7 ? "GSM-7" : "UCS-2"; }

std::string unescaped(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i)
    if (text[i] != '\\')
      out += text[i];
    else
      out += text[++i] == 'n' ? '\n' : text[i] == 'f' ? '\f' : text[i];
  return out;
}

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells(1);
  for (const char c : line)
    if (c == '\t')
      cells.emplace_back();
    else
      cells.back() += c;
  return cells;
}

std::size_t total_units(const std::vector<std::string>& parts) {
  return std::accumulate(parts.begin(), parts.end(), std::size_t{0}, [](std::size_t sum, const auto& p) { return sum + measure(p).units; });
}

}  // namespace

TEST_SUITE("text") {
  TEST_CASE("alphabet, capacities and counts are those of the standard") {
    const auto file = outside_data("reference/sms_gsm7_ucs2.json");
    if (!file) return;
    std::ifstream in{*file};
    std::size_t seen = 0;
    const auto whole = nlohmann::json::parse(in);
    for (const auto& check : whole.at("checks")) {
      const std::string id = check.at("id");
      const auto& inputs = check.at("inputs");
      const auto value = [&](const char* name) { return check.at("expected").at(name).at("value"); };
      CAPTURE(id);
      ++seen;
      if (id.starts_with("gsm7.")) {
        const bool escaped = id == "gsm7.extension";
        const auto& septets = inputs.at(escaped ? "septet_after_0x1B" : "septet");
        for (std::size_t i = 0; i < septets.size(); ++i) {
          const GsmCode code{escaped, septets[i].get<std::uint8_t>()};
          CHECK(code_name(code) == value("codepoint")[i].get<std::string>());
          const auto character = gsm_character(code);
          if (!character) continue;
          const auto back = gsm_code(*character);
          REQUIRE(back.has_value());
          CHECK(back->escaped == escaped);
          CHECK(back->septet == code.septet);
          CHECK(measure(to_utf8({&*character, 1})).units == (escaped ? value("septets_each")[i].get<std::size_t>() : 1));
        }
      } else if (id == "limits") {
        CHECK(user_data_octets == inputs.at("user_data_octets"));
        CHECK(part_header_octets == inputs.at("udh_octets_8bit_ref"));
        const std::size_t wide = inputs.at("udh_octets_16bit_ref");
        CHECK(capacity(Alphabet::gsm7, 0) == value("gsm7_single"));
        CHECK(capacity(Alphabet::gsm7, part_header_octets) == value("gsm7_per_part_8bit_ref"));
        CHECK(capacity(Alphabet::gsm7, wide) == value("gsm7_per_part_16bit_ref"));
        CHECK(capacity(Alphabet::ucs2, 0) == value("ucs2_single"));
        CHECK(capacity(Alphabet::ucs2, part_header_octets) == value("ucs2_per_part_8bit_ref"));
        CHECK(capacity(Alphabet::ucs2, wide) == value("ucs2_per_part_16bit_ref"));
        CHECK(most_parts == value("max_parts"));
      } else {
        REQUIRE(id.starts_with("seg."));
        std::string joined;
        for (const auto& run : inputs.at("runs"))
          for (int i = 0; i < run[1].get<int>(); ++i) joined += run[0].get<std::string>();
        const Measure m = measure(joined);
        CHECK(alphabet_name(m.alphabet) == value("encoding"));
        CHECK(m.units == value("units"));
        CHECK(m.parts == value("parts"));
      }
    }
    CHECK(seen == whole.at("count_checks"));
  }

  TEST_CASE("500 random texts count as two outside libraries count them") {
    std::ifstream in{SAPDRAW_SOURCE_DIR "/tests/text/outside_counts.tsv"};
    std::string line;
    std::getline(in, line);  // who wrote it
    std::size_t texts = 0;
    while (std::getline(in, line)) {
      const auto cells = cells_of(line);
      REQUIRE(cells.size() == 7);
      const Measure m = measure(unescaped(cells[0]));
      CAPTURE(line);
      for (const std::size_t library : {1u, 4u}) {
        CHECK((m.alphabet == Alphabet::gsm7 ? "gsm7" : "ucs2") == cells[library]);
        CHECK(std::to_string(m.units) == cells[library + 1]);
        CHECK(std::to_string(m.parts) == cells[library + 2]);
      }
      ++texts;
    }
    CHECK(texts == 500);
  }

  TEST_CASE("parts put together again are the text, none is too long, and there are as many as were counted") {
    const std::u32string letters = U"abé€{}\nж村🌳";
    for (std::uint64_t number = 0; number < 400; ++number) {
      std::string whole;
      const std::size_t kinds = number % 2 == 0 ? 7 : letters.size();
      const auto length = static_cast<std::size_t>(350 * units::hashed_uniform(number, 3, 0));
      for (std::size_t i = 0; i < length; ++i)
        append(whole, letters[static_cast<std::size_t>(static_cast<double>(kinds) * units::hashed_uniform(number, 4, i))]);
      const Measure m = measure(whole);
      const auto parts = parts_of(whole);
      CHECK(parts.size() == m.parts);
      std::string joined;
      for (const std::string& part : parts) {
        joined += part;
        std::size_t units_in_part = 0;
        for (const char32_t c : code_points(part))
          units_in_part += m.alphabet == Alphabet::ucs2 ? (c > 0xFFFF ? 2 : 1) : (gsm_code(c)->escaped ? 2 : 1);
        CHECK(units_in_part <= capacity(m.alphabet, parts.size() == 1 ? 0 : part_header_octets));
      }
      CHECK(joined == whole);
      if (m.alphabet == Alphabet::gsm7) CHECK(total_units(parts) == m.units);
    }
  }

  TEST_CASE("bytes that are no UTF-8 are counted, one by one, as characters that nobody can read") {
    for (const std::string broken : {"\xff", "\xc3", "\xe2\x82", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xc0\xaf"}) {
      const Measure m = measure("a" + broken);
      CHECK(m.alphabet == Alphabet::ucs2);
      CHECK(m.units == 1 + broken.size());
      CHECK(parts_of("a" + broken).size() == 1);
    }
  }
}
