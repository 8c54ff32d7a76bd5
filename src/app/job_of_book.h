// A booked job at the tree: its readings so far from the book, and new ones into it.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/reading_report.h"
#include "app/request.h"
#include "store/book.h"

namespace app {

// Empty where the book has no such job, with the line in `outcome`.
[[nodiscard]] std::optional<book::Record> find_job(store::Book& book, const std::string& id, Outcome& outcome);

// Typed twice, a reading is one. Amounts go through gallons and back: a hundredth of a litre is nothing.
[[nodiscard]] bool is_the_same(const TankReading& a, const TankReading& b);

// The readings that the book holds of a job, in the order in which they were taken.
[[nodiscard]] std::vector<TankReading> readings_of(store::Book& book, const std::string& job);

// Keeps when the valves were opened and the new readings, in one transaction.
void keep_readings(store::Book& book, const Common& common, const book::Record& job, units::UtcTime opened,
                   const std::vector<TankReading>& fresh, Outcome& outcome);

}  // namespace app
