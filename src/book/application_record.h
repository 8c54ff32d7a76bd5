// What the record of an application must hold, and what of it is missing. Read on 2026-11-26:
// 7 CFR 110.3(a) (edition of 2006-01-01, govinfo): product name and EPA registration number; total amount; location, size of area, crop or
// site; month, day, year; name and certification number of the certified applicator. 110.3(b): spot applications, under a tenth of an acre:
// size of area may be left out. 40 CFR 171.303(b)(7)(ii)-(x), read in restatements by EPA's plan for Indian country and two state
// handbooks: name and address of the person for whom; location; size of area; crop, commodity, stored product or site; time and date;
// product name; registration number; total amount per location; name and certification number of the certified applicator and name of a
// noncertified one under direct supervision. Kept two years. State law may ask more: the owner's own fields, marked required, are asked for
// here too.
#pragma once
#include <string>
#include <vector>

#include "book/kind.h"
#include "book/record.h"

namespace book {

struct Gap {
  std::string field;  // of the treatment, or "mix TANK: field"
  std::string law;    // "7 CFR 110.3(a)(2)", or "own field"
};

// Of a treatment with its tank fills. `kind`: treatment's, with the owner's own fields. Where nothing was applied (outcome not_treated,
// nothing taken) only day, tree and reason are asked for.
[[nodiscard]] std::vector<Gap> gaps(const Kind& kind, const Record& treatment, const std::vector<Record>& mixes);

}  // namespace book
