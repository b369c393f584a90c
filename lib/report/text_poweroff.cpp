#include "report/text_poweroff.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/figures.hpp"
#include "report/poweroff_words.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::OffPoint;
using answers::OffRange;
using answers::PowerOff;
using Group = OffPoint::Group;

constexpr std::size_t most_suspects = 4;
constexpr std::size_t most_beside_a_resistor = 2;

constexpr std::size_t at(OffRange range) { return static_cast<std::size_t>(range); }

std::string opening_of(const PowerOff& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  std::string text =
      fmt::format("{}. Power off, nothing lifted, room {}, {}.",
                  circuit.title.empty() ? circuit.file : circuit.title,
                  values::format_value(circuit.ambient_k, values::Unit::temperature),
                  answer.conditions.load_connected ? "loudspeaker connected" : "no loudspeaker");
  if (!answer.changes.empty()) {
    text += " Changed from the drawing: " + list_in_words(answer.changes) + ".";
  }
  return fold(text, page) + trimmers_line(circuit, page);
}

std::string what_to_do_first(const Page& page) {
  std::string text = "BEFORE THE METER TOUCHES ANYTHING\n";
  for (const char* sentence :
       {"Mains plug out of the wall, not only switched off. Loudspeakers off.",
        "Discharge the reservoirs through a resistor, never with a screwdriver, then measure each "
        "of them: below 1 V, or an ohm-meter lies at best and dies at worst.",
        "Lowest ohms range that holds the figure. Leads together first: what it shows then is the "
        "leads; take that off every reading below 10R.",
        "Capacitors charge from the meter: wait until the figure stands still."}) {
    text += fold(sentence, page, 2, 4);
  }
  return text;
}

std::string how_to_read(const Page& page) {
  return fold(
      "Red lead on the point named first. In brackets: what 19 sound stages in 20 would show. "
      "`open`: no way through. After `instead`: what a meter would show with one part at fault, "
      "the likeliest first; all of them are in --json.",
      page);
}

/// "same" where no meter could tell one way round from the other.
std::string exchanged(const OffPoint& point, OffRange range, OffRange reversed) {
  const auto& forward = point.figures[at(range)];
  const auto& back = point.figures[at(reversed)];
  if (!answers::can_tell(range, forward, back.value)) return "same";
  return off_figure_in_words(reversed, back);
}

/// "d4 to e_hi (R609)": the points, and what lies across them of the parts `shown`.
std::string points_in_words(const circuit::Circuit& circuit, const OffPoint& point, auto&& shown) {
  std::vector<std::string> across;
  for (const auto id : point.parts) {
    const auto& part = circuit.at(id);
    if (part.kind != circuit::PartKind::capacitor && shown(part)) across.push_back(part.name);
  }
  const std::string points = probe_in_words(circuit, point.points);
  return across.empty() ? points : fmt::format("{} ({})", points, fmt::join(across, ", "));
}

bool is_no_junction(const circuit::Part& part) { return !circuit::has_type(part.kind); }

/// The table's rows, each with what follows it.
class Section {
 public:
  Section(std::string heading, TableRow columns) : heading_(std::move(heading)) {
    rows_.push_back(std::move(columns));
    notes_.emplace_back();
  }
  void add(TableRow row, std::string note) {
    rows_.push_back(std::move(row));
    notes_.push_back(std::move(note));
  }
  [[nodiscard]] std::string text(const Page& page) const {
    if (rows_.size() == 1) return {};
    std::string text = "\n" + fold(heading_, page);
    const std::string table = table_of(rows_);
    std::size_t begin = 0;
    for (const std::string& note : notes_) {
      const std::size_t end = table.find('\n', begin) + 1;
      text += table.substr(begin, end - begin);
      if (!note.empty()) text += fold(note, page, 6, 8);
      begin = end;
    }
    return text;
  }

 private:
  std::string heading_;
  std::vector<TableRow> rows_;
  std::vector<std::string> notes_;
};

std::string instead(const std::string& suspects) {
  return suspects.empty() ? "" : "instead " + suspects;
}

std::string asked_section(const PowerOff& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  Section section("Point to point", {"", "ohms", "exchanged", "diode range", "exchanged"});
  for (const auto& point : answer.points) {
    if (point.group != Group::asked) continue;
    const auto all = [](const circuit::Part&) { return true; };
    section.add(
        {(point.name.empty() ? "" : point.name + "  ") + points_in_words(circuit, point, all),
         off_figure_in_words(OffRange::ohms, point.figures[at(OffRange::ohms)]),
         exchanged(point, OffRange::ohms, OffRange::ohms_reversed),
         off_figure_in_words(OffRange::diode, point.figures[at(OffRange::diode)]),
         exchanged(point, OffRange::diode, OffRange::diode_reversed)},
        instead(suspects_in_words(point, most_suspects)));
  }
  return section.text(page);
}

/// "Q606 b to e", of every transistor and diode there.
std::string junctions_of(const circuit::Circuit& circuit, const OffPoint& point) {
  std::vector<std::string> junctions;
  for (const auto id : point.parts) {
    const auto& part = circuit.at(id);
    if (circuit::has_type(part.kind)) junctions.push_back(part_between(part, point.points));
  }
  return fmt::format("{}", fmt::join(junctions, ", "));
}

