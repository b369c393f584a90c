#include "ask.hpp"

#include "report/json_thermal.hpp"
#include "report/thermal_words.hpp"

namespace idlepoint::cli {

std::optional<answers::Setup> stage_for(const std::string& command,
                                        const Given& given,
                                        const std::vector<std::string>& wanted_types) {
  const auto opened = open_stage(command, given, wanted_types);
  if (const auto* trouble = std::get_if<NotOpened>(&opened)) {
    complain(trouble->text);
    return std::nullopt;
  }
  auto setup = set_up(std::get<OpenedStage>(opened));
  if (const auto* trouble = std::get_if<NotOpened>(&setup)) {
    complain(trouble->text);
    return std::nullopt;
  }
  if (const auto* refused = std::get_if<Refused>(&setup)) {
    complain(complaints::render(refused->complaints));
    return std::nullopt;
  }
  return std::get<answers::Setup>(std::move(setup));
}

ExitStatus tell(const answers::Setup& setup, const solve::NotSettled& story) {
  complain(report::text_of(*setup.stage, story, page_of_terminal()));
  return ExitStatus::not_settled;
}

ExitStatus tell(const std::string& command,
                const Given& given,
                const answers::ThermalStory& story) {
  say(given.has("--json") ? report::json_of(command, story)
                          : report::text_of(story, page_of_terminal()));
  return ExitStatus::thermal_trouble;
}

ExitStatus status_of(bool answer_is_good) noexcept {
  return answer_is_good ? ExitStatus::answered : ExitStatus::answer_is_no;
}

}  // namespace idlepoint::cli
