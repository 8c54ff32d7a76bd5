// A book of the tests, through the program: a file of its own, or the emptied database of the server that the tests run beside.
#pragma once
#include <stdlib.h>
#include <string>

#include "program.h"
#include "support/book_place.h"

class BookOfTests {
 public:
  // What the program keeps beside a book goes with the test.
  BookOfTests() {
    ::setenv("XDG_DATA_HOME", (scratch_.folder() / "data").c_str(), 1);
    ::setenv("XDG_CACHE_HOME", (scratch_.folder() / "cache").c_str(), 1);
  }
  [[nodiscard]] Ran run(Arguments arguments) const {
    arguments.insert(arguments.end(), {"--book", place_.address()});
    if (std::find(arguments.begin(), arguments.end(), "--now") == arguments.end()) arguments.insert(arguments.end(), {"--now", demo_now});
    return sapdraw(arguments);
  }
  // The output of a command that must be done.
  std::string done(const Arguments& arguments) const {
    const Ran ran = run(arguments);
    CHECK_MESSAGE(ran.exit == 0, ran.err);
    return ran.out;
  }
  [[nodiscard]] const BookPlace& place() const { return place_; }
  [[nodiscard]] std::filesystem::path folder() const { return place_.folder(); }
  [[nodiscard]] std::string file(const std::string& name, const std::string& content) const { return scratch_.file(name, content); }

 private:
  BookPlace place_;
  Scratch scratch_;
};