std::string junction_section(const PowerOff& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  Section section("Transistors and diodes, on the diode range, the way they conduct first",
                  {"", "", "diode range", "exchanged", "ohms", "exchanged"});
  for (const auto& point : answer.points) {
    if (point.group != Group::junction) continue;
    section.add({padded_right(junctions_of(circuit, point), 12),
                 points_in_words(circuit, point, is_no_junction),
                 off_figure_in_words(OffRange::diode, point.figures[at(OffRange::diode)]),
                 exchanged(point, OffRange::diode, OffRange::diode_reversed),
                 off_value(OffRange::ohms, point.figures[at(OffRange::ohms)].value),
                 answers::can_tell(OffRange::ohms,
                                   point.figures[at(OffRange::ohms)],
                                   point.figures[at(OffRange::ohms_reversed)].value)
                     ? off_value(OffRange::ohms, point.figures[at(OffRange::ohms_reversed)].value)
                     : "same"},
                instead(suspects_in_words(point, most_suspects)));
  }
  return section.text(page);
}

/// The part that a line of the resistors is about.
const circuit::Part& resistor_of(const circuit::Circuit& circuit, const OffPoint& point) {
  const auto found = std::find_if(point.parts.begin(), point.parts.end(), [&](circuit::PartId id) {
    const auto kind = circuit.at(id).kind;
    return is_no_junction(circuit.at(id)) && kind != circuit::PartKind::trimmer &&
           kind != circuit::PartKind::capacitor;
  });
  return circuit.at(found == point.parts.end() ? point.parts.front() : *found);
}

const answers::OffSuspect* its_open(const circuit::Part& part, const OffPoint& point) {
  const auto found = std::find_if(
      point.suspects.begin(), point.suspects.end(), [&](const answers::OffSuspect& suspect) {
        return suspect.fault == part.name + " open" && suspect.tells[at(OffRange::ohms)];
      });
  return found == point.suspects.end() ? nullptr : &*found;
}

std::string resistor_section(const PowerOff& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  Section section("Resistors, on the ohms range",
                  {"", "", "in circuit", "exchanged", "if it is open"});
  for (const auto& point : answer.points) {
    if (point.group != Group::resistor || point.parts.empty()) continue;
    const auto& part = resistor_of(circuit, point);
    const auto* open = its_open(part, point);
    std::vector<std::string> own;
    for (const auto& suspect : point.suspects) {
      if (suspect.fault.starts_with(part.name + " ")) own.push_back(suspect.fault);
    }
    section.add(
        {part.kind == circuit::PartKind::resistor
             ? fmt::format("{} {}", part.name, values::format_ohms(part.value))
             : part.name,
         points_in_words(
             circuit, point, [&](const circuit::Part& other) { return other.name != part.name; }),
         off_figure_in_words(OffRange::ohms, point.figures[at(OffRange::ohms)]),
         exchanged(point, OffRange::ohms, OffRange::ohms_reversed),
         open == nullptr ? "lift it" : off_value(OffRange::ohms, open->reads[at(OffRange::ohms)])},
        instead(suspects_in_words(point, most_beside_a_resistor, own)));
  }
  return section.text(page);
}

std::string trimmer_line(const PowerOff& answer, const answers::OffTrimmer& trimmer) {
  const auto& circuit = *answer.stage;
  const auto& part = circuit.at(trimmer.trimmer);
  std::string text = fmt::format("{}, {}: {}.",
                                 setting_in_words(circuit, part, trimmer.travel),
                                 trimmer.reached ? "its preset" : "the nearest it comes",
                                 all_legs_in_words(circuit, trimmer.ohms.at_preset));
  if (trimmer.safe_end) {
    text += fmt::format(" At {}, its safe end: {}.",
                        end_in_words(circuit, part, *trimmer.safe_end),
                        all_legs_in_words(circuit, trimmer.ohms.at_safe_end));
  }
  return text;
}

std::string trimmer_section(const PowerOff& answer, const Page& page) {
  if (answer.no_preset) return "\n" + fold("Trimmers: " + *answer.no_preset, page);
  if (answer.trimmers.empty()) return {};
  std::string text = "\nTrimmers, found with the ohm-meter in circuit\n";
  for (const auto& trimmer : answer.trimmers)
    text += fold(trimmer_line(answer, trimmer), page, 2, 4);
  return text;
}

std::string given_of(const PowerOff& answer, const Page& page) {
  const bool has_rails = !answer.stage->rails.empty();
  return fold(fmt::format(
                  "Taken as given: an ohms range of 0.2 V that gives 1 mA into a short, so that "
                  "silicon stays off; a diode range of 1 mA that gives up at 2.5 V{}; capacitors "
                  "that are empty and do not leak.",
                  has_rails ? "; from each rail 1k to ground in place of the supply" : ""),
              page) +
         fold(
             "Some ohms ranges push more volts and turn junctions on: they read lower, and "
             "differently with the leads exchanged. Then take another range, or the other meter.",
             page);
}

}  // namespace

std::string text_of(const PowerOff& answer, const Page& page) {
  std::string text = opening_of(answer, page) + "\n" + what_to_do_first(page);
  text += "\n" + how_to_read(page);
  text += asked_section(answer, page) + junction_section(answer, page);
  text += resistor_section(answer, page) + trimmer_section(answer, page);
  if (answer.points.empty()) text += "\nThere is nothing here for a meter to be put across.\n";
  const std::string warnings = warnings_list(answer.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + given_of(answer, page);
  return text + fold(
                    "Worked out from the values entered: it is no measurement. What reads wrong "
                    "in circuit is lifted and read again before it is thrown away.",
                    page);
}

}  // namespace idlepoint::report
