#include "answers/check.hpp"

#include <algorithm>
#include <utility>

#include "answers/check_state.hpp"
#include "answers/readings.hpp"
#include "answers/taken_out.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {

namespace {

/// A sheet prints the whole stage: what agrees there is no slip of the drawing.
void forgive(const circuit::Circuit& circuit,
             const solve::OperatingPoint& whole_state,
             std::vector<PrintedComparison>& printed) {
  for (const auto& whole : compare_printed(circuit, whole_state)) {
    for (auto& one : printed) {
      const bool is_same = one.a == whole.a && one.b == whole.b && one.printed_v == whole.printed_v;
      if (!is_same || !one.disagrees || whole.disagrees) continue;
      one.disagrees = false;
      one.agrees_with_all_parts = true;
    }
  }
}

Check judge(const Setup& setup, solve::OperatingPoint state) {
  Check check{*setup.stage};
  check.changes = setup.changes;
  check.complaints = setup.warnings;
  Setup whole = setup;
  whole.stage = with_all_parts(setup.stage);
  const auto whole_outcome = solve::solve_stage(whole.stage, state.conditions());
  const auto* whole_state = std::get_if<solve::OperatingPoint>(&whole_outcome);
  for (auto& found : complaints_of_state(*whole.stage, whole_state ? *whole_state : state)) {
    check.complaints.push_back(std::move(found));
  }
  for (auto& found : complaints_of_trimmers(whole)) {
    check.out_of_reach |= found.kind == complaints::kind("adjust-out-of-reach");
    check.complaints.push_back(std::move(found));
  }
  complaints::sort_by_place(check.complaints);
  check.printed = compare_printed(*setup.stage, state);
  if (whole_state != nullptr) forgive(*whole.stage, *whole_state, check.printed);
  check.warnings = warnings_of_conditions(setup);
  for (auto& text : state_warnings(*setup.stage, state)) check.warnings.push_back(std::move(text));
  check.state = std::move(state);
  return check;
}

}  // namespace

bool is_good(const Check& check) noexcept {
  const bool agrees = std::none_of(
      check.printed.begin(), check.printed.end(), [](const auto& one) { return one.disagrees; });
  return agrees && !check.trouble && !check.out_of_reach && check.circuit.blanks.empty() &&
         !complaints::has_error(check.complaints);
}

Check refuse_drawing(circuit::Circuit circuit, complaints::Complaints complaints) {
  complaints::sort_by_place(complaints);
  Check check{std::move(circuit)};
  check.complaints = std::move(complaints);
  return check;
}

std::variant<Check, solve::NotSettled> ask_check(const Setup& setup) {
  auto outcome = solve::solve_stage(setup.stage, setup.conditions);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&outcome)) {
    Setup cold = setup;
    cold.conditions.heat = solve::HeatState::cold;
    auto checked = ask_check(cold);
    if (auto* check = std::get_if<Check>(&checked)) {
      check->trouble = tell_thermal(setup, setup.stage, *trouble);
    }
    return checked;
  }
  return judge(setup, std::get<solve::OperatingPoint>(std::move(outcome)));
}

}  // namespace idlepoint::answers
