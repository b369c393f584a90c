#include "report/json_writeup.hpp"

#include "report/json_pieces.hpp"
#include "report/writeup_words.hpp"

namespace idlepoint::report {
namespace {

using answers::WrittenReading;

Json taken_value(const WrittenReading& reading, const std::optional<circuit::BenchReading>& taken) {
  if (!taken || !taken->value) return nullptr;
  return reading.unit ? answers::in_own_unit(*taken->value, *reading.unit) : *taken->value;
}

Json written_reading(const WrittenReading& reading) {
  Json object;
  object["name"] = reading.name;
  object["unit"] = reading.unit ? Json(answers::symbol(*reading.unit)) : Json(nullptr);
  object["before"] = taken_value(reading, reading.before);
  object["after"] = taken_value(reading, reading.after);
  object["low"] = low_or_null(reading.expected);
  object["high"] = high_or_null(reading.expected);
  object["is_limit"] = reading.is_limit;
  object["outside_before"] = reading.outside_before;
  object["outside_after"] = reading.outside_after;
  return object;
}

Json written_channel(const answers::WrittenChannel& channel) {
  Json object;
  object["channel"] = channel.channel->name;
  object["readings"] = Json::array();
  for (const auto& reading : channel.readings) {
    object["readings"].push_back(written_reading(reading));
  }
  object["capacitors"] = Json::array();
  for (const auto& tested : channel.capacitors) {
    object["capacitors"].push_back(
        {{"capacitor", tested.name}, {"fate", fate_in_words(*channel.channel, tested)}});
  }
  return object;
}

}  // namespace

std::string json_of(const answers::Writeup& writeup, const std::string& written) {
  Json object;
  object["command"] = "writeup";
  object["stage"] = writeup.job->title;
  object["written"] = written;
  object["channels"] = Json::array();
  for (const auto& channel : writeup.channels) {
    object["channels"].push_back(written_channel(channel));
  }
  object["found"] = found_words(writeup);
  object["done"] = done_words(writeup);
  object["not_done"] = not_done_words(writeup);
  object["advice"] = advice_words(writeup);
  object["cautions"] = caution_words();
  object["diagnose"] = diagnose_commands(writeup);
  object["warnings"] = Json::array();
  return printed(object);
}

}  // namespace idlepoint::report
