#include "report/html_writeup.hpp"

#include <fmt/format.h>

#include "report/capacitor_words.hpp"
#include "report/html_text.hpp"
#include "report/page_files.hpp"
#include "report/writeup_words.hpp"

namespace idlepoint::report {
namespace {

using answers::TestedCapacitor;
using answers::WrittenChannel;
using answers::WrittenReading;

// An element around text; `inner` is HTML already.
std::string around(const char* tag, const std::string& inner) {
  return fmt::format("<{}>{}</{}>\n", tag, inner, tag);
}

std::string page_heading(const char* text) { return around("h2", html_text(text)); }

std::string page_list(const Sentences& sentences) {
  std::string items;
  for (const std::string& sentence : sentences) items += around("li", html_text(sentence));
  return around("ul", "\n" + items);
}

std::string page_section(const char* title, const Sentences& sentences) {
  return page_heading(title) + page_list(sentences);
}

// A figure and its unit stay on one line.
std::string figures_text(const std::string& text) {
  std::string page;
  for (const char letter : html_text(text)) {
    const bool behind_a_digit = !page.empty() && page.back() >= '0' && page.back() <= '9';
    if (letter == ' ' && behind_a_digit) {
      page += "&nbsp;";
    } else {
      page += letter;
    }
  }
  return page;
}

std::string page_cell(const char* head, const std::string& text, bool is_outside) {
  const std::string shown =
      is_outside ? "<strong>" + figures_text(text) + " (outside)</strong>" : figures_text(text);
  return fmt::format("<td data-head=\"{}\">{}</td>", html_text(head), shown);
}

std::string reading_row(const WrittenChannel& channel, const WrittenReading& reading) {
  const std::string meaning = meaning_in_words(channel.channel->circuit, reading);
  std::string row = fmt::format("<th scope=\"row\">{} <span class=\"small\">{}</span></th>",
                                html_text(meaning),
                                html_text(reading.name));
  row += page_cell("As it came", taken_in_words(reading, reading.before), reading.outside_before);
  row += page_cell("As it left", taken_in_words(reading, reading.after), reading.outside_after);
  row += page_cell("Should read", expected_in_words(reading), false);
  return around("tr", row);
}

std::string page_readings(const WrittenChannel& channel) {
  if (channel.readings.empty()) return around("p", "Nothing was measured.");
  std::string rows;
  for (const WrittenReading& reading : channel.readings) rows += reading_row(channel, reading);
  const std::string head =
      "<tr><th scope=\"col\">What</th><th scope=\"col\">As it came</th>"
      "<th scope=\"col\">As it left</th><th scope=\"col\">Should read</th></tr>";
  return around("table", "<thead>" + head + "</thead>\n<tbody>\n" + rows + "</tbody>");
}

std::string page_all_readings(const answers::Writeup& writeup) {
  std::string channels;
  for (const WrittenChannel& channel : writeup.channels) {
    const std::string name = channel_heading(channel);
    channels += around(
        "section", (name.empty() ? "" : around("h3", html_text(name))) + page_readings(channel));
  }
  std::string text = page_heading("Readings");
  text += fmt::format("<div class=\"channels{}\">\n{}</div>\n",
                      writeup.channels.size() == 2 ? " two" : "",
                      channels);
  for (const std::string& sentence : where_figures_come_from(writeup)) {
    text += "<p class=\"small\">" + html_text(sentence) + "</p>\n";
  }
  return text;
}

// "ESR 3R9 at 120 Hz (at most 1R33 at 120 Hz)", what is beyond its limit in bold.
std::string measured_line(const answers::CapacitorLimit& limit,
                          const answers::CapacitorFigures& figures) {
  const std::string shown =
      figures_text(quantity_in_words(limit.what) + " " + measured_in_words(limit, figures));
  return (limit.ok ? shown : "<strong>" + shown + "</strong>") + " (" +
         figures_text(limit_in_words(limit, figures)) + ")";
}

std::string capacitor_rows(const WrittenChannel& channel) {
  std::string rows;
  for (const TestedCapacitor& tested : channel.capacitors) {
    std::string measured;
    std::string name = html_text(tested.name);
    if (tested.verdict) {
      name +=
          " <span class=\"small\">" + html_text(printed_on(tested.verdict->figures)) + "</span>";
      for (const auto& limit : tested.verdict->limits) {
        measured += measured_line(limit, tested.verdict->figures) + "<br>";
      }
    }
    std::string row = "<th scope=\"row\">" + name + "</th>";
    row += "<td data-head=\"Measured\">" + measured + "</td>";
    row += page_cell("So", fate_in_words(*channel.channel, tested), false);
    rows += around("tr", row);
  }
  return rows;
}

std::string capacitors_section(const answers::Writeup& writeup) {
  std::string text;
  for (const WrittenChannel& channel : writeup.channels) {
    if (channel.capacitors.empty()) continue;
    const std::string name = channel_heading(channel);
    const std::string caption = name.empty() ? "" : around("caption", html_text(name));
    const std::string head =
        "<tr><th scope=\"col\">Capacitor</th><th scope=\"col\">Measured (and its limit)</th>"
        "<th scope=\"col\">So</th></tr>";
    text += around(
        "table",
        caption + "<thead>" + head + "</thead>\n<tbody>\n" + capacitor_rows(channel) + "</tbody>");
  }
  if (text.empty()) return {};
  return page_heading("Capacitors that were tested") + "<div class=\"capacitors\">\n" + text +
         "</div>\n<p class=\"small\">A capacitor dries out and begins to leak with age. The limits "
         "are "
         "those of new ones, as makers print them.</p>\n";
}

std::string page_asked(const circuit::Job& job) {
  std::string text;
  for (const std::string& asked : job.owner_asked) {
    text += around("blockquote", html_text(asked));
  }
  if (!text.empty()) text = around("p", "You asked:") + text;
  return text + around("p", html_text(scope_in_words(job.scope)));
}

}  // namespace

std::string html_of(const answers::Writeup& writeup) {
  const circuit::Job& job = *writeup.job;
  const std::string title = html_text(job.title.empty() ? "What was done" : job.title);
  std::string page = "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
  page += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
  page += around("title", title);
  page += fmt::format("<style>\n{}</style>\n</head>\n<body>\n<main>\n", style_of_the_writeup());
  page += around("h1", title);
  page += page_asked(job);
  page += page_section("What was found", found_words(writeup));
  page += page_section("What was done", done_words(writeup));
  page += page_all_readings(writeup);
  page += capacitors_section(writeup);
  page += page_section("What was not done, and why", not_done_words(writeup));
  page += page_section("Advice", advice_words(writeup));
  page += "<div class=\"cautions\">\n" + page_section("Please mind", caution_words()) + "</div>\n";
  page +=
      "<div class=\"sign\"><span class=\"small\">Electrical safety tested, date</span>"
      "<span class=\"small\">By whom</span></div>\n";
  return page + "</main>\n</body>\n</html>\n";
}

}  // namespace idlepoint::report
