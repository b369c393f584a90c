#include "values/unit.hpp"

#include <array>
#include <cstddef>

namespace idlepoint::values {
namespace {

struct UnitFacts {
  std::string_view symbol;
  std::string_view words;
};

// In the order of `Unit`.
constexpr std::array<UnitFacts, 20> unit_facts{{
    {"", "a plain number"},
    {"R", "ohms"},
    {"V", "volts"},
    {"A", "amperes"},
    {"W", "watts"},
    {"F", "farads"},
    {"H", "henries"},
    {"C", "a temperature"},
    {"K", "a temperature difference in K"},
    {"K/W", "kelvin per watt"},
    {"J/K", "joules per kelvin"},
    {"%", "a percentage"},
    {"%", "a tolerance"},
    {"s", "seconds"},
    {"ppm/K", "ppm per kelvin"},
    {"V/K", "volts per kelvin"},
    {"A/V2", "amperes per volt squared"},
    {"/V", "a number per volt"},
    {"eV", "electronvolts"},
    {"Hz", "hertz"},
}};

const UnitFacts& facts(Unit unit) noexcept { return unit_facts[static_cast<std::size_t>(unit)]; }

}  // namespace

std::string_view symbol(Unit unit) noexcept { return facts(unit).symbol; }

std::string_view in_words(Unit unit) noexcept { return facts(unit).words; }

}  // namespace idlepoint::values
