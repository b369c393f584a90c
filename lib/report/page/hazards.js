// What to test out of circuit before the amplifier is switched on: the parts, the worst first.

const effects = {
  "hard on": "turns the stage hard on",
  "output at rail": "puts the output at a rail",
  "part over-stressed": "over-stresses a part",
};

function hazards_section(channels) {
  return section("hazards", "Test these before you switch on",
    each_channel(channels, (channel) => hazards_of(channel)));
}

function hazards_of(channel) {
  const hazards = channel.hazards;
  if (!hazards) return null;
  if (hazards.critical.length === 0) {
    return paragraphs([`None of ${hazards.tried} single faults turns this stage hard on, puts its ` +
      "output at a rail or over-stresses a part."]);
  }
  return [
    paragraphs(["Power off, out of circuit where in doubt. In brackets: what 19 sound stages in 20 " +
      "with that fault would draw from the rails, or show at the output."]),
    Object.keys(effects).map((effect) => hazards_table(effect, parts_by_worst(hazards, effect))),
    paragraphs([`Each fault alone, just switched on, the trimmers as the file has them. ` +
      `${hazards.harmless} of ${hazards.tried} that were tried do none of this.`]),
  ];
}

// Parts with all their faults, under the worst effect that any of these has.
function parts_by_worst(hazards, effect) {
  const parts = new Map();
  for (const hazard of hazards.critical) {
    const name = hazard.fault.split(" ")[0];
    if (!parts.has(name)) parts.set(name, { worst: hazard.effect, list: [] });
    parts.get(name).list.push(hazard);
  }
  return Array.from(parts).filter(([, part]) => part.worst === effect);
}

function hazards_table(effect, parts) {
  const columns = [{ head: "part" }, { head: "tested", class: "narrow" }, { head: "what it does" },
    { head: "in danger" }];
  const rows = parts.map(([name, part]) => [name, tick(name + ": tested"),
    part.list.map((hazard) => fault_line(name, hazard)),
    Array.from(new Set(part.list.flatMap((hazard) => hazard.parts_at_risk))).join(", ") || "\u2013"]);
  const heading = effects[effect] + (effect === "output at rail" ? ": no loudspeaker" : "");
  return table("Each of these " + heading, columns, rows, { class: "hazards" });
}

// "short c-e: 917 W (710 to 1070)"; the output's volts where that is what is wrong.
function fault_line(name, hazard) {
  const what = hazard.fault.slice(name.length + 1) || "open";
  const is_rail = hazard.effect === "output at rail";
  const told = is_rail
    ? ["output ", figure_and_band(hazard.output_V, hazard.output_low, hazard.output_high, "V")]
    : figure_and_band(hazard.total_power_W, hazard.power_low, hazard.power_high, "W");
  return make("div", {}, what + ": ", told);
}
