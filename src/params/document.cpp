#include "params/document.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

namespace params {
namespace {

using Json = nlohmann::ordered_json;

// Follows the parser through the file, because the finished object no longer shows a key that was given twice.
class KeyWatch {
 public:
  bool operator()(int, Json::parse_event_t event, Json& parsed) {
    if (event == Json::parse_event_t::object_start) {
      open_.emplace_back();
    } else if (event == Json::parse_event_t::object_end) {
      open_.pop_back();
    } else if (event == Json::parse_event_t::key) {
      open_.back().now = parsed.get<std::string>();
      if (!open_.back().seen.insert(open_.back().now).second && twice_.empty()) twice_ = path();
    }
    return true;
  }
  [[nodiscard]] const std::string& twice() const { return twice_; }

 private:
  struct Object {
    std::set<std::string> seen;
    std::string now;
  };
  [[nodiscard]] std::string path() const {
    std::string text;
    for (const Object& object : open_) text += (text.empty() ? "" : ".") + object.now;
    return text;
  }

  std::vector<Object> open_;
  std::string twice_;
};

// "expected" part of the library's message, without its own code and position.
std::string what_is_wrong(const Json::exception& error) {
  const std::string text = error.what();
  const auto colon = text.rfind("; ");
  const auto start = colon == std::string::npos ? text.find("] ") : colon;
  return start == std::string::npos ? text : text.substr(start + 2);
}

}  // namespace

units::Result<Json> read_document(const std::filesystem::path& file) {
  std::ifstream stream{file, std::ios::binary};
  if (!stream) return units::fault(file.string(), "", "expected a readable file");
  const std::string text{std::istreambuf_iterator<char>{stream}, {}};
  if (stream.bad() || std::filesystem::is_directory(file)) return units::fault(file.string(), "", "expected a readable file");
  KeyWatch watch;
  Json json;
  try {
    json = Json::parse(text, std::ref(watch));
  } catch (const Json::parse_error& error) {
    const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(error.byte > 0 ? error.byte - 1 : 0, text.size()));
    const auto line = 1 + std::count(text.begin(), end, '\n');
    return units::fault(fmt::format("{}:{}", file.string(), line), "", "not valid JSON: " + what_is_wrong(error));
  } catch (const Json::exception& error) {
    return units::fault(file.string(), "", "not valid JSON: " + what_is_wrong(error));
  }
  if (!json.is_object()) return units::fault(file.string(), "", "expected a JSON object");
  if (!watch.twice().empty()) return units::fault(file.string() + ": " + watch.twice(), "", "given twice: expected it once");
  return json;
}

}  // namespace params
