#include "report/text_writeup.hpp"

#include <fmt/format.h>

#include "report/writeup_words.hpp"

namespace idlepoint::report {

std::string writeup_written(const answers::Writeup& writeup,
                            const std::string& path,
                            const Page& page) {
  std::string text = fold(fmt::format("{}. Written to {}: open it in a browser, or print it.",
                                      writeup.job->title.empty() ? "The job" : writeup.job->title,
                                      path),
                          page);
  text += "\nFound:\n";
  for (const auto& sentence : found_words(writeup)) text += fold(sentence, page, 2, 4);
  text += "Done:\n";
  for (const auto& sentence : done_words(writeup)) text += fold(sentence, page, 2, 4);
  const Sentences commands = diagnose_commands(writeup);
  if (commands.empty()) return text;
  text += "\n" + fold("Something reads outside as it was left. What may be wrong:", page);
  for (const auto& command : commands) text += "  " + command + "\n";
  return text;
}

}  // namespace idlepoint::report
