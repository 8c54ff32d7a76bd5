// Application records for an inspector: what is missing, how they were corrected, as text, as a printable page, as CSV.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/request.h"
#include "store/book.h"

namespace app {

// "MISSING  area (7 CFR 110.3(a)(3))" or that it is complete, and the corrections, a line each.
[[nodiscard]] std::string application_text(store::Book& book, const Common& common, const book::Record& treatment);
[[nodiscard]] std::vector<std::string> gap_names(store::Book& book, const book::Record& treatment);

struct ApplicationsRequest {
  std::string id;                             // only this one; else
  std::string from, until;                    // days, both included; empty: open
  std::string client, product;                // client id; text that stands in a product's name
  bool incomplete = false;                    // only those that miss something
  std::optional<std::filesystem::path> page;  // HTML to print
};

// Text, JSON or CSV: one line a tank fill. The owner's or an inspector's list.
[[nodiscard]] Outcome applications_command(const Common& common, const ApplicationsRequest& request);

}  // namespace app
