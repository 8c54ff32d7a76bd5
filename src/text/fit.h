// A message narrowed until it fits a phone: one part if leaving out little is enough, else two, and never a word or number cut.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "text/encoding.h"
#include "text/narrowing.h"

namespace text {

inline constexpr std::size_t parts_allowed = 2;

struct Message {
  std::string text;
  Measure size;
  std::vector<std::string> left_out;  // in words: "ports", "what was before"; only what the message would have said otherwise
  struct Shortened {
    std::string from, to;
    friend bool operator==(const Shortened&, const Shortened&) = default;
  };
  std::vector<Shortened> shortened;  // names that had no room
  bool news = true;                  // false: nothing to tell (a morning without change, a correction that nothing calls for)
};

// `say` gives the text under a narrowing, `orders` those whose names it may say. The first `not_worth_a_part` pieces of drop_order go, one
// by one, if that brings a single part. Otherwise pieces of all of drop_order go, one by one, until it is two. If it is not, in turn: stops
// in rows of figures; codes for names that make the message UCS-2; names of at most 40, 28, 20, 12 characters; codes for all names; rows
// without words; at each step as little as possible is left out. What even so takes more than two parts is given in as many as it takes
// (size.parts says so): a stop or a hold is never left out.
[[nodiscard]] Message fit(const std::vector<const CrewOrder*>& orders, const std::function<std::string(const Narrowing&)>& say);

}  // namespace text
