#include "report/spread_table.hpp"

#include <vector>

#include "report/figures.hpp"
#include "report/one_or_both.hpp"
#include "report/page.hpp"

namespace idlepoint::report {
namespace {

std::string name_with_place(const circuit::Circuit& circuit, const answers::ReadingValue& reading) {
  const std::string where = resistors_in_brackets(circuit, reading.probe);
  return where.empty() ? reading.name : reading.name + " " + where;
}

}  // namespace

std::string middle_in_words(const std::optional<answers::Distribution>& values,
                            answers::ReadingUnit unit) {
  if (!values) return "no state";
  return figure(values->p2_5, unit) + " to " + figure(values->p97_5, unit);
}

std::string spread_table(const answers::Spread& answer) {
  if (answer.readings.empty()) return {};
  std::vector<TableRow> rows{{"", "nominal parts", "19 stages in 20"}};
  if (answer.when_set) rows.front().emplace_back("the same, each set");
  for (const answers::SpreadOfReading& reading : answer.readings) {
    const answers::ReadingUnit unit = reading.nominal.unit;
    rows.push_back({name_with_place(*answer.stage, reading.nominal),
                    figure(reading.nominal.value, unit),
                    middle_in_words(reading.as_it_stands.values, unit)});
    if (reading.when_set) {
      rows.back().push_back(middle_in_words(reading.when_set->values, unit));
    }
  }
  return table_of(rows);
}

}  // namespace idlepoint::report
