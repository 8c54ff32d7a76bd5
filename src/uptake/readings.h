// What readings of the tank say about which of the possible trees stands here: a weight for every draw of an ensemble.
//
// Method: self-normalised importance weights. A draw counts in proportion to the likelihood of the readings under its own volumes; each
// reading errs on its own by Student's t, which forgives a misread mark (Lange, Little & Taylor 1989, J. Am. Stat. Assoc. 84:881). Where
// fewer draws than `least_draws` would carry the answer (effective number after Kong, Liu & Wong 1994, J. Am. Stat. Assoc. 89:278), the
// likelihood is raised to the largest power below 1 that leaves as many: tempering (Neal 2001, Statistics and Computing 11:125). The answer
// is then wider than it need be, never narrower than its draws can bear. docs/model/uptake.md, Readings at the tree.
#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <tl/expected.hpp>
#include <vector>

namespace uptake {

struct Reading {
  double hours = 0.0;   // since the valves opened
  double litres = 0.0;  // taken by then
};

// How a tank is read; from models/practice.json.
struct ReadingError {
  double mark_l = 0.0;       // scale of one reading's error, > 0
  double tail = 0.0;         // degrees of freedom of Student's t, > 0
  double least_draws = 0.0;  // >= 1
  double odd_chance = 0.0;   // a reading with less chance than this on its side is told, 0..0.5
};

// Why readings cannot be.
enum class ReadingFault { before_opening, too_late, below_zero, above_dose, falls };

struct RefusedReading {
  std::size_t index;  // of the readings as given
  ReadingFault why;
};

// The readings by time (of one time: by volume), whatever order they came in. Refused, the first by time: hours below 0 or above
// `latest_h`; litres below 0 or above `most_l`; less than an earlier reading. Numbers that are none are before_opening or below_zero.
[[nodiscard]] tl::expected<std::vector<Reading>, RefusedReading> in_order(std::span<const Reading> readings, double latest_h,
                                                                          double most_l);

struct Weights {
  std::vector<double> share;  // by draw, sum 1
  double effective = 0.0;     // number of equal draws that would be worth as much, 1/sum of squares
  double power = 1.0;         // of the likelihood; below 1 where it had to be tempered
};

// `volumes_l[reading][draw]` is what each draw has taken at each reading's time (Ensemble::follow_at); at least one draw. Without readings
// all draws weigh the same.
[[nodiscard]] Weights weigh(std::span<const Reading> readings, std::span<const std::vector<double>> volumes_l, std::size_t draws,
                            const ReadingError& error);

// A reading that the trees we know hardly ever give.
struct OddReading {
  std::size_t index;  // in order of time
  bool above;         // more than they take; else less
  bool never;         // more than any draw takes, beyond the tank's error
};

// Each reading against what was to be expected of it after the ones before: the last odd one. `readings` in order of time.
[[nodiscard]] std::optional<OddReading> odd_reading(std::span<const Reading> readings, std::span<const std::vector<double>> volumes_l,
                                                    std::size_t draws, const ReadingError& error);

}  // namespace uptake
