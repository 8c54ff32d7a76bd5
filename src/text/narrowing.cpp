#include "text/narrowing.h"

#include "text/clean.h"
#include "text/code_points.h"
#include "text/encoding.h"

namespace text {
namespace {

constexpr std::size_t longest_code = 12;

// The words of `name` that fit; empty where the first does not.
std::string words_within(const std::string& name, std::size_t longest) {
  const std::u32string characters = code_points(name);
  if (characters.size() <= longest) return name;
  const auto end = characters.rfind(U' ', longest);
  if (end == std::u32string::npos) return {};
  std::u32string kept = characters.substr(0, end);
  while (!kept.empty() && std::u32string_view{U" ,;:-(/&+"}.find(kept.back()) != std::u32string_view::npos) kept.pop_back();
  return to_utf8(kept);
}

std::string within(const std::string& name, const Narrowing& narrowing, const std::string& last_form) {
  if (name.empty() || (narrowing.codes_for_foreign && !is_gsm(name))) return last_form;
  const std::string kept = words_within(name, narrowing.longest_name);
  return kept.empty() ? last_form : kept;
}

}  // namespace

std::string name_said(const Stop& stop, std::size_t number, const Narrowing& narrowing) {
  const std::string code = for_phone(stop.code);
  const bool fits = !code.empty() && is_gsm(code) && code_points(code).size() <= longest_code;
  return within(for_phone(stop.name), narrowing, fits ? code : "stop " + std::to_string(number));
}

std::string crew_said(const CrewOrder& order, const Narrowing& narrowing) {
  Narrowing own = narrowing;
  own.longest_name = std::max(narrowing.longest_name, name_lengths.back());
  return within(for_phone(order.crew), own, "Crew");
}

}  // namespace text
