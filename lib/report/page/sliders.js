// A slider for each trimmer, and the readings that follow it.

function sliders_of(channel, settings) {
  const trimmers = channel.drawing.parts.filter((part) => part.name in settings.travels);
  if (trimmers.length === 0) return null;
  const readings = make("div", { class: "following" });
  settings.watchers.push(() => show_readings(channel, settings, readings));
  const rows = trimmers.map((part) => slider_row(channel, part, settings));
  show_readings(channel, settings, readings);
  return make("fieldset", { class: "sliders" },
    make("legend", {}, "Turn the trimmers"),
    rows,
    moves_alone(channel, trimmers),
    state_choice(channel, settings),
    readings);
}

function moves_alone(channel, trimmers) {
  if (channel.sliders.grids.length < 2) return null;
  return make("p", { class: "small" }, `${trimmers.length} trimmers: each moves alone here, the ` +
    "others where they were.");
}

function slider_row(channel, part, settings) {
  const id = fresh_id("slider");
  const said = make("output", { for: id });
  const slider = make("input", { id, type: "range", min: 0, max: 1, step: "any",
    "data-trimmer": part.name });
  const show = () => {
    const travel = settings.travels[part.name];
    if (Number(slider.value) !== travel) slider.value = travel;
    said.textContent = place_in_words(part, travel);
    slider.setAttribute("aria-valuetext", said.textContent);
  };
  const go = (travel) => {
    begin_moving(channel, settings, part.name);
    settings.travels[part.name] = travel;
    settings.change();
  };
  slider.addEventListener("input", () => go(Number(slider.value)));
  settings.watchers.push(show);
  show();
  return make("div", { class: "slider" },
    make("label", { for: id }, part.name), slider, said, place_buttons(channel, part, go));
}

// Where trimmers have no grid together, the one that moves has the others back in their places.
function begin_moving(channel, settings, name) {
  settings.moving = channel.sliders.grids.find((grid) => grid.trimmers.includes(name));
  for (const other of Object.keys(settings.travels)) {
    if (settings.moving.trimmers.includes(other)) continue;
    settings.travels[other] = channel.sliders.begins_at[other];
  }
}

function place_in_words(part, travel) {
  const share = fixed(100 * travel, 1) + "\u00a0%";
  if (!part.is_variable_resistor) return `${share} of the way from ${part.leads[0].words || part.end_a}`;
  return `${ohms(travel * part.track_ohm)} of ${ohms(part.track_ohm)}, ${share}`;
}

function place_buttons(channel, part, go) {
  const answer = (channel.preset ? channel.preset.adjustments : [])
    .find((one) => one.trimmer === part.name);
  const places = [];
  if (answer && answer.safe_end) places.push(["safe end", answer.safe_end === "a" ? 0 : 1]);
  places.push([answer ? "preset" : "as entered", channel.sliders.begins_at[part.name]]);
  return make("span", { class: "places" }, places.map(([words, travel]) => {
    const button = make("button", { type: "button", "aria-label": `${part.name}: ${words}` }, words);
    button.addEventListener("click", () => go(travel));
    return button;
  }));
}

function state_choice(channel, settings) {
  if (!channel.readings.cold_readings) return null;
  const name = fresh_id("state");
  const choices = [["cold", "just switched on"], ["warm", "warmed through"]];
  return make("p", { class: "states" }, "The picture shows it ", choices.map(([state, words]) => {
    const radio = make("input", { type: "radio", name, value: state, checked: settings.state === state });
    radio.addEventListener("change", () => {
      settings.state = state;
      settings.change();
    });
    return make("label", {}, radio, " " + words + " ");
  }));
}

function show_readings(channel, settings, place) {
  const states = channel.readings.cold_readings ? ["cold", "warm"] : ["cold"];
  const words = { cold: "just switched on", warm: "warmed through" };
  const values = states.map((state) => values_at_travels(channel, settings, state));
  const columns = [{ head: "reading" }].concat(states.map((state) => ({ head: words[state] })));
  const rows = channel.drawing.readings.map((reading, index) => [reading.name].concat(
    values.map((found) => followed(found, index, reading.unit))));
  const troubles = values.filter((found) => found.why_not)
    .map((found) => make("p", {}, make("strong", {}, why_not_in_words(found.why_not))));
  const made = table("Readings at these places of the trimmers", columns, rows, { class: "plain" });
  const remark = make("p", { class: "small" }, "Nominal parts. The brackets under “Read the meter” " +
    "hold at the preset.");
  place.replaceChildren(...troubles, ...(made ? [made, remark] : []));
}

function followed(found, index, unit) {
  if (found.why_not) return make("strong", {}, found.why_not);
  const value = found.readings[index];
  return make("span", { "data-value": value }, figure(value, unit));
}
