#include "report/json_warmup.hpp"

#include "report/json_pieces.hpp"
#include "report/json_thermal.hpp"
#include "report/text_warmup.hpp"

namespace idlepoint::report {
namespace {

using answers::Course;
using answers::Disturbed;
using answers::Trace;
using answers::Warmup;

Json json_traces(const std::vector<Trace>& traces) {
  Json object = Json::object();
  for (const auto& trace : traces) object[trace.name] = trace.values;
  return object;
}

void add_course(Json& object, const Course& course) {
  object["times_s"] = course.times_s;
  object["readings"] = json_traces(course.readings);
  object["heatsinks_C"] = json_traces(course.heatsinks);
}

/// {"readings": {NAME: ..}, "heatsinks": {NAME: ..}} of one value a quantity.
template <class Value>
Json json_by_name(const Course& course, Value&& value) {
  Json object;
  object["readings"] = Json::object();
  object["heatsinks"] = Json::object();
  std::size_t quantity = 0;
  for (const auto& trace : course.readings) object["readings"][trace.name] = value(quantity++);
  for (const auto& trace : course.heatsinks) object["heatsinks"][trace.name] = value(quantity++);
  return object;
}

Json json_disturbed(const Warmup& answer, const Disturbed& disturbed) {
  Json object;
  if (disturbed.extra_w.empty()) {
    object["room_step_K"] = disturbed.room_step_k;
  } else {
    for (std::size_t k = 0; k < disturbed.extra_w.size(); ++k) {
      object["extra_W"][answer.stage->heatsinks[k].name] = disturbed.extra_w[k];
    }
  }
  object["lasts_s"] = disturbed.lasts_s;
  add_course(object, disturbed.course);
  object["farthest"] = json_by_name(disturbed.course, [&](std::size_t quantity) {
    Json swing;
    swing["value"] = disturbed.swings[quantity].farthest;
    swing["at_s"] = disturbed.swings[quantity].at_s;
    return swing;
  });
  object["back_after_s"] = json_by_name(disturbed.course, [&](std::size_t quantity) {
    return number_or_null(disturbed.back_s[quantity]);
  });
  return object;
}

Json json_trouble(const answers::WarmupTrouble& trouble) {
  using During = answers::WarmupTrouble::During;
  Json object = json_runaway(trouble.story);
  if (trouble.during != During::warm_up || trouble.misses_rest)
    object["advice"] = later_advice(trouble);
  object["during"] = trouble.during == During::warm_up     ? "warm-up"
                     : trouble.during == During::soak      ? "soak"
                     : trouble.during == During::room_step ? "room step"
                                                           : "recovery";
  object["after_s"] = trouble.after_s;
  object["misses_rest"] = trouble.misses_rest;
  return object;
}

}  // namespace

std::string json_of(const Warmup& answer) {
  Json object = json_opening("warmup", *answer.stage);
  object["conditions"] = json_conditions(*answer.stage, answer.conditions, answer.changes);
  if (answer.trouble) {
    object["runaway"] = json_trouble(*answer.trouble);
    object["warnings"] = answer.warnings;
    return printed(object);
  }
  add_course(object, answer.course);
  object["settled_s"] = number_or_null(answer.all_settled_s);
  object["each_settled_s"] = json_by_name(answer.course, [&](std::size_t quantity) {
    return number_or_null(answer.settled_s[quantity]);
  });
  object["stable"] = answer.warm.has_value();
  std::optional<double> loop_gain;
  if (answer.warm) loop_gain = answer.warm->loop_gain();
  object["thermal_loop_gain"] = number_or_null(loop_gain);
  object["thermal_margin"] = loop_gain ? Json(1.0 - *loop_gain) : Json(nullptr);
  object["time_constants_s"] = answer.returns.time_constants_s;
  object["swing_s"] = number_or_null(answer.returns.swing_s);
  if (answer.soak) object["soak"] = json_disturbed(answer, *answer.soak);
  if (answer.room_step) object["room_step"] = json_disturbed(answer, *answer.room_step);
  object["warnings"] = answer.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
