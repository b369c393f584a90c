#include "report/legs_table.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "report/figures.hpp"
#include "report/page.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using Row = std::vector<std::string>;

std::string volts_at(const solve::OperatingPoint& state,
                     const circuit::Part& part,
                     std::size_t lead,
                     std::string_view lead_name) {
  const auto node = circuit::lead(part, lead);
  return std::string(lead_name) + " " + (node ? volts(state.voltage_v(*node)) : "left off");
}

std::string how_it_works(const circuit::Circuit& circuit, const solve::PartState& found) {
  constexpr double worth_saying_k = 0.5;
  std::string text = found.conduction ? in_words(*found.conduction) : "";
  if (std::abs(found.junction_k - circuit.ambient_k) >= worth_saying_k) {
    text += ", junction " + celsius(found.junction_k);
  }
  if (found.over_stressed) text += ", beyond its ratings";
  return text;
}

Row row_of(const circuit::Circuit& circuit,
           circuit::PartId id,
           const solve::OperatingPoint& state,
           Row row) {
  const auto& part = circuit.at(id);
  const auto& found = state.part(id);
  const auto names = circuit::lead_names(part.kind);
  for (std::size_t lead = 0; lead < names.size(); ++lead) {
    row.push_back(volts_at(state, part, lead, names[lead]));
  }
  if (names.size() == 2) row.emplace_back();  // a diode leaves the third leg's column empty
  row.push_back(amps(std::abs(found.lead_current_a.front())));
  row.push_back(how_it_works(circuit, found));
  return row;
}

std::vector<Row> rows_of(const circuit::Circuit& circuit,
                         const solve::OperatingPoint& state,
                         const solve::OperatingPoint* cold) {
  std::vector<Row> rows;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    if (!circuit::has_type(part.kind) || part.damage.absent || part.damage.is_link) continue;
    const circuit::PartId id{index};
    if (cold == nullptr) {
      rows.push_back(row_of(circuit, id, state, {part.name}));
      continue;
    }
    rows.push_back(row_of(circuit, id, *cold, {part.name, "cold"}));
    rows.push_back(row_of(circuit, id, state, {"", "warm"}));
  }
  return rows;
}

std::vector<std::size_t> column_widths(const std::vector<Row>& rows) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t column = 0; column < row.size(); ++column) {
      widths[column] = std::max(widths[column], width_of(row[column]));
    }
  }
  return widths;
}

}  // namespace

std::string in_words(solve::Conduction conduction) {
  using solve::Conduction;
  switch (conduction) {
    case Conduction::off:
      return "cut off";
    case Conduction::active:
      return "conducting";
    case Conduction::saturated:
      return "hard on";
    case Conduction::reversed:
      return "reversed";
    case Conduction::forward:
      return "conducting";
    case Conduction::breakdown:
      return "in breakdown";
  }
  return {};
}

std::string legs_table(const circuit::Circuit& circuit,
                       const solve::OperatingPoint& state,
                       const solve::OperatingPoint* cold) {
  const std::vector<Row> rows = rows_of(circuit, state, cold);
  const auto widths = column_widths(rows);
  std::string text;
  for (const auto& row : rows) {
    std::string line = " ";
    for (std::size_t column = 0; column < row.size(); ++column) {
      const bool is_current = column + 2 == row.size();
      line +=
          (column == 0 ? " " : "   ") + (is_current ? padded_left(row[column], widths[column])
                                                    : padded_right(row[column], widths[column]));
    }
    text += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  return text;
}

}  // namespace idlepoint::report
