// How the command line is read: help, options before and after the command, wrong use.
#include <doctest/doctest.h>

#include <array>

#include "program.h"

namespace {

struct Command {
  std::string name;
  Arguments options;
};
const std::array commands{
    Command{"air", {"--temp-c", "--rh", "--pressure-kpa", "--weather", "--lat", "--lon", "--elevation-m", "--label", "--wind-height-m"}},
    Command{"demand", {"--weather", "--trees", "--tree", "--label", "--wind-height-m"}},
    Command{"days", {"--weather", "--trees", "--tree", "--strict", "--label"}},
    Command{"sheet", {"--trees", "--tree", "--weather", "--day"}},
    Command{"reading", {"--trees", "--tree", "--weather", "--opened", "--taken", "--left", "--filled", "--shut-by", "--draws"}},
    Command{"models", {"--facts"}},
};
const Arguments of_every_command{"--units", "--json", "--csv", "--now", "--seed", "--models", "--owner", "--out"};
const Arguments one_state{"air", "--temp-c", "25", "--rh", "50"};

Arguments with(Arguments arguments, const Arguments& more) {
  arguments.insert(arguments.end(), more.begin(), more.end());
  return arguments;
}

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("the help of every command exits 0 and names its options in at most 100 columns") {
    for (const Command& command : commands) {
      CAPTURE(command.name);
      const Ran ran = sapdraw({command.name, "--help"});
      CHECK(ran.exit == 0);
      CHECK(ran.err.empty());
      CHECK(widest_line(ran.out) <= 100);
      for (const std::string& option : with(command.options, of_every_command))
        CHECK_MESSAGE(ran.out.find(option) != std::string::npos, option);
    }
  }

  TEST_CASE("the help of the program names every command") {
    const Ran ran = sapdraw({"--help"});
    CHECK(ran.exit == 0);
    CHECK(widest_line(ran.out) <= 100);
    for (const Command& command : commands) CHECK_MESSAGE(ran.out.find("\n  " + command.name + " ") != std::string::npos, command.name);
  }

  TEST_CASE("no command is wrong use and shows the help") {
    const Ran ran = sapdraw({});
    CHECK(ran.exit == 2);
    CHECK(ran.err == "sapdraw: expected a command\n");
    CHECK(ran.out.find("Subcommands:") != std::string::npos);
  }

  TEST_CASE("wrong use exits 2 with one line and prints nothing else") {
    const std::array wrong{
        Arguments{"frobnicate"},
        with(one_state, {"--frobnicate"}),
        with(one_state, {"extra"}),
        with(one_state, {"models"}),
        Arguments{"air"},
        Arguments{"air", "--temp-c", "25"},
        Arguments{"air", "--temp-c"},
        Arguments{"air", "--temp-c", "warm", "--rh", "50"},
        Arguments{"air", "--temp-c", "25", "--rh", "50", "--weather", demo_weather},
        with(one_state, {"--units", "furlong"}),
        with(one_state, {"--now", "yesterday"}),
        with(one_state, {"--now", "2026-07-06T10:30"}),
        with(one_state, {"--seed", "-1"}),
        with(one_state, {"--label", "middle"}),
        with(one_state, {"--json", "--csv"}),
        Arguments{"demand", "--weather", demo_weather},
        Arguments{"tree"},
        Arguments{"tree", "grow"},
        Arguments{"tree", "show"},
        Arguments{"tree", "list", "--limit", "-1"},
        Arguments{"tree", "add", "x", "--height", "3"},
        Arguments{"record", "find", "--from", "yesterday"},
        Arguments{"weather", "show", "--trees", demo_trees},
        Arguments{"sheet", "--trees", demo_trees},
        Arguments{"reading", "--trees", demo_trees},
        Arguments{"reading", "--job", "J1", "--tree", "depot-elm"},
        Arguments{"sheet", "--trees", demo_trees, "--tree", "depot-elm", "--csv"},
        Arguments{"sheet", "--trees", demo_trees, "--tree", "depot-elm", "--day", "Tuesday"},
    };
    for (const Arguments& arguments : wrong) {
      std::string line;
      for (const std::string& argument : arguments) line += argument + " ";
      CAPTURE(line);
      const Ran ran = sapdraw(arguments);
      CHECK(ran.exit == 2);
      CHECK(ran.out.empty());
      CHECK(lines_of(ran.err).size() == 1);
    }
  }

  TEST_CASE("an option of every command may stand before or after it") {
    const Ran after = sapdraw(with(one_state, {"--units", "si", "--json"}));
    const Ran before = sapdraw(with({"--units", "si", "--json"}, one_state));
    CHECK(after.exit == 0);
    CHECK(after.out.front() == '{');
    CHECK(before.out == after.out);
  }

  TEST_CASE("an unknown option is named") {
    const Ran ran = sapdraw(with(one_state, {"--frobnicate"}));
    CHECK(ran.err.find("--frobnicate") != std::string::npos);
  }
}
