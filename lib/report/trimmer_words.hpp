// A trimmer in words: its track, its ends, its place, its travel drawn as a bar.
//
// Used by the preset and the spread report; one function a sentence, in the order they are said.
#pragma once

#include <string>

#include "answers/preset.hpp"
#include "circuit/circuit.hpp"

namespace idlepoint::report {

/// "0R" and "200R" of a variable resistor; "the e1 end" of a trimmer with three legs in use.
[[nodiscard]] std::string end_in_words(const circuit::Circuit& circuit,
                                       const circuit::Part& trimmer,
                                       circuit::TrackEnd end);

/// "VR2 sets `idle` (e_hi to e_lo, both R11 and R12). 1k, used as a variable resistor between t and
/// x."
[[nodiscard]] std::string trimmer_heading(const circuit::Circuit& circuit,
                                          const answers::TrimmerAnswer& answer);

/// "SAFE END: ..." or, where neither end is the safe one, "SAFE PLACE: ...".
[[nodiscard]] std::string safe_place(const circuit::Circuit& circuit,
                                     const answers::TrimmerAnswer& answer);

/// "Expect to finish near 374R of the 1k ...", or that the target is out of reach.
[[nodiscard]] std::string expected_place(const circuit::Circuit& circuit,
                                         const answers::TrimmerAnswer& answer);

/// "In circuit, power off, x2 to lo reads 83R5 there and 1R at its safe end."
[[nodiscard]] std::string found_in_circuit(const circuit::Circuit& circuit,
                                           const answers::TrimmerAnswer& answer);

/// Further places with the same reading; empty where there are none.
[[nodiscard]] std::string other_places(const circuit::Circuit& circuit,
                                       const answers::TrimmerAnswer& answer);

/// "0R [=======|-------------] 1k": the travel from the first-named end, 20 steps.
[[nodiscard]] std::string travel_bar(const circuit::Circuit& circuit,
                                     const answers::TrimmerAnswer& answer);

/// From where on the reading moves, and how fast at its place, a per cent of the track and a turn.
[[nodiscard]] std::string how_fast(const circuit::Circuit& circuit,
                                   const answers::TrimmerAnswer& answer);

/// "92R (73R to 109R)" of a variable resistor, "41 % from e1 (35 to 50 %)" of a trimmer with three
/// legs in use: its place and, in brackets, its band.
[[nodiscard]] std::string place_in_words(const circuit::Circuit& circuit,
                                         const answers::TrimmerAnswer& answer);

/// "between 38 % and 61 % of the way from e1": of the travel, as the ohms of a track are its own.
[[nodiscard]] std::string places_between(const circuit::Circuit& circuit,
                                         const circuit::Part& trimmer,
                                         double low_travel,
                                         double high_travel);

/// With parts taken out: that the trimmer cannot be set, and that the lines below are of the whole
/// stage.
[[nodiscard]] std::string only_with_all_parts(const circuit::Circuit& circuit,
                                              const answers::TrimmerAnswer& answer);

/// What the trimmer's bias reads while those parts are out. Requires `answer.meanwhile`.
[[nodiscard]] std::string bias_meanwhile(const circuit::Circuit& circuit,
                                         const answers::TrimmerAnswer& answer);

}  // namespace idlepoint::report
