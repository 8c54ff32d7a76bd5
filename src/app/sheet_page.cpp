#include <fmt/format.h>

#include <string_view>

#include "app/port_drawing.h"
#include "app/sheet.h"
#include "app/sheet_says.h"
#include "app/svg.h"
#include "app/words.h"

namespace app {
namespace {

// Fits the narrower of Letter and A4 across and the shorter of them down; the printer's paper decides which.
constexpr std::string_view style = R"(
@page { margin: 11mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; width: 186mm; color: #000; background: #fff; font: 9pt/1.25 sans-serif; }
h1 { font-size: 15pt; margin: 0 0 1mm; }
h2 { font-size: 10pt; margin: 3mm 0 1mm; border-bottom: 0.3mm solid #000; break-after: avoid; }
p { margin: 0 0 1mm; }
ol, ul { margin: 0; padding-left: 5.5mm; }
table { border-collapse: collapse; width: 100%; }
.banner { border: 0.8mm solid #000; padding: 1.5mm 2mm; font-weight: bold; white-space: pre-line; margin: 0 0 2mm; }
.two { display: flex; gap: 5mm; }
.two > div { flex: 1; min-width: 0; }
.two > .wide { flex: 1.6; }
.times td { padding: 0 2mm 0 0; vertical-align: top; }
.times td:first-child { text-align: right; white-space: nowrap; font-weight: bold; width: 16mm; }
.hold { font-weight: bold; }
.places { break-before: page; }
.places svg { display: block; }
.ring { display: flex; gap: 3mm; align-items: flex-start; break-inside: avoid; }
.ring svg { flex: none; }
.list { flex: 1; min-width: 0; columns: 2; column-gap: 3mm; font-size: 8.5pt; line-height: 1.25; }
.list table { font-variant-numeric: tabular-nums; }
.list td, .list th { padding: 0 0.8mm; text-align: right; vertical-align: bottom; }
.list td { white-space: nowrap; }
.narrow { columns: 3; column-gap: 2mm; font-size: 7.5pt; }
.narrow td, .narrow th { padding: 0 0.2mm 0 1.4mm; }
.narrow td:first-child, .narrow th:first-child { padding-left: 0; }
.list tr { break-inside: avoid; border-bottom: 0.1mm solid #000; }
.write { break-inside: avoid; }
.write td, .write th { border: 0.2mm solid #000; height: 5.6mm; padding: 0 1.5mm; font-size: 8.5pt; font-weight: normal; text-align: left; }
.write .at { width: 11mm; }
.lines span { display: inline-block; border-bottom: 0.2mm solid #000; height: 6mm; }
.cautions { border: 0.4mm solid #000; padding: 1.5mm 2mm; margin-top: 2.5mm; font-weight: bold; break-inside: avoid; }
@media screen { body { padding: 6mm; width: 198mm; } }
)";

constexpr int half_hours = 21, blocks = 3;       // rows for readings: ten hours, side by side
constexpr std::size_t most_in_two_columns = 44;  // places beside the ring; more go in three

class Page {
 public:
  Page(const Sheet& sheet, UnitSystem units) : sheet_(sheet), units_(units) {}

  [[nodiscard]] std::string html() {
    const std::string heading = xml_text(sheet_heading(sheet_));
    out_ = fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<title>{}</title>\n<style>{}</style>\n</head>\n<body>\n",
        heading, style);
    for (const std::string& banner : sheet_banners(sheet_)) element("div class=\"banner\"", banner);
    element("h1", sheet_heading(sheet_));
    element("p", sheet_tree(sheet_, units_));
    if (const std::string day = sheet_day(sheet_); !day.empty()) element("p", day);
    for (const std::string& line : sheet_.place) element("p", line);
    two([&] { set_up(); }, [&] { time(); }, "");
    two([&] { named_list("ORDER OF WORK", "ol", order_of_work(sheet_, units_)); },
        [&] { named_list("BRING", "ul", things_to_bring(sheet_, units_)); }, " class=\"wide\"");
    to_write();
    element("div class=\"cautions\"", words::cautions());
    places();
    return out_ + "</body>\n</html>\n";
  }

 private:
  // `tag` may carry attributes.
  void element(std::string_view tag, std::string_view text) {
    out_ += fmt::format("<{}>{}</{}>\n", tag, xml_text(text), tag.substr(0, tag.find(' ')));
  }
  void section(std::string_view name) { element("h2", name); }
  void list(const char* kind, const std::vector<std::string>& items) {
    out_ += fmt::format("<{}>\n", kind);
    for (const std::string& item : items) element("li", item);
    out_ += fmt::format("</{}>\n", kind);
  }

  void named_list(const char* name, const char* kind, const std::vector<std::string>& items) {
    section(name);
    list(kind, items);
  }

  template <class Left, class Right>
  void two(Left left, Right right, std::string_view left_attributes) {
    out_ += fmt::format("<div class=\"two\"><div{}>\n", left_attributes);
    left();
    out_ += "</div><div>\n";
    right();
    out_ += "</div></div>\n";
  }

  void set_up() {
    section("DOSE");
    element("p", sheet_dose(sheet_, units_));
    section("PORTS");
    element("p", sheet_ports(sheet_, units_));
    section("WATER");
    element("p", sheet_water(sheet_, units_));
  }

  void time() {
    section(sheet_time(sheet_));
    out_ += "<table class=\"times\">\n";
    for (const TimeLine& line : sheet_time_lines(sheet_))
      out_ += fmt::format("<tr><td>{}</td><td>{}</td></tr>\n", xml_text(line.when), xml_text(line.what));
    out_ += "</table>\n";
    if (const std::string sure = sheet_sure_tanks(sheet_); !sure.empty()) element("p", sure);
    for (const std::string& hold : sheet_holds(sheet_, units_)) element("p class=\"hold\"", "HOLD " + hold);
  }

  // A label and a line behind it.
  void blank(std::string_view label, int millimetres) {
    out_ += fmt::format("{} <span style=\"width:{}mm\"></span> \n", xml_text(label), millimetres);
  }

  void to_write() {
    out_ += "<div class=\"write\">\n";
    section("WRITE DOWN");
    out_ += "<p class=\"lines\">\n";
    blank("Flare measured", 20);
    blank("Arrived", 18);
    blank("Valves open", 18);
    blank("Valves shut", 18);
    blank("Off site", 18);
    out_ += "</p>\n<div class=\"two\">\n";
    for (int block = 0; block < blocks; ++block) readings(block * half_hours / blocks, (block + 1) * half_hours / blocks);
    out_ += "</div>\n<p class=\"lines\">\n";
    blank("Mix taken", 20);
    blank("Done, partial or not treated; why", 92);
    out_ += "<br/>\n";
    blank("Applicator, licence", 50);
    blank("Signature", 45);
    blank("Date", 28);
    out_ += "</p>\n</div>\n";
  }

  void readings(int from, int until) {
    out_ += fmt::format("<div><table>\n<tr><th class=\"at\">After</th><th>Clock</th><th>Tank mark</th><th>{} in</th></tr>\n",
                        units_ == UnitSystem::us ? "Gal" : "L");
    for (int i = from; i < until; ++i)
      out_ += fmt::format("<tr><td class=\"at\">{}:{}</td><td></td><td></td><td></td></tr>\n", i / 2, i % 2 == 0 ? "00" : "30");
    out_ += "</table></div>\n";
  }

  void places() {
    out_ += "<div class=\"places\">\n";
    section("WHERE THE PORTS GO  " + sheet_name(sheet_));
    list("ul", where_ports_go());
    std::string says;
    for (const std::string& one : port_plan_says(sheet_.plan, units_)) says += (says.empty() ? "" : " ") + one;
    element("p", says);
    out_ += flare_strip_svg(sheet_.plan, units_) + "<div class=\"ring\">\n" + flare_ring_svg(sheet_.plan);
    table();
    out_ += "</div>\n</div>\n";
  }

  void table() {
    const auto& places = sheet_.plan.places.places;
    const std::string unit = words::tape_unit(units_);
    out_ += fmt::format(
        "<div class=\"list{narrow}\"><table>\n<thead><tr><th>Port</th><th>Clockwise, {unit}</th><th>Up, "
        "{unit}</th></tr></thead>\n<tbody>\n",
        fmt::arg("unit", unit), fmt::arg("narrow", places.size() > most_in_two_columns ? " narrow" : ""));
    for (std::size_t i = 0; i < places.size(); ++i)
      out_ += fmt::format("<tr><td>{}{}</td><td>{}</td><td>{}</td></tr>\n", i + 1, book::too_near(places[i]) ? "!" : "",
                          words::on_tape(places[i].clockwise_cm, units_), words::on_tape(places[i].height_cm, units_));
    out_ += "</tbody></table></div>\n";
  }

  const Sheet& sheet_;
  UnitSystem units_;
  std::string out_;
};

}  // namespace

std::string sheet_page(const Sheet& sheet, UnitSystem units) { return Page{sheet, units}.html(); }

}  // namespace app
