// A message put into a gateway's words: each placeholder escaped for the place where it stands.
#pragma once
#include <optional>
#include <string>

#include "post/sender.h"
#include "settings/post.h"
#include "units/fault.h"

namespace post {

struct Filled {
  std::string address, body, content_type;
  std::vector<std::pair<std::string, std::string>> headers;
};

// Placeholders as settings::HttpRoad names them, put in once: what stands in a message is never read as one. In the address and in a form
// percent-encoded, in JSON within its strings, in a header only as visible ASCII. Faults: a JSON text that is none; a value that cannot
// stand in its header. Neither repeats it.
[[nodiscard]] units::Result<Filled> fill_in(const settings::HttpRoad& road, const std::string& secret, const Outgoing& message);

// Whether the answer's JSON holds `value` at `pointer` (a text, or a number or truth value as JSON writes it); empty where the body is no
// JSON.
[[nodiscard]] std::optional<bool> answer_says(const std::string& body, const std::string& pointer, const std::string& value);

}  // namespace post
