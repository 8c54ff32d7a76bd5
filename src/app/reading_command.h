// `reading`: gallons taken at the tree, and what they say about when it will be done.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/office.h"
#include "app/outcome.h"
#include "app/reading_report.h"
#include "app/request.h"

namespace app {

struct ReadingRequest {
  WeatherRequest weather;  // without a file the office's own weather serves
  OfficeRequest office = {};
  std::filesystem::path trees;
  std::string tree;
  std::string job;     // of the book, in place of `tree`: its readings so far count, and the new ones are kept
  std::string opened;  // as typed (app/typed.h); a time without a day is today's, or the opening's; of a job empty where the book has it
  std::vector<std::string> taken;  // readings of what the tree has taken
  std::vector<std::string> left;   // readings of what is left in the tank, of all that was put in so far
  std::optional<std::string> filled;
  std::optional<std::string> shut_by;
  std::size_t draws = 4096;
};

// Exit 3: the tree, the weather or a reading refused. Text or JSON.
[[nodiscard]] Outcome reading_command(const Common& common, const ReadingRequest& request);

// At most ten lines of at most 100 columns.
[[nodiscard]] std::string reading_text(const ReadingReport& report, const Common& common);
// SI, in its sentences too.
[[nodiscard]] std::string reading_json(const ReadingReport& report);

// What a reading that the trees we know hardly ever give may mean, in one sentence.
[[nodiscard]] std::string odd_reading_text(const ReadingReport& report, UnitSystem units);
// "mix", "mix_part", "do_not_mix", "nothing_left".
[[nodiscard]] std::string tank_advice_key(days::TankAdvice advice);

}  // namespace app
