#include "report/text_fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "circuit/part_kind.hpp"
#include "circuit/sentence.hpp"
#include "circuit/type_fields.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::FitField;
using answers::FitPoint;
using answers::TypeFit;
using values::format_value;

// Every line behind a `#`.
std::string as_comment(const std::string& text) {
  std::string out;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    out += line.empty() ? "#\n" : "# " + line + "\n";
  return out;
}

Page inside_comment(Page page) {
  page.width -= 2;
  return page;
}

std::string opening(const TypeFit& fit) {
  const bool holds = std::none_of(
      fit.points.begin(), fit.points.end(), [](const FitPoint& p) { return p.holds == false; });
  return fmt::format("{}, {}, made by `fit` from {}{}.",
                     fit.type.name,
                     circuit::a_kind(fit.type.kind),
                     count_in_words(fit.points.size(), "point"),
                     fit.contradictions.empty() && holds ? "" : ", which do not fit together");
}

values::Unit unit_of(const TypeFit& fit, const std::string& field) {
  values::Unit unit = values::Unit::none;
  const auto find = [&](const auto& fields) {
    for (const auto& one : fields) {
      if (one.name == field) unit = one.unit;
    }
  };
  if (fit.type.kind == circuit::PartKind::diode) find(circuit::diode_fields());
  if (circuit::is_bipolar(fit.type.kind)) find(circuit::bipolar_fields());
  if (circuit::is_fet(fit.type.kind)) find(circuit::fet_fields());
  return unit;
}

std::string value_in_words(const TypeFit& fit, const FitField& field) {
  return field.value ? format_value(*field.value, unit_of(fit, field.name)) : std::string("none");
}

// ", to about 5 %"; nothing where it is as good as exact.
std::string known_to_in_words(const FitField& field) {
  constexpr double hardly_worth_saying = 0.01;
  constexpr double rough = 0.6;
  if (!field.known_to || *field.known_to < hardly_worth_saying) return {};
  if (*field.known_to > rough) return ", a rough figure";
  const double percent = 100.0 * *field.known_to;
  return fmt::format(", to about {:.0f} %",
                     percent < 10.0 ? percent : 5.0 * std::round(percent / 5.0));
}

std::string fields_section(const TypeFit& fit, bool determined, const Page& page) {
  std::size_t names = 0;
  std::size_t values = 0;
  for (const FitField& field : fit.fields) {
    names = std::max(names, field.name.size());
    values = std::max(values, width_of(value_in_words(fit, field)));
  }
  std::string text;
  for (const FitField& field : fit.fields) {
    if (field.determined != determined) continue;
    const std::string columns = "  " + padded_right(field.name, names) + "   " +
                                padded_right(value_in_words(fit, field), values) + "   ";
    // Folded alone: it would close up the blanks of the columns.
    const std::string why =
        fold(field.why + known_to_in_words(field), page, columns.size(), columns.size());
    text += columns + why.substr(columns.size());
  }
  return text;
}

std::string off_in_words(const FitPoint& point) {
  if (!point.predicted) return "no such state";
  std::string text;
  if (point.residual) {
    const double percent = 100.0 * *point.residual;
    text = std::abs(percent) < 0.05 ? "exactly" : fmt::format("{:+.1f} %", percent);
  }
  if (point.holds) {
    text += (text.empty() ? "" : ", ") +
            std::string(*point.holds ? "within its limits" : "outside its limits");
  }
  return text;
}

std::string points_section(const TypeFit& fit) {
  std::vector<TableRow> rows = {{"point", "asked", "fitted", "off"}};
  for (const FitPoint& point : fit.points) {
    rows.push_back({point.text,
                    point.aim ? format_value(*point.aim, point.unit) : "limit",
                    point.predicted ? format_value(*point.predicted, point.unit) : "-",
                    off_in_words(point)});
  }
  return table_of(rows);
}

}  // namespace

std::string text_of(const TypeFit& fit, const std::string& statement, const Page& page) {
  const Page inner = inside_comment(page);
  std::string text = as_comment(fold(opening(fit), inner)) + "\n" + statement + "\n";
  const std::string known = fields_section(fit, true, inner);
  const std::string unknown = fields_section(fit, false, inner);
  std::string words = "How the points come out:\n" + points_section(fit);
  if (!known.empty()) words += "\nWhat the points determine:\n" + known;
  if (!unknown.empty())
    words += "\nWhat they do not determine; what is taken is common practice, with no source:\n" +
             unknown;
  for (const std::string& note : fit.notes) words += "\n" + fold(note, inner);
  words +=
      "\n" + fold(fit.type.source.empty()
                      ? std::string(
                            "Where the points come from is not said: `source=` and `note=` say it.")
                      : "The points are from: " + fit.type.source + ".",
                  inner);
  return text + as_comment(words);
}

}  // namespace idlepoint::report
