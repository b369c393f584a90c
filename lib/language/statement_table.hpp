// Which words begin a statement, what each means, and in which order they are understood.
//
// Statements may refer to what stands further down, so they are understood in steps: first the
// things with names of their own, then the parts, then (all nodes known) what is said of them.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "language/draft.hpp"
#include "language/lexer.hpp"

namespace idlepoint::language {

enum class Step {
  gathered,  ///< `types`, `based_on`, `change`: done with before the first step.
  things,    ///< Heat sinks, part types, what stands once.
  parts,     ///< Parts and rails: what makes nodes.
  remarks,   ///< Readings, groups, sockets, printed volts.
  targets,   ///< Limits and adjustments: what refers to readings.
};

struct StatementFacts {
  std::string_view keyword;
  Step step;
  void (*read)(Draft&, const Statement&);  ///< Null for `gathered`.
};

[[nodiscard]] std::span<const StatementFacts> all_statements() noexcept;

/// Null for an unknown word.
[[nodiscard]] const StatementFacts* find_statement(std::string_view keyword) noexcept;

/// Complains of a statement word that nobody knows, with the nearest known; its words are forgiven
/// where they turn up as unknown names.
void complain_of_unknown_statement(Draft& draft, const Statement& statement);

// One file a family; each reads one statement into the draft.
void read_title(Draft& draft, const Statement& statement);  // statements_stage.cpp
void read_ambient(Draft& draft, const Statement& statement);
void read_meter(Draft& draft, const Statement& statement);
void read_heatsink(Draft& draft, const Statement& statement);
void read_rail(Draft& draft, const Statement& statement);
void read_signal(Draft& draft, const Statement& statement);
void read_socket(Draft& draft, const Statement& statement);

void read_resistor(Draft& draft, const Statement& statement);  // statements_parts.cpp
void read_capacitor(Draft& draft, const Statement& statement);
void read_inductor(Draft& draft, const Statement& statement);
void read_fuse(Draft& draft, const Statement& statement);
void read_link(Draft& draft, const Statement& statement);
void read_lamp(Draft& draft, const Statement& statement);
void read_thermistor(Draft& draft, const Statement& statement);
void read_hold(Draft& draft, const Statement& statement);
void read_load(Draft& draft, const Statement& statement);
void read_feed(Draft& draft, const Statement& statement);     // statements_feed.cpp
void read_trimmer(Draft& draft, const Statement& statement);  // statements_trimmer.cpp

void read_diode(Draft& draft, const Statement& statement);  // statements_devices.cpp
void read_transistor(Draft& draft, const Statement& statement);

void read_type(Draft& draft, const Statement& statement);  // statements_types.cpp

void read_reading(Draft& draft, const Statement& statement);  // statements_readings.cpp
void read_limit(Draft& draft, const Statement& statement);
void read_adjust(Draft& draft, const Statement& statement);
void read_printed(Draft& draft, const Statement& statement);  // statements_printed.cpp

void read_matched(Draft& draft, const Statement& statement);  // statements_groups.cpp
void read_mounted(Draft& draft, const Statement& statement);

}  // namespace idlepoint::language
