// What is drawn between the exact solutions: the formula of answers/interpolation.cpp and
// answers/slider_drawn.cpp, which the tests compare with exact solutions.

function interval_of(axis, x) {
  let index = 0;
  while (index + 2 < axis.length && axis[index + 1] <= x) index += 1;
  return index;
}

// Slope at the joint of two chords: their weighted harmonic mean, 0 where they differ in sign.
function joint_slope(width_1, chord_1, width_2, chord_2) {
  if (chord_1 * chord_2 <= 0) return 0;
  const weight_1 = 2 * width_2 + width_1;
  const weight_2 = 2 * width_1 + width_2;
  return (weight_1 + weight_2) / (weight_1 / chord_1 + weight_2 / chord_2);
}

// four: the values before, at both ends of, and after the interval; the outer two may be null.
function between(axis, index, four, x) {
  const [before, low, high, after] = four;
  const width = axis[index + 1] - axis[index];
  const chord = (high - low) / width;
  const before_width = axis[index] - axis[index - 1];
  const after_width = axis[index + 2] - axis[index + 1];
  const low_slope = before === null ? chord
    : joint_slope(before_width, (low - before) / before_width, width, chord);
  const high_slope = after === null ? chord
    : joint_slope(width, chord, after_width, (after - high) / after_width);
  const t = (x - axis[index]) / width;
  const rest = 1 - t;
  return low * rest * rest * (1 + 2 * t) + high * t * t * (3 - 2 * t) +
    width * t * rest * (low_slope * rest - high_slope * t);
}

// Along one line of the grid: four lists of values (or null) become one.
function along_line(axis, index, four, x) {
  return four[1].map((_, k) =>
    between(axis, index, four.map((values) => (values === null ? null : values[k])), x));
}

function four_around(length, index, values_at) {
  return [0, 1, 2, 3].map((k) => {
    const place = index + k - 1;
    if (place < 0 || place >= length) return null;
    const values = values_at(place);
    return Array.isArray(values) ? values : null;
  });
}

// The values at travels, one an axis; or the word for why there are none.
function drawn_at(axes, points, travels) {
  if (axes.length === 0) return points[0];
  const row = interval_of(axes[0], travels[0]);
  const columns = axes.length === 2 ? axes[1].length : 1;
  const lines = four_around(axes[0].length, row, (place) => {
    if (axes.length === 1) return points[place];
    const column = interval_of(axes[1], travels[1]);
    const four = four_around(columns, column, (k) => points[place * columns + k]);
    return four[1] && four[2] ? along_line(axes[1], column, four, travels[1]) : null;
  });
  if (lines[1] && lines[2]) return along_line(axes[0], row, lines, travels[0]);
  return why_not(axes, points, travels, row, columns);
}

function why_not(axes, points, travels, row, columns) {
  const column = axes.length === 2 ? interval_of(axes[1], travels[1]) : 0;
  const corners = [row, row + 1].flatMap((r) =>
    (axes.length === 2 ? [column, column + 1] : [0]).map((c) => points[r * columns + c]));
  return corners.find((point) => typeof point === "string") || "does not settle";
}
