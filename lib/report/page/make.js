// Elements of the page. Whatever comes from a file goes in as text, never as markup.

// An element with its attributes and children; strings become text, null is left out.
function make(tag, attributes, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) {
    if (value !== null && value !== undefined && value !== false) {
      element.setAttribute(name, value === true ? "" : value);
    }
  }
  append_all(element, children);
  return element;
}

function append_all(element, children) {
  for (const child of children.flat(Infinity)) {
    if (child === null || child === undefined) continue;
    element.append(child instanceof Node ? child : document.createTextNode(String(child)));
  }
}

// A paragraph a sentence; none for an empty one.
function paragraphs(sentences) {
  return sentences.filter((text) => text).map((text) => make("p", {}, said(text)));
}

// Names that the text reports set between ` and ` stand in another face here.
function said(text) {
  return text.split("`").map((piece, index) => (index % 2 === 1 ? make("i", {}, piece) : piece));
}

// A section with its heading; null where nothing is in it.
function section(id, heading, ...children) {
  const inside = children.flat(Infinity).filter((child) => child);
  if (inside.length === 0) return null;
  return make("section", { id, "aria-labelledby": id + "-heading" },
    make("h2", { id: id + "-heading" }, heading), inside);
}

// What `draw(channel, index)` gives for each channel, side by side under the channels' titles.
function each_channel(channels, draw) {
  const drawn = channels.map((channel, index) => [channel, draw(channel, index)]);
  if (drawn.every(([, inside]) => !inside || [inside].flat(Infinity).length === 0)) return null;
  if (channels.length === 1) return drawn[0][1];
  return make("div", { class: "channels" }, drawn.map(([channel, inside]) =>
    make("div", { class: "channel" }, make("h3", {}, channel.drawing.title), inside)));
}

// A number that is unlike any other on the page, for labels and their inputs.
let last_number = 0;
function fresh_id(word) {
  last_number += 1;
  return word + "-" + last_number;
}
