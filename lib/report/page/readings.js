// What the meter should show, with room for what it does show.

function readings_section(channels) {
  return section("readings", "Read the meter",
    make("p", {}, "Red lead on the point named first. In brackets: what 19 sound amplifiers in 20 " +
      "would show. Volts are as your meter would show them, its own loading and error included."),
    channels.length === 1 || !have_same_readings(channels)
      ? each_channel(channels, (channel) => readings_table([channel]))
      : readings_table(channels),
    each_channel(channels, (channel) => paragraphs(channel.words.remarks)));
}

function have_same_readings(channels) {
  const names = channels.map((channel) => JSON.stringify(channel.drawing.readings.map((r) => r.name)));
  return names.every((one) => one === names[0]);
}

// The readings at the preset, or where the file has the trimmers if there is none.
function shown_readings(channel) {
  const preset = channel.preset;
  const source = preset && !preset.refused ? preset : channel.readings;
  return { warm: source.readings, cold: source.cold_readings, is_warm: Boolean(source.cold_readings) };
}

function readings_table(channels) {
  const many = channels.length > 1;
  const columns = [{ head: "reading" }, { head: "where" }];
  const named = (channel, words) => (many ? channel.drawing.side + ": " + words : words);
  for (const channel of channels) {
    if (shown_readings(channel).is_warm) columns.push({ head: named(channel, "just switched on") });
    columns.push({ head: named(channel,
      shown_readings(channel).is_warm ? "warmed through" : "just switched on") });
    columns.push({ head: named(channel, "yours"), class: "yours" });
  }
  columns.push({ head: "the file’s limit" });
  const rows = channels[0].drawing.readings.map((reading, index) => [
    make("b", {}, reading.name), reading.where,
    ...channels.flatMap((channel) => reading_cells(channel, reading, index)),
    limit_cell(channels, reading, index)]);
  return table("Readings", columns, rows, { class: many ? "readings many" : "readings" });
}

function reading_cells(channel, reading, index) {
  const shown = shown_readings(channel);
  const cells = shown.is_warm ? [as_metered(shown.cold[index])] : [];
  cells.push(as_metered(shown.warm[index]),
    blank(`${channel.drawing.title}: your reading of ${reading.name}`));
  return cells;
}

function as_metered(reading) {
  const is_volts = reading.unit === "V" && typeof reading.as_metered === "number";
  return is_volts
    ? figure_and_band(reading.as_metered, reading.as_metered_low, reading.as_metered_high, "V")
    : figure_and_band(reading.value, reading.low, reading.high, reading.unit);
}

function limit_cell(channels, reading, index) {
  if (!reading.limit) return "";
  const is_broken = channels.some((channel) =>
    shown_readings(channel).warm[index].within_limit === false);
  return is_broken ? make("strong", {}, reading.limit, ": broken") : make("b", {}, reading.limit);
}
