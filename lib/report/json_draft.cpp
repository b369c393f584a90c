#include "report/json_draft.hpp"

#include "report/json_pieces.hpp"

namespace idlepoint::report {
namespace {

Json draft_opening() {
  Json object;
  object["command"] = "draft";
  object["stage"] = nullptr;
  return object;
}

}  // namespace

std::string json_of(const std::vector<answers::Draft>& drafts) {
  Json object = draft_opening();
  object["drafts"] = Json::array();
  for (const auto& draft : drafts) {
    object["drafts"].push_back({{"name", draft.name},
                                {"kind", draft.kind},
                                {"on_the_drawing", draft.on_the_drawing},
                                {"blanks", draft.blanks.size()}});
  }
  object["warnings"] = Json::array();
  return printed(object);
}

std::string json_of(const answers::Draft& draft, const std::string& written) {
  Json object = draft_opening();
  object["draft"] = draft.name;
  object["blanks"] = Json::array();
  for (const auto& blank : draft.blanks) object["blanks"].push_back(blank.text);
  if (written.empty()) {
    object["text"] = draft.text;
  } else {
    object["written"] = written;
  }
  object["warnings"] = Json::array();
  return printed(object);
}

}  // namespace idlepoint::report
