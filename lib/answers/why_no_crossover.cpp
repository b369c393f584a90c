#include "answers/why_no_crossover.hpp"

#include <fmt/format.h>

#include "answers/full_output.hpp"
#include "answers/set_trimmers.hpp"
#include "answers/taken_out.hpp"

namespace idlepoint::answers {

std::optional<std::string> why_no_crossover(const Setup& setup) {
  const circuit::Circuit& circuit = *setup.stage;
  if (are_rails_too_low(setup)) {
    return fmt::format(
        "With the rails at {:.0f} % no standing current is judged: what a setting shows there says "
        "nothing of the one on full rails. Ask at 95 % or more.",
        setup.conditions.rails * 100.0);
  }
  const std::string out = names_taken_out(circuit);
  if (!out.empty()) {
    return fmt::format("With {} out nothing carries the load's current. Ask without `--without`.",
                       out);
  }
  const auto output = circuit::output_node(circuit);
  if (!output || *output == circuit::ground) {
    return "The file does not say where the signal leaves. Write `signal output=NODE drive=NODE`.";
  }
  const auto& drive = circuit.signal.drive;
  if (!drive) {
    return "The file does not say where the output half is driven. Write `signal drive=NODE`, in "
           "one line with the output: the collector of the voltage amplifier, at one end of the "
           "bias string.";
  }
  if (*drive == circuit::ground || circuit::find_rail(circuit, *drive) || *drive == *output) {
    return fmt::format(
        "`{}` cannot be the drive point. Write `signal drive=NODE` with the "
        "collector of the voltage amplifier.",
        circuit.at(*drive).name);
  }
  if (!full_output(circuit, setup.conditions)) {
    return fmt::format(
        "Without a loudspeaker there is no crossover. Write it into the file: `load "
        "LS1 {} gnd 8R`, behind the output capacitor where there is one.",
        circuit.at(*output).name);
  }
  return std::nullopt;
}

}  // namespace idlepoint::answers
