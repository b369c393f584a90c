#include "answers/check.hpp"

#include <algorithm>
#include <utility>

#include "answers/check_state.hpp"
#include "answers/readings.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {

namespace {

Check judge(const Setup& setup, solve::OperatingPoint state) {
  Check check{*setup.stage};
  check.changes = setup.changes;
  check.complaints = setup.warnings;
  for (auto& found : complaints_of_state(*setup.stage, state)) {
    check.complaints.push_back(std::move(found));
  }
  for (auto& found : complaints_of_trimmers(setup)) {
    check.out_of_reach |= found.kind == complaints::kind("adjust-out-of-reach");
    check.complaints.push_back(std::move(found));
  }
  complaints::sort_by_place(check.complaints);
  check.printed = compare_printed(*setup.stage, state);
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
