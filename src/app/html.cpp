#include "app/html.h"

namespace app::html {

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else
      out += c;
  }
  return out;
}

std::string page(const std::string& title, const std::string& style, const std::string& body) {
  return "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>" + escaped(title) +
         "</title>\n<style>@page{margin:15mm}body{font:11pt/1.35 sans-serif;color:#000}h1{font-size:15pt}h2{font-size:12pt}"
         "table{border-collapse:collapse;width:100%;margin:0 0 1em}th,td{border:1px solid #888;padding:2pt "
         "5pt;vertical-align:top;text-align:left}"
         "footer{font-size:8pt;border-top:1px solid #888;padding-top:3pt}" +
         style + "</style></head><body>\n" + body + "\n</body></html>\n";
}

}  // namespace app::html
