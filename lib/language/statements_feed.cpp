// The feed: a current taken from one node and fed into another.
#include <array>
#include <utility>

#include "language/fields.hpp"
#include "language/node_names.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {

using values::Unit;

void read_feed(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 3, 3, "feed NAME VALUE from=NODE into=NODE")) return;
  circuit::Part part;
  part.kind = circuit::PartKind::feed;
  Pairs pairs(draft, statement);
  circuit::FeedDetails details;
  const Word* compliance = pairs.find("compliance");
  const bool is_ideal = compliance != nullptr && compliance->text == "none";
  if (is_ideal) {
    details.compliance_v.reset();
  } else {
    details.compliance_v =
        pairs.number("compliance", Unit::volt, Range::not_negative).value_or(0.3);
  }
  part.details = details;
  const Word& value = statement.words[2];
  part.value = read_part_value(
      draft, statement, value, Unit::ampere, is_ideal ? Range::any : Range::not_negative);
  const std::array<const Word*, 2> leads = {pairs.require("from"), pairs.require("into")};
  pairs.finish();
  add_part(draft, std::move(part), statement.words[1], leads);
}

}  // namespace idlepoint::language
