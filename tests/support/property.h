// Laws that should hold for every case of an invented world. Cases are drawn by number. A law gives a figure for each case and breaks
// where that exceeds its bound; the case that breaks it by most is walked back, one field at a time, toward the plainest that still does.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <numeric>
#include <ostream>
#include <span>
#include <sstream>
#include <string>
#include <vector>

#include "units/random.h"

namespace property {

// What a case says about one thing, as a number: evenly spread between two bounds, in the logarithm where they are far apart, a standard
// normal deviate, or one of several names.
struct Field {
  enum class Spread { even, even_in_log, normal, choice };

  std::string name;
  double plain;  // where shrinking leads
  Spread spread = Spread::normal;
  double lowest = 0.0, highest = 0.0;
  std::vector<std::string> choices{};

  static Field choice(std::string name, std::vector<std::string> choices, const std::string& plain) {
    const auto at = std::ranges::find(choices, plain) - choices.begin();
    return {std::move(name), static_cast<double>(at), Spread::choice, 0.0, static_cast<double>(choices.size()), std::move(choices)};
  }
};

using Fields = std::vector<Field>;
using Case = std::vector<double>;  // a value for every field

[[nodiscard]] inline Case draw(const Fields& fields, std::uint64_t number) {
  Case drawn;
  for (const Field& field : fields) {
    const double u = units::hashed_uniform(number, 1811, drawn.size());
    switch (field.spread) {
      case Field::Spread::even:
        drawn.push_back(std::lerp(field.lowest, field.highest, u));
        break;
      case Field::Spread::even_in_log:
        drawn.push_back(field.lowest * std::pow(field.highest / field.lowest, u));
        break;
      case Field::Spread::normal:
        drawn.push_back(units::normal_quantile(u));
        break;
      case Field::Spread::choice:
        drawn.push_back(std::floor(field.highest * u));
        break;
    }
  }
  return drawn;
}

// The fields that are not plain, one a line.
[[nodiscard]] inline std::string describe(const Fields& fields, const Case& c) {
  std::ostringstream text;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    const Field& field = fields[i];
    if (c[i] == field.plain) continue;
    text << "\n  " << field.name << ": ";
    if (field.spread == Field::Spread::choice)
      text << field.choices[static_cast<std::size_t>(c[i])];
    else
      text << c[i] << (field.spread == Field::Spread::normal ? " sd from the middle" : "") << " (plain: " << field.plain << ')';
  }
  return text.str().empty() ? "\n  every field plain" : text.str();
}

// The figure of each case, in order. Many at once, so that a law may work side by side.
using Law = std::function<std::vector<double>(std::span<const Case>)>;

// The plainest case found from `c` on whose figure still exceeds `bound`: every field is set plain if it can be, else brought as near as
// six halvings tell. Rounds go on while one helps, at most five.
[[nodiscard]] inline Case shrink(const Fields& fields, Case c, const Law& law, double bound) {
  const auto breaks = [&](std::size_t field, double value) {
    Case tried = c;
    tried[field] = value;
    return law(std::span{&tried, 1})[0] > bound;
  };
  for (int round = 0; round < 5; ++round) {
    const Case before = c;
    for (std::size_t i = 0; i < fields.size(); ++i) {
      double holds = fields[i].plain;
      if (c[i] == holds) continue;
      if (breaks(i, holds)) {
        c[i] = holds;
        continue;
      }
      if (fields[i].spread == Field::Spread::choice) continue;
      for (int halving = 0; halving < 6; ++halving) {
        const double half = std::midpoint(holds, c[i]);
        (breaks(i, half) ? c[i] : holds) = half;
      }
    }
    if (c == before) break;
  }
  return c;
}

struct Outcome {
  std::size_t asked = 0, broken = 0;
  double largest = 0.0;  // figure of any case, and its number
  std::uint64_t number = 0;
  std::string plainest;  // of that case, shrunk, if it breaks the law

  friend std::ostream& operator<<(std::ostream& out, const Outcome& o) {
    out << "broken by " << o.broken << " of " << o.asked << ", largest figure " << o.largest << " (case " << o.number << ')';
    if (!o.plainest.empty()) out << "; the plainest case that breaks it:" << o.plainest;
    return out;
  }
};

// Asks cases 1 to `count`.
[[nodiscard]] inline Outcome ask(const Fields& fields, std::size_t count, const Law& law, double bound) {
  std::vector<Case> cases;
  for (std::uint64_t number = 1; number <= count; ++number) cases.push_back(draw(fields, number));
  const std::vector<double> figures = law(cases);
  const auto worst = static_cast<std::size_t>(std::ranges::max_element(figures) - figures.begin());
  Outcome outcome{
      count, static_cast<std::size_t>(std::ranges::count_if(figures, [&](double f) { return f > bound; })), figures[worst], worst + 1, {}};
  if (outcome.broken == 0) return outcome;
  const Case plainest = shrink(fields, cases[worst], law, bound);
  std::ostringstream figure;
  figure << "\n  figure: " << law(std::span{&plainest, 1})[0];
  outcome.plainest = describe(fields, plainest) + figure.str();
  return outcome;
}

}  // namespace property
