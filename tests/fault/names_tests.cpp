// Oracle: the laws of circuits know no names and no order; nor may what is said of them.
//
// A stage is written out, every part and every point gets another name, its statements are
// shuffled, and the chain of the same fault must come out the same, the names put back.
#include <algorithm>
#include <cctype>
#include <map>
#include <random>
#include <sstream>

#include "answers/asked.hpp"
#include "fault/explained.hpp"
#include "language/write_stage.hpp"
#include "report/fault_words.hpp"

namespace idlepoint::tests {
namespace {

using Names = std::map<std::string, std::string>;
using Sentences = std::vector<std::string>;

/// Parts as `Y1`, `Y2`..., points as `n1`, `n2`..., numbered in an order of the generator's.
Names new_names(const circuit::Circuit& circuit, std::mt19937_64& bits) {
  std::vector<std::string> parts;
  std::vector<std::string> nodes;
  for (const auto& part : circuit.parts) parts.push_back(part.name);
  for (std::size_t index = 1; index < circuit.nodes.size(); ++index) {
    nodes.push_back(circuit.nodes[index].name);
  }
  std::shuffle(parts.begin(), parts.end(), bits);
  std::shuffle(nodes.begin(), nodes.end(), bits);
  Names names;
  for (const auto& part : parts) names[part] = "Y" + std::to_string(100 + names.size());
  for (const auto& node : nodes) names[node] = "n" + std::to_string(100 + names.size());
  return names;
}

bool is_of_a_name(char letter) {
  return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_';
}

/// Every whole word that is a name gets its new one; words in quotes and keys stay.
std::string renamed(const std::string& text, const Names& names) {
  std::string out;
  bool is_quoted = false;
  for (std::size_t at = 0; at < text.size();) {
    if (text[at] == '"') is_quoted = !is_quoted;
    if (!is_of_a_name(text[at]) || is_quoted) {
      out += text[at++];
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && is_of_a_name(text[end])) ++end;
    const std::string word = text.substr(at, end - at);
    const bool is_key = end < text.size() && text[end] == '=';
    const auto found = names.find(word);
    out += found == names.end() || is_key ? word : found->second;
    at = end;
  }
  return out;
}

std::vector<std::string> statements_of(const std::string& text) {
  std::vector<std::string> statements;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.empty()) continue;
    if (line.front() == ' ') {
      statements.back() += "\n" + line;
    } else {
      statements.push_back(line);
    }
  }
  return statements;
}

/// The first word of a statement is the language's, whatever the names are.
std::string renamed_statement(const std::string& statement, const Names& names) {
  if (statement.starts_with("type ") || statement.starts_with("stage ")) return statement;
  const std::size_t blank = statement.find(' ');
  return statement.substr(0, blank) + renamed(statement.substr(blank), names);
}

circuit::CheckedCircuit disguised(const circuit::CheckedCircuit& stage,
                                  const Names& names,
                                  std::mt19937_64& bits) {
  auto statements = statements_of(language::write_stage(*stage));
  std::shuffle(statements.begin(), statements.end(), bits);
  std::string text;
  for (const auto& statement : statements) text += renamed_statement(statement, names) + "\n";
  return drawn(text).stage;
}

/// Parts that count alike have no order: the words of a sentence, sorted, and without "each".
std::string sorted_words(const std::string& sentence) {
  std::vector<std::string> words;
  std::istringstream stream(sentence);
  for (std::string word; stream >> word;) {
    if (word.back() == ',' || word.back() == ':') word.pop_back();
    words.push_back(word);
  }
  std::sort(words.begin(), words.end());
  std::string text;
  for (const auto& word : words) text += word + " ";
  return text;
}

/// Its words but for those with letters and figures in them, which are names.
std::string without_names(const std::string& sentence) {
  std::istringstream stream(sentence);
  std::string text;
  for (std::string word; stream >> word;) {
    const bool has_letter = std::any_of(
        word.begin(), word.end(), [](unsigned char sign) { return std::isalpha(sign) != 0; });
    const bool has_figure = std::any_of(
        word.begin(), word.end(), [](unsigned char sign) { return std::isdigit(sign) != 0; });
    if (!(has_letter && has_figure)) text += word + " ";
  }
  return text;
}

/// Nor have steps that say the same of two twins.
void sort_twins(Sentences& sentences) {
  for (std::size_t pass = 1; pass < sentences.size(); ++pass) {
    for (std::size_t k = 1; k < sentences.size(); ++k) {
      const bool are_twins = without_names(sentences[k - 1]) == without_names(sentences[k]);
      if (are_twins && sentences[k] < sentences[k - 1]) std::swap(sentences[k - 1], sentences[k]);
    }
  }
}

Sentences chain_of(const answers::Fault& answer, const Names& back) {
  Sentences sentences;
  for (const auto& step : answer.chain) {
    sentences.push_back(sorted_words(renamed(report::step_in_words(answer, step), back)));
  }
  sort_twins(sentences);
  return sentences;
}

void check_names(const std::string& name, const std::vector<std::string>& faults) {
  std::mt19937_64 bits(2026);
  const auto stage = cold_demo(name);
  const Names names = new_names(*stage, bits);
  Names back;
  for (const auto& [old_name, new_name] : names) back[new_name] = old_name;
  const auto other = disguised(stage, names, bits);
  for (const auto& fault : faults) {
    CAPTURE(name, fault, renamed(fault, names));
    const auto mine = explained(stage, {required(language::read_fault(fault, *stage))});
    const auto theirs =
        explained(other, {required(language::read_fault(renamed(fault, names), *other))});
    REQUIRE(mine.has_value() == theirs.has_value());
    if (mine) CHECK(chain_of(*mine, {}) == chain_of(*theirs, back));
  }
}

}  // namespace

TEST_CASE("A chain of cause does not depend on names or on the order of the file",
          "[fault][identity]") {
  check_names("quarry-30w",
              {"D601 open",
               "Q605 open",
               "R611 open",
               "Q606 short c-e",
               "C604 leaks 10k",
               "VR602 wiper open",
               "Q603 open"});
  check_names(
      "cairnfell-120w",
      {"R511 open", "Q503 open", "Q504 open", "Q501 short c-e", "R533 open", "Q517 short b-e"});
  check_names("wherry-25w",
              {"R603 open", "C607 leaks 100R", "D601 short", "C601 leaks 47k", "Q602 short c-e"});
  check_names("tarn-70w",
              {"Q807 short d-s", "VR801 open a", "R815 open", "D801 short", "R811 is 1R"});
  check_names("corrie-70w",
              {"Q405 open", "bridge hi lo", "rail vpos lost", "R410 open", "Q401 open b"});
}

TEST_CASE("No open and no short of a stage is explained by names or by order",
          "[fault][identity][heavy]") {
  const std::string name = GENERATE("bramble-8w",
                                    "cairnfell-120w",
                                    "corrie-70w",
                                    "drystone-40w",
                                    "quarry-30w",
                                    "sedge-28w",
                                    "spinney-45w",
                                    "tarn-70w",
                                    "teasel-8w",
                                    "wherry-25w");
  const auto stage = cold_demo(name);
  std::vector<std::string> faults;
  for (const auto& edit : circuit::every_open_and_short(*stage)) {
    faults.push_back(circuit::write_fault(*stage, edit));
  }
  check_names(name, faults);
}

}  // namespace idlepoint::tests
