#include "app/svg.h"

#include <fmt/format.h>

#include <cmath>

namespace app {

std::string xml_text(std::string_view text) {
  std::string safe;
  for (const char c : text) switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&#39;";
        break;
      default:
        safe += (static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7f ? '?' : c;
    }
  return safe;
}

namespace svg {
namespace {

std::string inked(const Ink& ink) {
  std::string text = fmt::format(" fill=\"{}\"", ink.fill);
  if (ink.width_mm > 0.0) text += fmt::format(" stroke=\"{}\" stroke-width=\"{}\"", ink.colour, number(ink.width_mm));
  if (!ink.dashes.empty()) text += fmt::format(" stroke-dasharray=\"{}\"", ink.dashes);
  return text;
}

}  // namespace

std::string number(double value) {
  const double rounded = std::round(100.0 * value) / 100.0;
  return fmt::format("{}", rounded == 0.0 ? 0.0 : rounded);
}

Drawing::Drawing(std::string name, std::string title, double width_mm, double height_mm)
    : name_(std::move(name)), title_(std::move(title)), width_mm_(width_mm), height_mm_(height_mm) {}

void Drawing::line(Point from, Point to, const Ink& ink) {
  body_ += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"{}/>\n", number(from.x), number(from.y), number(to.x), number(to.y),
                       inked(ink));
}

void Drawing::circle(Point centre, double radius_mm, const Ink& ink) {
  body_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>\n", number(centre.x), number(centre.y), number(radius_mm), inked(ink));
}

void Drawing::polygon(const std::vector<Point>& corners, const Ink& ink) {
  std::string points;
  for (const Point& corner : corners) points += fmt::format("{}{},{}", points.empty() ? "" : " ", number(corner.x), number(corner.y));
  body_ += fmt::format("<polygon points=\"{}\"{}/>\n", points, inked(ink));
}

void Drawing::path(const std::string& data, const Ink& ink) { body_ += fmt::format("<path d=\"{}\"{}/>\n", data, inked(ink)); }

void Drawing::text(Point at, double size_mm, std::string_view what, Anchor anchor, bool bold) {
  static constexpr const char* anchors[]{"start", "middle", "end"};
  body_ += fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\" text-anchor=\"{}\"{}>{}</text>\n", number(at.x), number(at.y),
                       number(size_mm), anchors[static_cast<int>(anchor)], bold ? " font-weight=\"bold\"" : "", xml_text(what));
}

std::string Drawing::finished() const {
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" "
      "font-family=\"sans-serif\">\n<title>{title}</title>\n"
      "<defs><pattern id=\"{name}-hatch\" width=\"1.4\" height=\"1.4\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\">"
      "<line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"1.4\" stroke=\"#000\" stroke-width=\"0.35\"/></pattern></defs>\n{body}</svg>\n",
      fmt::arg("w", number(width_mm_)), fmt::arg("h", number(height_mm_)), fmt::arg("title", xml_text(title_)), fmt::arg("name", name_),
      fmt::arg("body", body_));
}

}  // namespace svg
}  // namespace app
