// Whether a booked job may lawfully go: the book's facts gathered for book/lawful.h, and its findings in words.
#pragma once
#include <string>
#include <vector>

#include "app/request.h"
#include "book/lawful.h"
#include "store/book.h"

namespace app {

// Empty where the job has no day, its tree or site is not known, or the owner has entered no rules.
[[nodiscard]] std::vector<book::Finding> findings_of(store::Book& book, const Common& common, const book::Record& job);

[[nodiscard]] std::string finding_key(const book::Finding& finding);  // "met", "expiring", "missing"
[[nodiscard]] std::string why_key(const book::Finding& finding);      // "too_late"; empty for none
// "MISSING  neighbours' notice: had to be there by Wed Jul 8 2026 7:00 am (rule U2)".
[[nodiscard]] std::string finding_text(const book::Finding& finding, const units::ZoneOffsets& zone);

// A line for every rule that `moved` no longer meets though the job met it before.
[[nodiscard]] std::vector<std::string> reopened(store::Book& book, const Common& common, const book::Record& before,
                                                const book::Record& moved);


}  // namespace app
