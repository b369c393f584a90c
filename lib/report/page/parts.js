// The parts read back, to be ticked against the drawing.

function parts_section(channels) {
  return section("parts", "Tick the parts off against the drawing",
    make("p", {}, "One wrong joint spoils every figure below. This is the circuit as it was entered."),
    each_channel(channels, (channel) => parts_table(channel.drawing)));
}

function parts_table(drawing) {
  const columns = [{ head: "part" }, { head: "agrees", class: "narrow" }, { head: "what it is" },
    { head: "value" }, { head: "where it goes" }];
  const rows = drawing.parts.map((part) => [
    make("span", { id: part_id(drawing, part.name) }, part.name),
    tick(part.name + " agrees with the drawing"),
    part.kind_in_words,
    [part.value, part.more ? make("span", { class: "more" }, " " + part.more) : null],
    where_it_goes(part),
  ]);
  return table("Parts, in the order of the file", columns, rows, { class: "parts" });
}

function part_id(drawing, name) {
  return "part-" + drawing.number + "-" + name;
}

// "e_hi to out"; "c to vpos, b to d4, e to e_hi".
function where_it_goes(part) {
  const ends = part.leads.map((lead) => (lead.node === null ? "nothing" : lead.words));
  if (part.leads.length === 2 && part.kind !== "diode") return ends.join(" to ");
  return part.leads.map((lead, index) => lead.lead + " to " + ends[index]).join(", ");
}
