#include "text/plain_forms.h"

#include <algorithm>
#include <array>

namespace text {
namespace {

struct Plain {
  std::u32string_view form, of;
};

// Found by the first line that names the character.
constexpr Plain plain_forms[] = {
    // Letters.
    {U"A", U"ÀÁÂÃĀĂĄǍǞǠǺȀȂȦḀẠẢẤẦẨẪẬẮẰẲẴẶ"},
    {U"a", U"áâãāăąǎǟǡǻȁȃȧḁạảấầẩẫậắằẳẵặ"},
    {U"B", U"ḂḄḆ"},
    {U"b", U"ḃḅḇ"},
    {U"C", U"ĆĈĊČḈ"},
    {U"c", U"çćĉċčḉ"},
    {U"D", U"ĎḊḌḎḐḒÐĐ"},
    {U"d", U"ďḋḍḏḑḓđð"},
    {U"E", U"ÈÊËĒĔĖĘĚȄȆȨḔḖḘḚḜẸẺẼẾỀỂỄỆ"},
    {U"e", U"êëēĕėęěȅȇȩḕḗḙḛḝẹẻẽếềểễệ"},
    {U"F", U"Ḟ"},
    {U"f", U"ḟ"},
    {U"G", U"ĜĞĠĢǦǴḠ"},
    {U"g", U"ĝğġģǧǵḡ"},
    {U"H", U"ĤȞḢḤḦḨḪĦ"},
    {U"h", U"ĥȟḣḥḧḩḫẖħ"},
    {U"I", U"ÌÍÎÏĨĪĬĮİǏȈȊḬḮỈỊ"},
    {U"i", U"íîïĩīĭįǐȉȋḭḯỉịı"},
    {U"J", U"Ĵ"},
    {U"j", U"ĵǰ"},
    {U"K", U"ĶǨḰḲḴ"},
    {U"k", U"ķǩḱḳḵĸ"},
    {U"L", U"ĹĻĽḶḸḺḼŁ"},
    {U"l", U"ĺļľḷḹḻḽł"},
    {U"M", U"ḾṀṂ"},
    {U"m", U"ḿṁṃ"},
    {U"N", U"ŃŅŇǸṄṆṈṊ"},
    {U"n", U"ńņňǹṅṇṉṋ"},
    {U"O", U"ÒÓÔÕŌŎŐƠǑǪǬȌȎȪȬȮȰṌṎṐṒỌỎỐỒỔỖỘỚỜỞỠỢ"},
    {U"o", U"óôõōŏőơǒǫǭȍȏȫȭȯȱṍṏṑṓọỏốồổỗộớờởỡợ"},
    {U"P", U"ṔṖ"},
    {U"p", U"ṕṗ"},
    {U"R", U"ŔŖŘȐȒṘṚṜṞ"},
    {U"r", U"ŕŗřȑȓṙṛṝṟ"},
    {U"S", U"ŚŜŞŠȘṠṢṤṦṨ"},
    {U"s", U"śŝşšșṡṣṥṧṩſ"},
    {U"T", U"ŢŤȚṪṬṮṰŦ"},
    {U"t", U"ţťțṫṭṯṱẗŧ"},
    {U"U", U"ÙÚÛŨŪŬŮŰŲƯǓǕǗǙǛȔȖṲṴṶṸṺỤỦỨỪỬỮỰ"},
    {U"u", U"úûũūŭůűųưǔǖǘǚǜȕȗṳṵṷṹṻụủứừửữự"},
    {U"V", U"ṼṾ"},
    {U"v", U"ṽṿ"},
    {U"W", U"ŴẀẂẄẆẈ"},
    {U"w", U"ŵẁẃẅẇẉẘ"},
    {U"X", U"ẊẌ"},
    {U"x", U"ẋẍ"},
    {U"Y", U"ÝŶŸȲẎỲỴỶỸ"},
    {U"y", U"ýÿŷȳẏẙỳỵỷỹ"},
    {U"Z", U"ŹŻŽẐẒẔ"},
    {U"z", U"źżžẑẓẕ"},
    {U"AE", U"ǢǼ"},
    {U"ae", U"ǣǽ"},
    {U"OE", U"Œ"},
    {U"oe", U"œ"},
    {U"TH", U"Þ"},
    {U"th", U"þ"},
    {U"IJ", U"Ĳ"},
    {U"ij", U"ĳ"},
    {U"NG", U"Ŋ"},
    {U"ng", U"ŋ"},
    // Signs.
    {U"'", U"\u2018\u2019\u201A\u201B\u2032\u2039\u203A\u00B4`\u02BC"},
    {U"\"", U"\u201C\u201D\u201E\u201F\u2033\u00AB\u00BB"},
    {U"-", U"\u2010\u2011\u2012\u2013\u2014\u2015\u2212\u2022\u2043"},
    {U"...", U"\u2026"},
    {U".", U"\u00B7"},
    {U" ", U"\t\u00A0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200A\u202F\u205F\u3000"},
    {U"x", U"\u00D7"},
    {U"/", U"\u00F7\u2044\u2215"},
    {U"1/2", U"\u00BD"},
    {U"1/4", U"\u00BC"},
    {U"3/4", U"\u00BE"},
    {U"1", U"\u00B9"},
    {U"2", U"\u00B2"},
    {U"3", U"\u00B3"},
    {U"o", U"\u00BA"},
    {U"a", U"\u00AA"},
    {U" deg", U"\u00B0"},
    {U"+-", U"\u00B1"},
    {U"No", U"\u2116"},
    {U"c", U"\u00A2"},
    {U"u", U"\u00B5"},
    {U"(c)", U"\u00A9"},
    {U"(R)", U"\u00AE"},
    {U"TM", U"\u2122"},
    {U"|", U"\u00A6"},
};

// Letters with a mark that the alphabet has, by mark: each letter of `plain` becomes the one at its place in `marked`.
struct Marked {
  char32_t mark;
  std::u32string_view plain, marked;
};
constexpr std::array<Marked, 6> marked_letters{{{0x0300, U"aeiou", U"àèìòù"},
                                                {0x0301, U"eE", U"éÉ"},
                                                {0x0303, U"nN", U"ñÑ"},
                                                {0x0308, U"aouAOU", U"äöüÄÖÜ"},
                                                {0x030A, U"aA", U"åÅ"},
                                                {0x0327, U"C", U"Ç"}}};

// The 94 visible characters of ASCII in the wide form of East Asian type.
constexpr char32_t wide_first = 0xFF01, wide_last = 0xFF5E;
constexpr std::u32string_view narrow{U"!\"#$%&'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_'abcdefghijklmnopqrstuvwxyz{|}~"};

}  // namespace

std::optional<std::u32string_view> plain_form(char32_t character) {
  if (character >= wide_first && character <= wide_last) return narrow.substr(character - wide_first, 1);
  const auto found = std::ranges::find_if(plain_forms, [&](const Plain& plain) { return plain.of.find(character) != plain.of.npos; });
  if (found == std::end(plain_forms)) return std::nullopt;
  return found->form;
}

std::optional<char32_t> composed(char32_t letter, char32_t mark) {
  const auto row = std::ranges::find(marked_letters, mark, &Marked::mark);
  if (row == marked_letters.end()) return std::nullopt;
  const auto at = row->plain.find(letter);
  return at == std::u32string_view::npos ? std::nullopt : std::optional{row->marked[at]};
}

}  // namespace text
