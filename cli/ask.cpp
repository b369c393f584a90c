#include "ask.hpp"

#include <fmt/format.h>

#include "answers/preset.hpp"
#include "report/json_thermal.hpp"
#include "report/thermal_words.hpp"

namespace idlepoint::cli {

std::optional<answers::Setup> stage_for(const std::string& command,
                                        const Given& given,
                                        const std::vector<std::string>& wanted_types) {
  return setup_from(open_stage(command, given, wanted_types));
}

std::optional<answers::Setup> setup_from(const std::variant<OpenedStage, NotOpened>& opened) {
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

std::optional<Trouble> low_rails(const std::string& command, const answers::Setup& setup) {
  constexpr double rounding = 1e-9;
  if (setup.conditions.rails >= answers::lowest_rails_for_a_preset - rounding) return std::nullopt;
  return Trouble{fmt::format("`{}` judges on working rails, and --rails sets them lower", command),
                 "Leave --rails out, or give 95 % or more: what holds on low rails says nothing of "
                 "full ones."};
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
