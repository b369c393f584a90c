// A trimmer that sets what parts taken out carry, in words. Declared in report/trimmer_words.hpp.

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

std::string at_its_place(const circuit::Circuit& circuit, const answers::TrimmerAnswer& answer) {
  const auto& trimmer = circuit.at(answer.trimmer);
  if (is_variable_resistor(trimmer)) {
    return "at " + values::format_ohms(answer.travel * trimmer.value);
  }
  return percent(answer.travel) + " of the way from " +
         circuit::node_in_words(circuit, *circuit::lead(trimmer, 0));
}

std::string points_in_words(const circuit::Circuit& circuit, const answers::BiasPoints& at) {
  const std::string points = fmt::format("{} to {}",
                                         circuit::node_in_words(circuit, at.points.a),
                                         circuit::node_in_words(circuit, at.points.b));
  return at.reading ? fmt::format("`{}`, {},", circuit.at(*at.reading).name, points) : points;
}

}  // namespace

std::string only_with_all_parts(const circuit::Circuit& circuit,
                                const answers::TrimmerAnswer& answer) {
  const std::string out = answers::names_taken_out(circuit);
  return fmt::format(
      "NOT TO BE SET with {} out: `{}` is not what it will be. Leave {} at its safe place until "
      "they are in. What follows is the whole stage, all parts in.",
      out,
      circuit.at(answer.reading).name,
      circuit.at(answer.trimmer).name);
}

std::string bias_meanwhile(const circuit::Circuit& circuit, const answers::TrimmerAnswer& answer) {
  const auto& bias = *answer.meanwhile;
  const std::string out = answers::names_taken_out(circuit);
  if (!bias.v) return {};
  std::string text = fmt::format(
      "With {} out{}: with {} {} {} reads {} just switched on ({} with "
      "all parts in)",
      out,
      bias.is_linked ? ", and the output linked as said below" : "",
      circuit.at(answer.trimmer).name,
      at_its_place(circuit, answer),
      points_in_words(circuit, bias.at),
      volts(*bias.v),
      volts(bias.whole_v));
  if (bias.safe_v) text += fmt::format(", at the safe end {}", volts(*bias.safe_v));
  return text +
         ". That proves the bias parts; it does not set them. Back to the safe end before "
         "the parts go in.";
}

}  // namespace idlepoint::report
