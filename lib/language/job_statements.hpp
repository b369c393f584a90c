// Which words begin a statement of a job file, and what each says of the job or of a channel.
//
// Used by read_job.cpp, and by the stage reader to know a statement that stands in the wrong file.
// Source: docs/language.md, "Job files".
#pragma once

#include <span>
#include <string_view>

#include "circuit/job.hpp"
#include "language/draft.hpp"
#include "language/lexer.hpp"

namespace idlepoint::language {

struct JobStatementFacts {
  std::string_view keyword;
  /// Of the job as a whole; null where the statement belongs to a channel.
  void (*read_of_job)(Draft&, const Statement&, circuit::Job&) = nullptr;
  /// Of a channel, whose names the draft knows. Null of both: `channel` and `stage_file`, which
  /// read_job.cpp takes itself.
  void (*read_of_channel)(Draft&, const Statement&, circuit::Channel&) = nullptr;
};

[[nodiscard]] std::span<const JobStatementFacts> all_job_statements() noexcept;

/// Null for an unknown word.
[[nodiscard]] const JobStatementFacts* find_job_statement(std::string_view keyword) noexcept;

/// Complains of a statement that no job file has: one of a stage file, or an unknown one.
void complain_of_no_job_statement(Draft& draft, const Statement& statement);

void read_job_title(Draft& draft, const Statement& statement, circuit::Job& job);
void read_owner_asked(Draft& draft, const Statement& statement, circuit::Job& job);
void read_scope(Draft& draft, const Statement& statement, circuit::Job& job);
void read_job_note(Draft& draft, const Statement& statement, circuit::Job& job);

void read_measured(Draft& draft, const Statement& statement, circuit::Channel& channel);
void read_replaced(Draft& draft, const Statement& statement, circuit::Channel& channel);
void read_capacitor_test(Draft& draft, const Statement& statement, circuit::Channel& channel);
void read_sound(Draft& draft, const Statement& statement, circuit::Channel& channel);
void read_channel_note(Draft& draft, const Statement& statement, circuit::Channel& channel);

}  // namespace idlepoint::language
