// The sheet, from top to bottom, in the order of the job.

function draw_sheet() {
  const answers = JSON.parse(document.getElementById("answers").textContent);
  const channels = answers.channels;
  channels.forEach((channel, index) => {
    channel.drawing.number = index + 1;
    channel.drawing.side = ["left", "right"][index];
  });
  document.title = "Bench sheet: " + channels.map((one) => one.drawing.title).join(" and ");
  append_all(document.getElementById("sheet"), [
    heading(channels),
    cautions_section(channels),
    parts_section(channels),
    ladder_section(channels),
    presets_section(channels),
    readings_section(channels),
    powerup_section(channels),
    hazards_section(channels),
    warmup_section(channels),
    spread_section(channels),
    crossover_section(channels),
    swap_section(channels),
    rests_on_section(channels),
  ]);
}

function heading(channels) {
  return make("header", {},
    make("h1", {}, channels.map((one) => one.drawing.title).join(" and ")),
    channels.map((one) => make("p", { class: "conditions" }, one.words.opening)),
    make("p", { class: "writing" }, make("label", {}, "Job: ", blank("Job")), " ",
      make("label", {}, "Date: ", blank("Date"))));
}

function cautions_section(channels) {
  const cautions = new Set(channels.map((one) => one.words.caution));
  return make("section", { id: "cautions", class: "cautions", "aria-labelledby": "cautions-heading" },
    make("h2", { id: "cautions-heading" }, "Before anything else"),
    make("ul", {},
      make("li", {}, "Mains: work with the plug out. Behind the front switch parts may stay live. A " +
        "variable transformer does not isolate."),
      make("li", {}, "Reservoirs stay charged, also behind a blown fuse: discharge them through a " +
        "resistor, across their own terminals, then measure."),
      make("li", {}, "Heat sinks, output cans, emitter resistors and lamps burn; a can may carry the " +
        "rail. A slipped probe between two rails is a short."),
      make("li", {}, "Loudspeakers stay off until offset and standing current are proved."),
      make("li", {}, "Before it goes back, test its electrical safety. Where local codes or licences " +
        "govern such work, they come first.")),
    Array.from(cautions).map((text) => make("p", {}, make("strong", {}, said(text)))),
    channels.map((one) => paragraphs(one.words.runs_away || [])));
}

function rests_on_section(channels) {
  return section("rests-on", "What this rests on",
    make("p", {}, make("strong", {}, "Calculated from the values entered, not a measurement.")),
    each_channel(channels, (channel) => [
      paragraphs([channel.words.bands, channel.words.taken_as_given].concat(channel.words.hot)),
      warnings_of(channel),
    ]));
}

function warnings_of(channel) {
  const all = [channel.readings, channel.preset, channel.hazards, channel.warmup, channel.spread,
    channel.swap, channel.powerup, channel.crossover]
    .flatMap((answer) => (answer && answer.warnings) || []);
  const once = Array.from(new Set(all));
  if (once.length === 0) return null;
  return [make("h3", {}, "Worth knowing"), make("ul", {}, once.map((text) => make("li", {}, said(text))))];
}
