// Published values as data: each check of tests/reference/NAME.json with its source, inputs, and what was printed, with the
// tolerance the print allows. A value the model cannot or does not meet stays in the file, marked with the reason.
//
// File layout: {"title", "sources": {short name: full citation}, "checks": [{"id", "source", "inputs": {name: number, text or
// list}, "expected": {name: {"is": number, clock text or list, "within": absolute tolerance (seconds for clock text),
// optionally "reached_within": the wider bound the model holds, or "left_out": true, either with "because": reason}}}]}.
#pragma once
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace reference {

struct Published {
  std::string name;
  std::vector<double> values;            // one for a single number; clock times as seconds after midnight
  double tolerance = 0.0;                // as the print allows
  std::optional<double> reached_within;  // the wider bound this model is held to instead
  bool left_out = false;                 // not computed by this program
  std::string because;                   // reason for either
};

// Asking for a name that the file does not hold throws std::out_of_range naming check and name: the test fails, loudly.
class Check {
 public:
  [[nodiscard]] const std::string& id() const;
  [[nodiscard]] const std::string& source() const;
  [[nodiscard]] bool has_input(std::string_view name) const;
  [[nodiscard]] double input(std::string_view name) const;
  [[nodiscard]] std::vector<double> inputs(std::string_view name) const;  // a list; a single number is a list of one
  [[nodiscard]] std::string text_input(std::string_view name) const;
  [[nodiscard]] std::vector<std::string> text_inputs(std::string_view name) const;
  [[nodiscard]] const std::vector<Published>& published() const;
  [[nodiscard]] const Published& published(std::string_view name) const;
  [[nodiscard]] double expected(std::string_view name) const;  // the single number
  [[nodiscard]] const std::vector<double>& expected_list(std::string_view name) const;
  [[nodiscard]] double tolerance(std::string_view name) const;

  struct Content;
  explicit Check(std::shared_ptr<const Content> content);

 private:
  std::shared_ptr<const Content> content_;
};

// All checks of tests/reference/`name`.json; throws std::runtime_error when the file is missing or malformed.
[[nodiscard]] std::vector<Check> load(std::string_view name);
// One check by id; throws std::out_of_range.
[[nodiscard]] Check load(std::string_view name, std::string_view id);

// "07:21:55" or "07:21" as seconds after midnight.
[[nodiscard]] double clock_seconds(std::string_view clock);

}  // namespace reference
