// The rails brought up in steps: what is right at each, and when to switch off.

function powerup_section(channels) {
  return section("powerup", "Bring the rails up",
    each_channel(channels, (channel) => (channel.powerup ? powerup_of(channel) : null)));
}

function powerup_of(channel) {
  const powerup = channel.powerup;
  return [
    make("p", {}, "A lamp or a variable transformer in the mains lead, no loudspeaker, trimmers at " +
      "their safe end. Just switched on; in brackets what 19 sound amplifiers in 20 would show."),
    powerup.steps.map((step) => [
      make("h3", {}, step.text),
      paragraphs([step.tells, step.remark]),
      step_table(step),
    ]),
    (powerup.behind || []).length === 0 ? null : [make("p", {}, make("strong", {}, "What is behind it:")),
      make("ul", {}, powerup.behind.map((one) => make("li", {}, said(one.text))))],
    paragraphs((powerup.set_too_low || []).map((one) => one.text)),
  ];
}

function step_table(step) {
  const columns = [{ head: "reading" }, { head: "at the safe end" }, { head: "at the preset" },
    { head: "SWITCH OFF" }, { head: "yours", class: "yours" }];
  const rows = step.readings.map((reading) => [reading.name,
    figure_and_band(reading.at_safe_end, reading.at_safe_end_low, reading.at_safe_end_high, reading.unit),
    figure_and_band(reading.at_preset, reading.at_preset_low, reading.at_preset_high, reading.unit),
    switch_off(reading),
    blank(`${percent(step.rails)} of the rails: your reading of ${reading.name}`)]);
  return table(`Rails at ${percent(step.rails)}`, columns, rows, { class: "powerup" });
}

function switch_off(reading) {
  const said_limit = (words, limit, value) => (typeof value !== "number" ? ""
    : words + " " + ((limit && limit.text) || figure(value, reading.unit)));
  const limits = [said_limit("below", reading.below, reading.switch_off_below),
    said_limit("above", reading.above, reading.switch_off_above)].filter((text) => text);
  return limits.length === 0 ? "\u2013" : make("strong", {}, limits.join(", or "));
}
