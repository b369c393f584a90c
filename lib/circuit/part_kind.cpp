// The words of each kind of part and its leads.

#include "circuit/part_kind.hpp"

#include <array>

namespace idlepoint::circuit {
namespace {

struct KindWord {
  PartKind kind;
  std::string_view keyword;
};

/// In the order of PartKind, so that a kind is its own index.
constexpr std::array<KindWord, 18> kind_words = {{
    {PartKind::resistor, "resistor"},
    {PartKind::trimmer, "trimmer"},
    {PartKind::capacitor, "capacitor"},
    {PartKind::inductor, "inductor"},
    {PartKind::fuse, "fuse"},
    {PartKind::link, "link"},
    {PartKind::lamp, "lamp"},
    {PartKind::thermistor, "thermistor"},
    {PartKind::hold, "hold"},
    {PartKind::feed, "feed"},
    {PartKind::load, "load"},
    {PartKind::diode, "diode"},
    {PartKind::npn, "npn"},
    {PartKind::pnp, "pnp"},
    {PartKind::n_jfet, "n-jfet"},
    {PartKind::p_jfet, "p-jfet"},
    {PartKind::n_mosfet, "n-mosfet"},
    {PartKind::p_mosfet, "p-mosfet"},
}};

constexpr std::array<std::string_view, 2> plain_leads = {"1", "2"};
constexpr std::array<std::string_view, 3> trimmer_leads = {"a", "wiper", "b"};
constexpr std::array<std::string_view, 2> diode_leads = {"anode", "cathode"};
constexpr std::array<std::string_view, 3> bipolar_leads = {"c", "b", "e"};
constexpr std::array<std::string_view, 3> fet_leads = {"d", "g", "s"};

}  // namespace

std::string_view keyword(PartKind kind) noexcept {
  return kind_words[static_cast<std::size_t>(kind)].keyword;
}

std::optional<PartKind> part_kind(std::string_view keyword) noexcept {
  for (const KindWord& word : kind_words) {
    if (word.keyword == keyword) return word.kind;
  }
  return std::nullopt;
}

std::span<const std::string_view> lead_names(PartKind kind) noexcept {
  if (kind == PartKind::trimmer) return trimmer_leads;
  if (kind == PartKind::diode) return diode_leads;
  if (is_bipolar(kind)) return bipolar_leads;
  if (is_fet(kind)) return fet_leads;
  return plain_leads;
}

bool is_bipolar(PartKind kind) noexcept { return kind == PartKind::npn || kind == PartKind::pnp; }

bool is_fet(PartKind kind) noexcept {
  return kind == PartKind::n_jfet || kind == PartKind::p_jfet || kind == PartKind::n_mosfet ||
         kind == PartKind::p_mosfet;
}

bool is_transistor(PartKind kind) noexcept { return is_bipolar(kind) || is_fet(kind); }

bool has_type(PartKind kind) noexcept { return kind == PartKind::diode || is_transistor(kind); }

bool is_p_kind(PartKind kind) noexcept {
  return kind == PartKind::pnp || kind == PartKind::p_jfet || kind == PartKind::p_mosfet;
}

}  // namespace idlepoint::circuit
