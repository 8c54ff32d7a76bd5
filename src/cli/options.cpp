#include "cli/options.h"

namespace cli {

const char* const of_every_command =
    "Options of every command, before or after it:\n"
    "  --units us|si       text in US or SI units (JSON and CSV are always SI)\n"
    "  --json, --csv       print JSON, or CSV where the command has it\n"
    "  --now ISO8601       take this for the present (a replay)\n"
    "  --seed N            seed of the random draws\n"
    "  --threads N         threads to work with (default one a core); the answers are the same\n"
    "  --models DIR        models directory in place of the installed one\n"
    "  --owner FILE        the owner's own values (JSON) over the shipped ones\n"
    "  --book ADDRESS      the book: a SQLite file or postgresql://...\n"
    "  --by NAME           in whose name the book is changed\n"
    "  --out FILE          write there instead of to the screen\n"
    "The book lies in $XDG_DATA_HOME/sapdraw/book.sqlite unless --book says otherwise.\n"
    "Exit codes: 0 done, 2 wrong use, 3 bad input, 4 service failed, 5 store failed;\n"
    "faults on stderr, a line each.";

CLI::Validator expects(const std::string& what, std::function<bool(const std::string&)> fits) {
  return CLI::Validator{[what, fits](const std::string& text) { return fits(text) ? std::string{} : "'" + text + "': expected " + what; },
                        ""};
}

CLI::Validator instant() {
  return expects("an instant such as 2026-07-06T10:30Z", [](const std::string& text) { return units::parse_instant(text).has_value(); });
}

CLI::Validator date() {
  return expects("a date such as 2026-07-06", [](const std::string& text) { return units::parse_day(text).has_value(); });
}

CLI::Validator whole_number_between(std::size_t lowest, std::size_t highest) {
  return expects("a whole number from " + std::to_string(lowest) + " to " + std::to_string(highest),
                 [lowest, highest](const std::string& text) {
                   if (text.empty() || text.size() > 9 || text.find_first_not_of("0123456789") != std::string::npos) return false;
                   const std::size_t number = std::stoul(text);
                   return number >= lowest && number <= highest;
                 });
}

CLI::Validator whole_number() {
  return expects("a whole number", [](const std::string& text) { return text.find_first_not_of("0123456789") == std::string::npos; });
}

CLI::Validator either(const std::string& one, const std::string& other) {
  return expects(one + " or " + other, [one, other](const std::string& text) { return text == one || text == other; });
}

void add_globals(CLI::App& app, Given& given) {
  app.add_option("--units", given.units, "text in US or SI units (JSON and CSV are always SI)")
      ->check(either("us", "si"))
      ->type_name("us|si");
  app.add_flag("--json", given.json, "print JSON");
  app.add_flag("--csv", given.csv, "print CSV, where the command has it");
  app.add_option("--now", given.now, "take this for the present (a replay)")->check(instant())->type_name("ISO8601");
  app.add_option("--seed", given.seed, "seed of the random draws")->check(whole_number())->type_name("N");
  app.add_option("--threads", given.threads, "threads to work with (default one a core); the answers are the same")
      ->check(whole_number_between(1, 256))
      ->type_name("N");
  app.add_option("--models", given.models, "models directory in place of the installed one")->type_name("DIR");
  app.add_option("--owner", given.owner, "the owner's own values (JSON) over the shipped ones")->type_name("FILE");
  app.add_option("--book", given.book, "the book: a SQLite file or postgresql://...")->type_name("ADDRESS");
  app.add_option("--by", given.by, "in whose name the book is changed (default the machine's user)")->type_name("NAME");
  app.add_option("--out", given.out, "write there instead of to the screen")->type_name("FILE");
}

}  // namespace cli
