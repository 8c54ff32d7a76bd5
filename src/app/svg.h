// Line drawings for print, as SVG: black ink on white, measured in millimetres of paper.
#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace app {

// `text` with what XML and HTML read as markup spelt out, and control characters, which XML cannot hold, as '?'.
[[nodiscard]] std::string xml_text(std::string_view text);

namespace svg {

struct Point {
  double x = 0.0, y = 0.0;
};

// How a shape is inked.
struct Ink {
  std::string fill = "none";
  double width_mm = 0.25;  // of its outline; 0 for none
  std::string colour = "#000";
  std::string dashes = {};  // "1 1"
};

enum class Anchor { start, middle, end };

class Drawing {
 public:
  // `name` begins the ids inside, so that several drawings may stand on one page; `title` is what is read aloud.
  Drawing(std::string name, std::string title, double width_mm, double height_mm);

  void line(Point from, Point to, const Ink& ink = {});
  void circle(Point centre, double radius_mm, const Ink& ink = {});
  void polygon(const std::vector<Point>& corners, const Ink& ink = {});
  void path(const std::string& data, const Ink& ink = {});
  void text(Point at, double size_mm, std::string_view what, Anchor anchor = Anchor::middle, bool bold = false);
  // A fill of slanted lines.
  [[nodiscard]] std::string hatch() const { return "url(#" + name_ + "-hatch)"; }

  // The whole element, well-formed XML.
  [[nodiscard]] std::string finished() const;

 private:
  std::string name_, title_, body_;
  double width_mm_, height_mm_;
};

// A number as the drawing writes it: to a hundredth of a millimetre.
[[nodiscard]] std::string number(double value);

}  // namespace svg
}  // namespace app
