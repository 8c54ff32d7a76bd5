#include "sources/history.h"

#include <fstream>
#include <sstream>

#include "feeds/kept_series.h"
#include "net/durable_file.h"

namespace sources {

std::filesystem::path History::file(const Cell& cell) const { return folder_ / (cell.text() + ".csv"); }

History::Recalled History::recall(const Cell& cell) const {
  const auto path = file(cell);
  std::error_code there;
  if (!std::filesystem::exists(path, there) && !there) return {};
  std::ifstream in{path, std::ios::binary};
  if (!in) return {{}, units::Fault{path.filename().string(), "", "expected kept weather that can be read: whose file is it?"}, false};
  std::ostringstream text;
  text << in.rdbuf();
  in.close();
  auto series = feeds::read_kept(path.filename().string(), text.view());
  if (series) return {std::move(*series), {}};
  auto aside = path;
  aside += ".unreadable";
  std::error_code error;
  std::filesystem::rename(path, aside, error);
  units::Fault fault = series.error();
  fault.expected += "; set aside as " + aside.filename().string();
  return {{}, std::move(fault)};
}

std::filesystem::path History::lock_of(const Cell& cell) const { return folder_ / (cell.text() + ".lock"); }

units::Result<void> History::keep(const Cell& cell, const weather::Series& series) const {
  return net::write_durably(file(cell), feeds::write_kept(series));
}

}  // namespace sources
