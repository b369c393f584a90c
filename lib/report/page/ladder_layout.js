// Where everything of the ladder goes. Heights: every point has a line of its own, the highest
// volts on top; far points stand farther apart than near ones, but near ones never so near that
// their labels touch. Across: every part has a stretch of a column from its highest to its lowest
// point, and no other part crosses that stretch. So nothing can overlap, whatever the circuit.

// sizes: {width, line (height of a line of text), ruler, fan, labels}; text_width(words, weight).
// Returns flights, each {rows: [{node, volts, y}], parts: [{..., x, column, rows, lines}], ...}.
function ladder_layout(circuit, volts, words_of, sizes, text_width) {
  const flights = fill_flights(circuit, volts, words_of, sizes, text_width);
  for (const flight of flights) set_heights(flight, sizes);
  return flights;
}

// The points of these parts, the highest first; equal ones in the drawing's order.
function rows_of(parts, volts) {
  const nodes = Array.from(new Set(parts.flatMap((one) => one.leads.map((lead) => lead.node))));
  nodes.sort((one, other) => volts[other] - volts[one] || one - other);
  return nodes.map((node) => ({ node, volts: volts[node] }));
}

// Parts in the drawing's order, as many in a flight as its width takes; then once more with the
// least width that needs no more flights, so that the last is not left with a single part.
function fill_flights(circuit, volts, words_of, sizes, text_width) {
  const room = sizes.width - sizes.ruler - sizes.fan - sizes.labels;
  const fill = (width) => fill_to(circuit.parts, volts, words_of, width, sizes, text_width);
  let best = fill(room);
  if (best.length === 1) return best;
  for (let width = room; width > 0.4 * room; width -= 8) {
    const tried = fill(width);
    if (tried.length > best.length) break;
    best = tried;
  }
  return best;
}

function fill_to(parts, volts, words_of, room, sizes, text_width) {
  const flights = [];
  let rest = parts;
  while (rest.length > 0) {
    let count = 1;
    let flight = null;
    for (; count <= rest.length; ++count) {
      const tried = one_flight(rest.slice(0, count), volts, words_of, sizes, text_width);
      if (tried.width > room && count > 1) break;
      flight = tried;
    }
    flights.push(flight);
    rest = rest.slice(flight.parts.length);
  }
  return flights;
}

// A column each, the first in which the part's stretch is free; where it can stand at the end of
// another part, that column, so that a string of parts is drawn as a string.
function one_flight(parts, volts, words_of, sizes, text_width) {
  const rows = rows_of(parts, volts);
  const row_of = new Map(rows.map((row, index) => [row.node, index]));
  const columns = [];
  const placed = parts.map((one) => {
    const at = one.leads.map((lead) => row_of.get(lead.node));
    const part = { ...one, rows: at, from: Math.min(...at), to: Math.max(...at),
      lines: words_of(one) };
    part.column = column_for(part, columns);
    columns[part.column] = (columns[part.column] || []).concat([part]);
    return part;
  });
  let x = 0;
  const starts = columns.map((column) => {
    const start = x;
    x += column_width(column, sizes, text_width);
    return start;
  });
  for (const part of placed) {
    part.x = starts[part.column] + letters_width(columns[part.column], sizes) + 0.5 * sizes.bar;
  }
  return { rows, parts: placed, width: x };
}

function column_for(part, columns) {
  const is_free = (column) => column.every((other) => other.to <= part.from || part.to <= other.from);
  const touches = (column) => column.some((other) => other.to === part.from || part.to === other.from);
  const joined = columns.findIndex((column) => is_free(column) && touches(column));
  if (joined >= 0) return joined;
  const free = columns.findIndex(is_free);
  return free >= 0 ? free : columns.length;
}

function letters_width(column, sizes) {
  return column.some((part) => part.part.leads.length > 2) ? sizes.letters : 3;
}

function column_width(column, sizes, text_width) {
  const width_of = (words, index) => text_width(words, index === 0 ? "600" : "400");
  const text = Math.max(...column.flatMap((part) => part.lines.map(width_of)));
  return letters_width(column, sizes) + sizes.bar + 3 + text + sizes.between;
}

// Gaps between neighbouring lines: room for the labels of the parts that have to stand there, and
// the more the farther apart the points are.
function set_heights(flight, sizes) {
  const gaps = flight.rows.slice(1).map((row, index) =>
    sizes.line + 3 + 7 * Math.log10(1 + (flight.rows[index].volts - row.volts) / 0.02));
  const room_in = (gap) => Math.floor((gap - 3) / sizes.line);
  const shortest_first = flight.parts.slice().sort((one, other) =>
    (one.to - one.from) - (other.to - other.from));
  for (const part of shortest_first) {
    // Two letters below each other.
    const has_letters = part.leads.length > 2 && part.rows.includes(part.from + 1);
    if (has_letters) gaps[part.from] = Math.max(gaps[part.from], 2 * sizes.line + 2);
    const own = gaps.slice(part.from, part.to);
    const lacking = part.lines.length - own.reduce((sum, gap) => sum + room_in(gap), 0);
    if (lacking <= 0) continue;
    const widest = part.from + own.indexOf(Math.max(...own));
    gaps[widest] = (room_in(gaps[widest]) + lacking) * sizes.line + 3;
  }
  let y = sizes.line;
  flight.rows.forEach((row, index) => {
    row.y = y;
    y += gaps[index] || 0;
  });
  flight.height = y + sizes.line;
  for (const part of flight.parts) place_lines(part, flight.rows, gaps, sizes);
}

// Each line of a part's label between two neighbouring points, all of them together if they fit.
function place_lines(part, rows, gaps, sizes) {
  const own = gaps.slice(part.from, part.to);
  const room_in = (gap) => Math.floor((gap - 3) / sizes.line);
  const widest = own.indexOf(Math.max(...own));
  const places = [];
  const use = (index, count) => {
    const top = rows[part.from + index].y;
    const free = own[index] - count * sizes.line;
    for (let k = 0; k < count; ++k) places.push(top + 0.5 * free + (k + 0.8) * sizes.line);
  };
  if (room_in(own[widest]) >= part.lines.length) {
    use(widest, part.lines.length);
  } else {
    for (let index = 0; index < own.length && places.length < part.lines.length; ++index) {
      use(index, Math.min(room_in(own[index]), part.lines.length - places.length));
    }
  }
  part.line_at = places;
}
