// Pages to print: plain HTML that needs nothing beside it.
#pragma once
#include <string>
#include <string_view>

namespace app::html {

// `text` as it may stand between tags and within double quotes.
[[nodiscard]] std::string escaped(std::string_view text);

// A page fit for Letter and A4, with `style` after the house's own.
[[nodiscard]] std::string page(const std::string& title, const std::string& style, const std::string& body);

}  // namespace app::html
