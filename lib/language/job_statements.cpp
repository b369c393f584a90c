#include "language/job_statements.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "language/fields.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {
namespace {

using circuit::Job;
using circuit::Scope;

constexpr auto job_table = std::to_array<JobStatementFacts>({
    {"job", read_job_title, nullptr},
    {"owner_asked", read_owner_asked, nullptr},
    {"scope", read_scope, nullptr},
    {"stage_file", nullptr, nullptr},
    {"channel", nullptr, nullptr},
    {"measured", nullptr, read_measured},
    {"replaced", nullptr, read_replaced},
    {"capacitor_test", nullptr, read_capacitor_test},
    {"sound", nullptr, read_sound},
    {"note", read_job_note, read_channel_note},
});

}  // namespace

std::span<const JobStatementFacts> all_job_statements() noexcept { return job_table; }

const JobStatementFacts* find_job_statement(std::string_view keyword) noexcept {
  const auto found = std::find_if(job_table.begin(), job_table.end(), [keyword](const auto& facts) {
    return facts.keyword == keyword;
  });
  return found == job_table.end() ? nullptr : &*found;
}

void complain_of_no_job_statement(Draft& draft, const Statement& statement) {
  const Word& keyword = statement.keyword();
  if (find_statement(keyword.text) != nullptr) {
    complain(draft,
             "statement-not-here",
             keyword,
             quote(keyword.text) + " belongs in a stage file",
             "A job file says what was found on the bench; a stage file what the schematic shows.",
             "Move it to the stage file.");
    return;
  }
  std::vector<std::string> keywords;
  std::string all;
  for (const JobStatementFacts& facts : job_table) {
    keywords.emplace_back(facts.keyword);
    all += (all.empty() ? "`" : ", `") + keywords.back() + "`";
  }
  const std::string near = nearest_among(draft, keyword.text, keywords);
  complain(draft,
           "unknown-statement",
           keyword,
           quote(keyword.text) + " is no statement of a job",
           "",
           near.empty() ? "A job's statements are " + all + "." : near);
}

void read_job_title(Draft& draft, const Statement& statement, Job& job) {
  if (!has_words(draft, statement, 2, 2, "job \"TITLE\"")) return;
  Pairs(draft, statement).finish();
  if (say(draft, "job", statement.keyword(), 0, "`job`").is_new) {
    job.title = statement.words[1].text;
  }
}

void read_owner_asked(Draft& draft, const Statement& statement, Job& job) {
  if (!has_words(draft, statement, 2, 2, "owner_asked \"TEXT\"")) return;
  Pairs(draft, statement).finish();
  job.owner_asked.push_back(statement.words[1].text);
}

void read_scope(Draft& draft, const Statement& statement, Job& job) {
  if (!has_words(draft, statement, 2, 2, "scope repair")) return;
  Pairs(draft, statement).finish();
  const bool is_new = say(draft, "scope", statement.keyword(), 0, "`scope`").is_new;
  const Word& word = statement.words[1];
  if (word.text == "repair") {
    if (is_new) job.scope = Scope::repair;
  } else if (word.text == "service") {
    if (is_new) job.scope = Scope::service;
  } else if (word.text == "restoration") {
    if (is_new) job.scope = Scope::restoration;
  } else {
    complain(draft,
             "choice-expected",
             word,
             quote(word.text) + " is no scope of a job",
             "",
             "Write `repair`, `service` or `restoration`.");
  }
}

void read_job_note(Draft& draft, const Statement& statement, Job& job) {
  if (!has_words(draft, statement, 2, 2, "note \"TEXT\"")) return;
  Pairs(draft, statement).finish();
  job.notes.push_back(statement.words[1].text);
}

}  // namespace idlepoint::language
