// What of a drawing stands in the ladder: the points that direct current reaches, and the parts
// that carry it.

// {nodes: [index], parts: [{part, index, leads: [{lead, node}]}], left_out: [name]}. `carries(k)`
// says whether part k carries anything anywhere on its trimmers' way.
function ladder_circuit(drawing, carries) {
  const number_of = new Map(drawing.nodes.map((name, index) => [name, index]));
  let parts = drawing.parts.map((part, index) => ({
    part, index,
    leads: part.leads.filter((lead) => lead.node !== null)
      .map((lead) => ({ lead: lead.lead, node: number_of.get(lead.node) })),
  }));
  parts = parts.filter((one) => !one.part.open && new Set(one.leads.map((l) => l.node)).size > 1);
  parts = parts.filter((one) => one.leads.length > 2 || carries(one.index));
  parts = without_dead_ends(parts, fixed_nodes(drawing, number_of));
  const drawn = new Set(parts.map((one) => one.index));
  const nodes = new Set(parts.flatMap((one) => one.leads.map((lead) => lead.node)));
  return {
    nodes: Array.from(nodes), parts,
    left_out: drawing.parts.filter((_, index) => !drawn.has(index)).map((part) => part.name),
  };
}

function fixed_nodes(drawing, number_of) {
  return new Set([0].concat(drawing.rails.map((rail) => number_of.get(rail.node))));
}

// A part with two legs of which one leads nowhere else carries nothing.
function without_dead_ends(parts, fixed) {
  for (;;) {
    const legs = new Map();
    for (const one of parts) {
      for (const lead of one.leads) legs.set(lead.node, (legs.get(lead.node) || 0) + 1);
    }
    const kept = parts.filter((one) => one.leads.length > 2 ||
      one.leads.every((lead) => fixed.has(lead.node) || legs.get(lead.node) > 1));
    if (kept.length === parts.length) return parts;
    parts = kept;
  }
}

// The largest current of each part over the whole grid.
function largest_currents(channel) {
  const nodes = channel.drawing.nodes.length;
  const largest = channel.drawing.parts.map(() => 0);
  for (const grid of channel.sliders.grids) {
    for (const point of grid.cold.concat(grid.warm)) {
      if (!Array.isArray(point)) continue;
      largest.forEach((size, k) => { largest[k] = Math.max(size, Math.abs(point[nodes + k])); });
    }
  }
  return largest;
}

// An order in which the eye meets legs: from the top one down.
function is_transistor(part) {
  return part.leads.length === 3 && part.kind !== "trimmer";
}

// "c", "b", "e"; "a", "w", "b" of a trimmer; nothing where two legs need no telling apart.
function leg_letter(part, lead) {
  if (part.kind === "diode") return "";
  if (part.leads.length === 2) return "";
  return lead === "wiper" ? "w" : lead;
}
