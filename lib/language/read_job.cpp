#include "language/read_job.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "language/fields.hpp"
#include "language/job_statements.hpp"
#include "language/paths.hpp"

namespace idlepoint::language {
namespace {

using circuit::Channel;
using circuit::Job;

/// A channel in the making: its statements wait until its stage file has been read.
struct ChannelText {
  std::optional<Word> name;
  std::optional<Word> stage_file;
  std::vector<const Statement*> statements;
};

struct JobText {
  Draft draft;
  Job job;
  const ReadOptions& options;
  std::vector<ChannelText> channels{};
  ChannelText before{};  ///< What stands before the first channel.
  bool in_a_channel = false;
  std::size_t current = 0;

  ChannelText& here() { return in_a_channel ? channels[current] : before; }
};

// Goes on with a channel that was named before, or begins one.
void begin_channel(JobText& text, const Statement& statement) {
  if (!has_words(text.draft, statement, 2, 2, "channel NAME")) return;
  Pairs(text.draft, statement).finish();
  const Word& name = statement.words[1];
  if (!is_good_name(text.draft, name)) return;
  const auto known =
      std::find_if(text.channels.begin(), text.channels.end(), [&](const ChannelText& channel) {
        return channel.name->text == name.text;
      });
  if (known == text.channels.end() && text.channels.size() == most_channels) {
    complain(text.draft,
             "out-of-range",
             name,
             "a job has up to " + std::to_string(most_channels) + " channels",
             "",
             "Write another job file for the others.");
    return;
  }
  text.current = static_cast<std::size_t>(known - text.channels.begin());
  text.in_a_channel = true;
  if (known == text.channels.end())
    text.channels.push_back({.name = name, .stage_file = {}, .statements = {}});
}

void take_stage_file(JobText& text, const Statement& statement) {
  if (!has_words(text.draft, statement, 2, 2, "stage_file \"FILE\"")) return;
  Pairs(text.draft, statement).finish();
  const std::string whose = text.in_a_channel ? text.here().name->text : "all channels";
  const Saying saying = say(
      text.draft, "stage_file " + whose, statement.keyword(), 0, "the `stage_file` of " + whose);
  if (saying.is_new) text.here().stage_file = statement.words[1];
}

void take(JobText& text, const Statement& statement) {
  const std::string& keyword = statement.keyword().text;
  const JobStatementFacts* facts = find_job_statement(keyword);
  if (facts == nullptr) {
    complain_of_no_job_statement(text.draft, statement);
  } else if (keyword == "channel") {
    begin_channel(text, statement);
  } else if (keyword == "stage_file") {
    take_stage_file(text, statement);
  } else if (facts->read_of_channel == nullptr ||
             (facts->read_of_job != nullptr && !text.in_a_channel)) {
    facts->read_of_job(text.draft, statement, text.job);
  } else {
    text.here().statements.push_back(&statement);
  }
}

// A job that parts no channels is one channel; in another, each reading belongs to one.
void settle_channels(JobText& text) {
  if (text.channels.empty()) {
    text.channels.push_back({.name = {}, .stage_file = {}, .statements = text.before.statements});
    return;
  }
  for (const Statement* statement : text.before.statements) {
    complain(text.draft,
             "statement-not-here",
             statement->keyword(),
             quote(statement->keyword().text) + " stands before the first `channel`",
             "It belongs to one of the channels.",
             "Move it below the `channel` that it is about.");
  }
}

void complain_of_no_stage_file(JobText& text, const ChannelText& channel) {
  const complaints::Place whole{
      .file = text.job.file, .line = 0, .column = 0, .line_text = {}, .remark = {}};
  complain(text.draft,
           "no-stage-file",
           {channel.name ? place_of(*channel.name) : whole},
           channel.name ? "channel " + quote(channel.name->text) + " names no stage file"
                        : "the job names no stage file",
           "What was measured says something only beside the drawing.",
           "Write `stage_file \"FILE\"`; before the first `channel` it holds for all.");
}

// The types that a channel's `replaced` statements name.
std::vector<std::string> types_replaced(const ChannelText& channel) {
  std::vector<std::string> names;
  for (const Statement* statement : channel.statements) {
    if (statement->keyword().text != "replaced") continue;
    for (const Pair& pair : statement->pairs) {
      if (pair.key.text == "type") names.push_back(pair.value.text);
    }
  }
  return names;
}

void append(complaints::Complaints& all, const complaints::Complaints& some) {
  all.insert(all.end(), some.begin(), some.end());
}

// The text of the stage file that `word` names, and its path.
struct Named {
  std::string path;
  std::string text;
};

std::optional<Named> load(JobText& text, const Word& word) {
  auto inside = path_inside("", word.text, "job");
  if (const auto* refused = std::get_if<PathRefused>(&inside)) {
    complain(text.draft,
             "path-refused",
             word,
             quote(word.text) + " " + refused->words,
             "A job reads files of its own folder and of the folders in it, nothing else.",
             "Put the stage file beside the job file and write its name.");
    return std::nullopt;
  }
  const std::string path = folder_of(text.job.file) + std::get<std::string>(inside);
  FileText file = text.options.files(path);
  if (const auto* trouble = std::get_if<FileTrouble>(&file)) {
    complain(text.draft,
             "file-unreadable",
             word,
             quote(path) + " " + trouble->words,
             "",
             "A path is written from the file it stands in.");
    return std::nullopt;
  }
  return Named{path, std::get<std::string>(std::move(file))};
}

// A draft that knows the names of the channel's drawing; without one, no name is complained of.
Draft draft_of_channel(JobText& text, const ChannelText& written, Channel& channel) {
  Draft nothing;
  nothing.base_is_missing = true;
  nothing.types_are_missing = true;
  const auto& word = written.stage_file ? written.stage_file : text.before.stage_file;
  if (!word) {
    complain_of_no_stage_file(text, written);
    return nothing;
  }
  const auto named = load(text, *word);
  if (!named) return nothing;
  ReadOptions options = text.options;
  for (std::string& name : types_replaced(written)) {
    options.types_if_known.push_back(std::move(name));
  }
  auto stage = read_stage(named->text, named->path, options);
  if (!stage) {
    append(text.draft.complaints, stage.complaints());
    return nothing;
  }
  channel.circuit = stage->circuit;
  channel.warnings = stage->warnings;
  return draft_of(channel.circuit);
}

void read_channel(JobText& text, const ChannelText& written) {
  Channel channel;
  if (written.name) channel.name = written.name->text;
  Draft draft = draft_of_channel(text, written, channel);
  for (const Statement* statement : written.statements) {
    if (draft.complaints.size() > most_complaints) break;
    find_job_statement(statement->keyword().text)->read_of_channel(draft, *statement, channel);
  }
  append(text.draft.complaints, draft.complaints);
  text.job.channels.push_back(std::move(channel));
}

}  // namespace

complaints::Result<Job> read_job(const std::string& text,
                                 const std::string& file_name,
                                 const ReadOptions& options) {
  const SourceText source(file_name, text, 0);
  JobText made{.draft = {}, .job = {}, .options = options};
  made.job.file = file_name;
  const std::vector<Statement> statements = lex(source, made.draft.complaints);
  for (const Statement& statement : statements) {
    if (made.draft.complaints.size() > most_complaints) break;
    take(made, statement);
  }
  settle_channels(made);
  for (const ChannelText& channel : made.channels) read_channel(made, channel);
  auto& complaints = made.draft.complaints;
  complaints::sort_by_place(complaints);
  cap_complaints(complaints);
  if (!complaints.empty()) return std::move(complaints);
  return std::move(made.job);
}

complaints::Result<Job> read_job_file(const std::string& path, const ReadOptions& options) {
  FileText text = options.files(path);
  if (const auto* trouble = std::get_if<FileTrouble>(&text)) return file_trouble(path, *trouble);
  return read_job(std::get<std::string>(text), path, options);
}

}  // namespace idlepoint::language
