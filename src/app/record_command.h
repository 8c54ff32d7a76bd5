// The commands of every kind of record: add, change, remove, bring back, show, list.
#pragma once
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/request.h"
#include "book/record.h"

namespace app {

struct EditRequest {
  book::Edit::What what = book::Edit::What::add;
  std::string kind, id;
  book::Fields set;  // under any of the names of app/field_names.h; empty text clears a field
  std::optional<std::int64_t> seen;
  std::string why;
};

struct ShowRequest {
  std::string kind, id;
  bool history = false;
};

struct ListRequest {
  std::string kind;
  std::vector<std::string> where;  // FIELD=VALUE
  std::string holds;               // FIELD=TEXT
  bool removed = false;            // these too
  std::size_t limit = 100;         // 0: all
};

[[nodiscard]] Outcome edit_command(const Common& common, const EditRequest& request);
[[nodiscard]] Outcome show_command(const Common& common, const ShowRequest& request);
[[nodiscard]] Outcome list_command(const Common& common, const ListRequest& request);

}  // namespace app
