#include "report/json_capacitor.hpp"

#include "report/capacitor_words.hpp"
#include "report/json_pieces.hpp"

namespace idlepoint::report {
namespace {

using answers::CapacitorLeaks;
using answers::LeakyCapacitor;
using answers::TestedCapacitor;

constexpr double one_microampere = 1e-6;

Json json_limit(const answers::CapacitorLimit& limit) {
  Json object;
  object["what"] = quantity_in_words(limit.what);
  object["measured"] = limit.measured;
  object["limit"] = limit.limit;
  if (limit.low) object["limit_low"] = *limit.low;
  if (limit.high) object["limit_high"] = *limit.high;
  object["ok"] = limit.ok;
  object["decides"] = !limit.ok || limit.worth == answers::Worth::decides;
  return object;
}

Json json_effects(const CapacitorLeaks& leaks, const LeakyCapacitor& capacitor) {
  Json list = Json::array();
  for (const auto& effect : capacitor.effects) {
    const auto& reading = leaks.readings[effect.reading];
    list.push_back({{"reading", reading.name},
                    {"unit", answers::symbol(reading.unit)},
                    {"per_uA", effect.per_a * one_microampere},
                    {"leakage_that_matters_A", number_or_null(effect.leakage_that_matters_a)},
                    {"shift", effect.shift},
                    {"why", why_it_matters(leaks, effect)}});
  }
  return list;
}

void add_place(Json& object, const CapacitorLeaks& leaks, const LeakyCapacitor& capacitor) {
  object["volts_V"] = capacitor.volts;
  object["can_leak"] = capacitor.can_leak;
  object["leakage_that_matters_A"] = number_or_null(answers::leakage_that_matters_a(capacitor));
  object["effects"] = json_effects(leaks, capacitor);
}

void add_test(Json& object, const TestedCapacitor& tested, const CapacitorLeaks* leaks) {
  object["capacitor"] = tested.name.empty() ? Json(nullptr) : Json(tested.name);
  object["verdict"] = nullptr;
  object["limits"] = Json::array();
  if (tested.verdict) {
    if (!tested.verdict->limits.empty()) {
      object["verdict"] = tested.verdict->keep ? "keep" : "replace";
    }
    for (const auto& limit : tested.verdict->limits) object["limits"].push_back(json_limit(limit));
  }
  if (leaks != nullptr && tested.place) {
    add_place(object, *leaks, leaks->capacitors[*tested.place]);
  } else {
    object["effects"] = Json::array();
  }
}

Json capacitor_opening(const CapacitorLeaks* leaks) {
  if (leaks != nullptr) return json_opening("capacitor", *leaks->stage);
  Json object;
  object["command"] = "capacitor";
  object["stage"] = nullptr;
  return object;
}

}  // namespace

std::string json_of(const TestedCapacitor& tested, const CapacitorLeaks* leaks) {
  Json object = capacitor_opening(leaks);
  if (leaks != nullptr) {
    object["conditions"] = json_conditions(*leaks->stage, leaks->conditions, leaks->changes);
  }
  add_test(object, tested, leaks);
  object["warnings"] = leaks == nullptr ? std::vector<std::string>{} : leaks->warnings;
  if (tested.verdict) {
    for (const auto& text : what_is_not_shown(*tested.verdict)) object["warnings"].push_back(text);
  }
  return printed(object);
}

std::string json_of(const CapacitorLeaks& leaks) {
  Json object = capacitor_opening(&leaks);
  object["conditions"] = json_conditions(*leaks.stage, leaks.conditions, leaks.changes);
  object["verdict"] = nullptr;
  object["capacitors"] = Json::array();
  for (const auto& capacitor : leaks.capacitors) {
    Json one;
    one["capacitor"] = leaks.stage->at(capacitor.part).name;
    add_place(one, leaks, capacitor);
    object["capacitors"].push_back(std::move(one));
  }
  object["warnings"] = leaks.warnings;
  return printed(object);
}

std::string json_of(const circuit::Job& job, const std::vector<ChannelTests>& channels) {
  Json object;
  object["command"] = "capacitor";
  object["stage"] = job.title;
  bool keep = true;
  Json tests = Json::array();
  for (const auto& channel : channels) {
    keep = keep && answers::all_keep(channel.tested);
    for (const auto& tested : channel.tested) {
      Json one;
      one["channel"] = channel.channel->name;
      add_test(one, tested, channel.leaks);
      tests.push_back(std::move(one));
    }
  }
  object["verdict"] = keep ? "keep" : "replace";
  object["tests"] = std::move(tests);
  object["warnings"] = Json::array();
  return printed(object);
}

}  // namespace idlepoint::report
