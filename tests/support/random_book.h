// Edits of a random book: every kind, every field, values at and within their limits, texts of all scripts and of no good will.
#pragma once
#include <cstdint>
#include <vector>

#include "book/record.h"

[[nodiscard]] std::vector<book::Edit> random_book(std::size_t trees, std::uint64_t seed);
