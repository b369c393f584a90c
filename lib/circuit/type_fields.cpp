#include "circuit/type_fields.hpp"

#include <array>
#include <cassert>

namespace idlepoint::circuit {
namespace {

using devices::BipolarData;
using devices::DiodeData;
using devices::FetData;
using values::Range;
using values::Unit;

constexpr auto diode_table = std::to_array<TypeField<DiodeData>>({
    {"saturation_current", Unit::ampere, Range::positive, &DiodeData::saturation_current_a},
    {"ideality", Unit::none, Range::positive, &DiodeData::ideality},
    {"series_resistance", Unit::ohm, Range::not_negative, &DiodeData::series_resistance_ohm},
    {"zener_voltage", Unit::volt, Range::positive, &DiodeData::zener_voltage_v},
    {"zener_test_current", Unit::ampere, Range::positive, &DiodeData::zener_test_current_a},
    {"zener_ideality", Unit::none, Range::positive, &DiodeData::zener_ideality},
    {"zener_tempco", Unit::ppm_per_kelvin, Range::any, &DiodeData::zener_tempco_per_k},
    {"temperature_power", Unit::none, Range::any, &DiodeData::temperature_power},
    {"band_gap", Unit::electronvolt, Range::positive, &DiodeData::band_gap_ev},
    {"measured_at", Unit::temperature, Range::positive, &DiodeData::measured_at_k},
});

constexpr auto bipolar_table = std::to_array<TypeField<BipolarData>>({
    {"saturation_current", Unit::ampere, Range::positive, &BipolarData::saturation_current_a},
    {"gain", Unit::none, Range::positive, &BipolarData::gain},
    {"inverse_gain", Unit::none, Range::positive, &BipolarData::inverse_gain},
    {"ideality", Unit::none, Range::positive, &BipolarData::ideality},
    {"inverse_ideality", Unit::none, Range::positive, &BipolarData::inverse_ideality},
    {"early_voltage", Unit::volt, Range::positive, &BipolarData::early_voltage_v},
    {"inverse_early_voltage", Unit::volt, Range::positive, &BipolarData::inverse_early_voltage_v},
    {"knee_current", Unit::ampere, Range::positive, &BipolarData::knee_current_a},
    {"inverse_knee_current", Unit::ampere, Range::positive, &BipolarData::inverse_knee_current_a},
    {"recombination_current",
     Unit::ampere,
     Range::not_negative,
     &BipolarData::recombination_current_a},
    {"recombination_ideality", Unit::none, Range::positive, &BipolarData::recombination_ideality},
    {"collector_recombination_current",
     Unit::ampere,
     Range::not_negative,
     &BipolarData::collector_recombination_current_a},
    {"collector_recombination_ideality",
     Unit::none,
     Range::positive,
     &BipolarData::collector_recombination_ideality},
    {"cutoff_current", Unit::ampere, Range::not_negative, &BipolarData::cutoff_current_a},
    {"cutoff_doubles_every", Unit::kelvin, Range::positive, &BipolarData::cutoff_doubles_every_k},
    {"base_resistance", Unit::ohm, Range::not_negative, &BipolarData::base_resistance_ohm},
    {"collector_resistance",
     Unit::ohm,
     Range::not_negative,
     &BipolarData::collector_resistance_ohm},
    {"emitter_resistance", Unit::ohm, Range::not_negative, &BipolarData::emitter_resistance_ohm},
    {"emitter_base_breakdown_voltage",
     Unit::volt,
     Range::positive,
     &BipolarData::emitter_base_breakdown_voltage_v},
    {"gain_temperature_power", Unit::none, Range::any, &BipolarData::gain_temperature_power},
    {"temperature_power", Unit::none, Range::any, &BipolarData::temperature_power},
    {"band_gap", Unit::electronvolt, Range::positive, &BipolarData::band_gap_ev},
    {"measured_at", Unit::temperature, Range::positive, &BipolarData::measured_at_k},
});

constexpr auto fet_table = std::to_array<TypeField<FetData>>({
    {"threshold_voltage", Unit::volt, Range::any, &FetData::threshold_voltage_v},
    {"current_factor", Unit::ampere_per_volt2, Range::positive, &FetData::current_factor_a_per_v2},
    {"slope_factor", Unit::none, Range::positive, &FetData::slope_factor, Only::mosfet},
    {"drain_slope", Unit::per_volt, Range::not_negative, &FetData::drain_slope_per_v},
    {"source_resistance", Unit::ohm, Range::not_negative, &FetData::source_resistance_ohm},
    {"drain_resistance", Unit::ohm, Range::not_negative, &FetData::drain_resistance_ohm},
    {"threshold_tempco", Unit::volt_per_kelvin, Range::any, &FetData::threshold_tempco_v_per_k},
    {"current_factor_temperature_power",
     Unit::none,
     Range::any,
     &FetData::current_factor_temperature_power},
    {"gate_leakage_current",
     Unit::ampere,
     Range::positive,
     &FetData::gate_leakage_current_a,
     Only::junction_fet},
    {"body_diode", Unit::ampere, Range::not_negative, &FetData::body_diode_a, Only::mosfet},
    {"temperature_power", Unit::none, Range::any, &FetData::temperature_power},
    {"band_gap", Unit::electronvolt, Range::positive, &FetData::band_gap_ev},
    {"measured_at", Unit::temperature, Range::positive, &FetData::measured_at_k},
});

// What every kind has, behind its own voltage and current.
constexpr RatingField max_power{"max_power", Unit::watt, Range::positive, &Ratings::max_power_w};
constexpr RatingField max_junction{"max_junction_temperature",
                                   Unit::temperature,
                                   Range::positive,
                                   &Ratings::max_junction_temperature_k};
constexpr RatingField to_case{"junction_to_case",
                              Unit::kelvin_per_watt,
                              Range::not_negative,
                              &Ratings::junction_to_case_k_per_w};
constexpr RatingField to_ambient{"junction_to_ambient",
                                 Unit::kelvin_per_watt,
                                 Range::not_negative,
                                 &Ratings::junction_to_ambient_k_per_w};
constexpr RatingField transition{
    "transition_frequency", Unit::hertz, Range::positive, &Ratings::transition_frequency_hz};

constexpr RatingField voltage(std::string_view name) {
  return {name, Unit::volt, Range::positive, &Ratings::max_voltage_v};
}
constexpr RatingField current(std::string_view name) {
  return {name, Unit::ampere, Range::positive, &Ratings::max_current_a};
}

constexpr auto diode_ratings = std::to_array<RatingField>({voltage("max_reverse_voltage"),
                                                           current("max_forward_current"),
                                                           max_power,
                                                           max_junction,
                                                           to_case,
                                                           to_ambient,
                                                           transition});
constexpr auto bipolar_ratings =
    std::to_array<RatingField>({voltage("max_collector_emitter_voltage"),
                                current("max_collector_current"),
                                {"max_base_emitter_voltage",
                                 Unit::volt,
                                 Range::positive,
                                 &Ratings::max_base_emitter_voltage_v},
                                max_power,
                                max_junction,
                                to_case,
                                to_ambient,
                                transition});
constexpr auto fet_ratings = std::to_array<RatingField>({voltage("max_drain_source_voltage"),
                                                         current("max_drain_current"),
                                                         max_power,
                                                         max_junction,
                                                         to_case,
                                                         to_ambient,
                                                         transition});

std::span<const TypeField<DiodeData>> fields_of(const DiodeData&) { return diode_table; }
std::span<const TypeField<BipolarData>> fields_of(const BipolarData&) { return bipolar_table; }
std::span<const TypeField<FetData>> fields_of(const FetData&) { return fet_table; }

/// Calls `visit(field, data)` for the field of that name; false where the kind has none.
template <class Type, class Visit>
bool visit_field(Type& type, std::string_view name, Visit visit) {
  return std::visit(
      [&](auto& data) {
        for (const auto& field : fields_of(data)) {
          if (field.name != name || !belongs(field.only, type.kind)) continue;
          visit(field, data);
          return true;
        }
        return false;
      },
      type.law);
}

}  // namespace

std::optional<double> field_value(const PartType& type, std::string_view field) {
  std::optional<double> value;
  visit_field(type, field, [&](const auto& found, const auto& data) {
    value =
        std::visit([&](auto member) { return std::optional<double>(data.*member); }, found.member);
  });
  return value;
}

std::optional<Range> field_range(const PartType& type, std::string_view field) {
  std::optional<Range> range;
  visit_field(type, field, [&](const auto& found, const auto&) { range = found.range; });
  return range;
}

void set_field(PartType& type, std::string_view field, double value) {
  [[maybe_unused]] const bool is_known =
      visit_field(type, field, [&](const auto& found, auto& data) {
        std::visit([&](auto member) { data.*member = value; }, found.member);
      });
  assert(is_known);
}

std::span<const TypeField<DiodeData>> diode_fields() noexcept { return diode_table; }

std::span<const TypeField<BipolarData>> bipolar_fields() noexcept { return bipolar_table; }

std::span<const TypeField<FetData>> fet_fields() noexcept { return fet_table; }

bool belongs(Only only, PartKind kind) noexcept {
  const bool junction = kind == PartKind::n_jfet || kind == PartKind::p_jfet;
  return only == Only::both || (only == Only::junction_fet) == junction;
}

std::span<const RatingField> rating_fields(PartKind kind) noexcept {
  if (kind == PartKind::diode) return diode_ratings;
  if (is_bipolar(kind)) return bipolar_ratings;
  return fet_ratings;
}

}  // namespace idlepoint::circuit
