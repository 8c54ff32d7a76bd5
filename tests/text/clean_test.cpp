#include "text/clean.h"

#include <doctest/doctest.h>

#include "text/code_points.h"
#include "text/encoding.h"
#include "units/random.h"
#include "units/text.h"

using text::clean;
using text::for_phone;

TEST_SUITE("text") {
  TEST_CASE("what people typed becomes one line that nothing hides in") {
    CHECK(clean("  Oak\r\nCourt\tEast  ") == "Oak Court East");
    CHECK(clean("Bcc: all@x.example\r\n\r\nhello") == "Bcc: all@x.example hello");
    CHECK(clean("a\xE2\x80\xAE"
                "b\xE2\x80\x8B"
                "c\xE2\x81\xA6"
                "d\xEF\xBB\xBF") == "abcd");  // override, zero width, isolate, mark
    CHECK(clean("line\xE2\x80\xA8two") == "line two");
    CHECK(clean("bad\xff\xc3") == "bad??");
    CHECK(clean(std::string("nul\0in", 6)) == "nul in");
    CHECK(clean("") == "");
  }

  TEST_CASE("a text beyond any name is cut at a word's end") {
    CHECK(clean("one two three", 9) == "one two");
    CHECK(clean("unbroken", 4) == "unbr");
  }

  TEST_CASE("letters that the alphabet has stay, others take their plain form") {
    CHECK(for_phone("Peña, Müller, Ærø, Åse") == "Peña, Müller, Ærø, Åse");
    CHECK(for_phone("Façade Žižka Łódź Őri") == "Facade Zizka Lodz Ori");
    CHECK(for_phone("Nguyễn Đức") == "Nguyen Duc");
    CHECK(for_phone("O’Brien – “the big one”…") == "O'Brien - \"the big one\"...");
    CHECK(for_phone("Cœur, Þór, ¾ in") == "Coeur, THor, 3/4 in");
    CHECK(for_phone("Ｏａｋ　１２") == "Oak 12");
    CHECK(for_phone("12° slope ½ mile") == "12 deg slope 1/2 mile");
  }

  TEST_CASE("a letter with its mark apart is the letter, or the plain one") {
    CHECK(for_phone("Pen\xCC\x83"
                    "a") == "Peña");
    CHECK(for_phone("Cafe\xCC\x81") == "Café");
    CHECK(for_phone("s\xCC\x8C"
                    "kola") == "skola");
  }

  TEST_CASE("pictures are left out of a name that has letters, and only then") {
    CHECK(for_phone("🌳 Oak Court 🐕") == "Oak Court");
    CHECK(for_phone("→ Gate 4") == "Gate 4");
    CHECK(for_phone("🌳🌳") == "🌳🌳");
    CHECK(for_phone("👩‍🌾") == "👩🌾");  // the joiner goes
  }

  TEST_CASE("letters of another script stay as they are") {
    CHECK(for_phone("Старый вяз") == "Старый вяз");
    CHECK(for_phone("大榆树 “A”") == "大榆树 “A”");
    CHECK(text::measure(for_phone("Старый вяз")).alphabet == text::Alphabet::ucs2);
  }

  TEST_CASE("no bytes whatever break cleaning: the result is one line of valid UTF-8, and cleaning it again changes nothing") {
    for (std::uint64_t number = 0; number < 3000; ++number) {
      std::string bytes;
      const auto length = static_cast<std::size_t>(30 * units::hashed_uniform(number, 1, 0));
      for (std::size_t i = 0; i < length; ++i) {
        const double u = units::hashed_uniform(number, 2, i);
        if (number % 2 == 0)
          bytes += static_cast<char>(static_cast<int>(256 * u) - 128);
        else if (const auto c = static_cast<char32_t>(u < 0.5 ? 0x2800 * u * 2 : 0x110000 * u); c < 0xD800 || c > 0xDFFF)
          text::append(bytes, c);
      }
      for (const std::string& made : {clean(bytes), for_phone(bytes)}) {
        CHECK(units::is_utf8(made));
        CHECK(made.find_first_of("\r\n\t") == std::string::npos);
        CHECK(clean(made) == made);
      }
      CHECK(for_phone(for_phone(bytes)) == for_phone(bytes));
    }
  }
}
