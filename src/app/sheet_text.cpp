#include <fmt/format.h>

#include "app/sheet.h"
#include "app/sheet_says.h"
#include "app/words.h"
#include "app/wrap.h"

namespace app {
namespace {

class Text {
 public:
  Text(const Sheet& sheet, UnitSystem units) : sheet_(sheet), units_(units) {}

  [[nodiscard]] std::string text() {
    title();
    head("DOSE", sheet_dose(sheet_, units_));
    head("PORTS", sheet_ports(sheet_, units_));
    list("WHERE", where_ports_go());
    places();
    head("WATER", sheet_water(sheet_, units_));
    time();
    list("ORDER OF WORK", order_of_work(sheet_, units_));
    list("BRING", things_to_bring(sheet_, units_));
    return out_ + "\n" + words::cautions() + "\n";
  }

 private:
  void title() {
    for (const std::string& banner : sheet_banners(sheet_)) out_ += wrap_lines(banner) + "\n";
    out_ += wrap(sheet_heading(sheet_), "");
    out_ += wrap(sheet_tree(sheet_, units_), "");
    if (const std::string day = sheet_day(sheet_); !day.empty()) out_ += day + "\n";
    if (!sheet_.place.empty()) out_ += "\n";
    for (const std::string& line : sheet_.place) out_ += wrap(line, "");
  }

  // Each line of `text` on its own.
  static std::string wrap_lines(const std::string& text) {
    const auto end = text.find('\n');
    return end == std::string::npos ? wrap(text, "") : wrap(text.substr(0, end), "") + wrap_lines(text.substr(end + 1));
  }

  void places() {
    out_ += "\nPLACES\n";
    for (const std::string& one : port_plan_says(sheet_.plan, units_)) add("  ", one);
    const std::vector<std::string> list = port_plan_list(sheet_.plan, units_);
    const std::size_t columns = 3, rows = (list.size() + columns - 1) / columns;
    if (!list.empty()) out_ += "  Clockwise from the tag, and above the tag line:\n";
    for (std::size_t row = 0; row < rows; ++row) {
      std::string line;
      for (std::size_t at = row; at < list.size(); at += rows) line += fmt::format("{:<30}", list[at]);
      out_ += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
    }
  }

  void time() {
    out_ += "\n" + sheet_time(sheet_) + "\n";
    for (const TimeLine& line : sheet_time_lines(sheet_)) out_ += fmt::format("  {:>8}  {}\n", line.when, line.what);
    if (const std::string sure = sheet_sure_tanks(sheet_); !sure.empty()) out_ += "  " + sure + "\n";
    for (const std::string& hold : sheet_holds(sheet_, units_)) add("  HOLD ", hold);
  }

  // `text` behind `mark`, further lines below its beginning.
  void add(const std::string& mark, const std::string& text) {
    out_ += wrap(text, std::string(mark.size(), ' ')).replace(0, mark.size(), mark);
  }
  void head(const char* what, const std::string& text) {
    out_ += "\n";
    add(fmt::format("{:<7}", what), text);
  }
  void list(const char* what, const std::vector<std::string>& items) {
    out_ += fmt::format("\n{}\n", what);
    for (std::size_t i = 0; i < items.size(); ++i) add(fmt::format("{:>2}. ", i + 1), items[i]);
  }

  const Sheet& sheet_;
  UnitSystem units_;
  std::string out_;
};

}  // namespace

std::string sheet_text(const Sheet& sheet, UnitSystem units) { return Text{sheet, units}.text(); }

}  // namespace app
