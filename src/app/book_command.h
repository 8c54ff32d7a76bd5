// The book as a whole: backup, restore, check, history, export and import; and a client's data out of it.
#pragma once
#include <filesystem>
#include <string>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

[[nodiscard]] Outcome backup_command(const Common& common, const std::filesystem::path& file);
// The present book, where it holds anything, is backed up beside `file` first.
[[nodiscard]] Outcome restore_command(const Common& common, const std::filesystem::path& file);
[[nodiscard]] Outcome check_command(const Common& common);
// Every table as a CSV in a folder that is new or empty; and back into a book that holds nothing.
[[nodiscard]] Outcome export_book_command(const Common& common, const std::filesystem::path& folder);
[[nodiscard]] Outcome import_book_command(const Common& common, const std::filesystem::path& folder);

struct HistoryRequest {
  std::size_t last = 50;  // 0: all
};
[[nodiscard]] Outcome history_command(const Common& common, const HistoryRequest& request);

// Everything the book holds of a client, as JSON; and its personal data taken out for good.
[[nodiscard]] Outcome client_data_command(const Common& common, const std::string& client);
// Without `for_good` it only tells what would go.
[[nodiscard]] Outcome erase_client_command(const Common& common, const std::string& client, const std::string& why, bool for_good);

}  // namespace app
