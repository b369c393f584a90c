#include "complaints/kinds.hpp"

#include <array>
#include <cassert>

namespace idlepoint::complaints {
namespace {

using enum Gravity;

// One line a kind. A new kind wants a file in netlists/broken, its approved text and an entry in
// docs/complaints.md.
constexpr auto kinds_table = std::to_array<KindFacts>({
    // The file as a whole.
    {"file-unreadable", unreadable},
    {"not-text", unreadable},
    {"too-many-complaints", unreadable},
    {"path-refused", unreadable},
    {"based-on-circle", unreadable},
    {"based-on-too-deep", unreadable},
    {"change-without-base", unreadable},
    {"statement-not-here", unreadable},
    {"nothing-drawn", unreadable},
    {"nothing-to-fit", unreadable},
    {"no-stage-file", unreadable},
    // Marks and words.
    {"control-character", unreadable},
    {"indented-first-line", unreadable},
    {"quote-not-closed", unreadable},
    {"quote-escape", unreadable},
    {"text-after-quote", unreadable},
    {"space-around-equals", unreadable},
    {"second-equals", unreadable},
    {"word-after-pair", unreadable},
    {"key-twice", unreadable},
    {"unknown-statement", unreadable},
    {"unknown-key", unreadable},
    {"missing-word", unreadable},
    {"extra-word", unreadable},
    {"missing-key", unreadable},
    {"choice-expected", unreadable},
    // Names.
    {"name-letters", unreadable},
    {"write-gnd", unreadable},
    {"unknown-part", unreadable},
    {"unknown-node", unreadable},
    {"unknown-type", unreadable},
    {"unknown-heatsink", unreadable},
    {"unknown-reading", unreadable},
    {"unknown-lead", unreadable},
    {"unknown-quantity", unreadable},
    {"left-off-lead", unreadable},
    {"leads-by-name", unreadable},
    {"name-twice", unreadable},
    {"type-twice", unreadable},
    {"reading-twice", unreadable},
    {"rail-twice", unreadable},
    {"statement-twice", unreadable},
    {"part-twice", unreadable},
    {"rail-on-gnd", unreadable},
    {"type-kind", unreadable},
    {"not-for-this-part", unreadable},
    {"spare-leg", unreadable},
    // Values.
    {"value-unreadable", unreadable},
    {"value-size", unreadable},
    {"decimal-comma", unreadable},
    {"minus-sign", unreadable},
    {"bare-point", unreadable},
    {"three-letter-mega", unreadable},
    {"old-microfarad", unreadable},
    {"percent-sign", unreadable},
    {"two-values", unreadable},
    {"tolerance-behind-value", unreadable},
    {"capital-kilo", unreadable},
    {"letter-case", unreadable},
    {"unit-spelling", unreadable},
    {"wrong-unit", unreadable},
    {"space-in-value", unreadable},
    {"out-of-range", unreadable},
    {"low-above-high", unreadable},
    {"nominal-outside", unreadable},
    {"two-sources", unreadable},
    {"quick-field", unreadable},
    {"rail-sign", warning},
    // The command line.
    {"fault-unreadable", unreadable},
    {"fault-does-not-fit", unreadable},
    {"setting-unreadable", unreadable},
    {"reading-unreadable", unreadable},
    // The drawing: found by the checks of lib/circuit.
    {"blank", drawing_error},
    {"one-leg", drawing_error},
    {"unfed-base", drawing_error},
    {"untied-point", drawing_error},
    {"part-on-one-point", drawing_error},
    {"base-on-emitter", drawing_error},
    {"rails-joined", drawing_error},
    {"source-loop", drawing_error},
    {"collector-on-base", warning},
    {"upside-down", warning},
    {"rails-of-one-sign", warning},
    {"unused-rail", warning},
    {"emitter-resistor", warning},
    {"diodes-face-to-face", warning},
    {"odd-value", warning},
    {"ideal-feed", warning},
    // The drawing: found by the checks of lib/answers, which solve it.
    {"reversed-transistor", warning},
    {"idle-transistor", warning},
    {"more-than-one-state", warning},
    {"trimmer-without-effect", warning},
    {"adjust-out-of-reach", warning},
    // The points of a part: found by the fit in lib/answers.
    {"points-disagree", warning},
    {"point-out-of-reach", warning},
});

}  // namespace

std::span<const KindFacts> all_kinds() noexcept { return kinds_table; }

Kind kind(std::string_view name) {
  for (std::size_t index = 0; index < kinds_table.size(); ++index) {
    if (kinds_table[index].name == name) return Kind{index};
  }
  assert(false && "a complaint of a kind that is not in the list");
  return Kind{0};
}

const KindFacts& facts(Kind kind) noexcept {
  assert(kind.index < kinds_table.size());
  return kinds_table[kind.index];
}

}  // namespace idlepoint::complaints
