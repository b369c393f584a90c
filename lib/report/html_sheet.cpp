#include "report/html_sheet.hpp"

#include "report/json_sheet.hpp"
#include "report/page_files.hpp"

namespace idlepoint::report {

std::string html_of(const std::vector<answers::SheetChannel>& channels) {
  const std::string_view page = page_of_the_sheet();
  const std::size_t mark = page.find(answers_mark);
  std::string html(page.substr(0, mark));
  html += json_of(channels);
  html += page.substr(mark + answers_mark.size());
  return html;
}

}  // namespace idlepoint::report
