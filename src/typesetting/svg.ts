import { outlined, type TextShape } from "./outlines.js";
import type { Coordinates, Drawing, Shape, Stroke, Tone } from "./shape.js";

/** Fallbacks for a page without a style sheet; each shape has a class of its tone as well ("fill-ink", "stroke-line"). */
const greys: Record<Tone, string> = {
  ink: "#111",
  beat: "#111",
  soft: "#545454",
  line: "#8c8c8c",
  tint: "#e8e8e8",
  paper: "#fff",
};

const escapes: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const escaped = (text: string): string => text.replace(/[&<>"]/g, (sign) => escapes[sign] ?? sign);
const number = (value: number): string => String(Math.round(value * 100) / 100);
const pair = ([x, y]: Coordinates): string => `${number(x)} ${number(y)}`;

/**
 * A drawing as an SVG element with its title and its text alternative. It scales with its container; letters are outlines of
 * the project's own faces, since a picture of its own can't take those of the page around it.
 *
 * @param id unique on the page: names the title and the description
 */
export function svgText(drawing: Drawing, id: string): string {
  const { width, height, title, description, shapes } = drawing;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${number(width)} ${number(height)}" role="img" aria-labelledby="${id}-title ${id}-text">`,
    `<title id="${id}-title">${escaped(title)}</title>`,
    `<desc id="${id}-text">${escaped(description)}</desc>`,
    ...shapes.map((shape) => (shape.kind === "text" ? lettersText(shape) : shapeText(shape))),
    "</svg>",
  ].join("");
}

/** A text on its base line. */
function lettersText(shape: TextShape): string {
  const { width, runs } = outlined(shape);
  const { at, size, anchor, tone } = shape;
  const start = at[0] - { start: 0, middle: width / 2, end: width }[anchor];
  return runs
    .flatMap(({ x, scale, data, lines }) => {
      const place = [scale, 0, 0, -scale, start + x, at[1]].map((value) => Number(value.toPrecision(5)));
      const letters = `<path transform="matrix(${place.join(" ")})" d="${data}"${fillText(tone)}/>`;
      const drawn = lines.map((points) => {
        const moved = points.map(([px, py]): Coordinates => [start + x + px * size, at[1] + py * size]);
        return shapeText({ kind: "path", points: moved, stroke: { tone, width: size * 0.08 } });
      });
      return [...(data === "" ? [] : [letters]), ...drawn];
    })
    .join("");
}

function shapeText(shape: Exclude<Shape, TextShape>): string {
  switch (shape.kind) {
    case "path": {
      const way = shape.points.map((point, index) => `${index === 0 ? "M" : "L"}${pair(point)}`).join("");
      return `<path d="${way}${shape.closed === true ? "Z" : ""}"${inkText(shape)}/>`;
    }
    case "box": {
      const [x, y] = shape.at;
      return `<rect x="${number(x)}" y="${number(y)}" width="${number(shape.width)}" height="${number(shape.height)}"${inkText(shape)}/>`;
    }
    case "disc":
      return `<circle cx="${number(shape.at[0])}" cy="${number(shape.at[1])}" r="${number(shape.radius)}"${inkText(shape)}/>`;
  }
}

function inkText({ fill, stroke }: { readonly fill?: Tone; readonly stroke?: Stroke }): string {
  const filled = fill === undefined ? "none" : greys[fill];
  const classes = [
    ...(fill === undefined ? [] : [`fill-${fill}`]),
    ...(stroke === undefined ? [] : [`stroke-${stroke.tone}`]),
  ];
  const dashes = stroke?.dashes === undefined ? "" : ` stroke-dasharray="${stroke.dashes.map(number).join(" ")}"`;
  const line =
    stroke === undefined
      ? ""
      : ` stroke="${greys[stroke.tone]}" stroke-width="${number(stroke.width)}" stroke-linejoin="round"${dashes}`;
  return ` class="${classes.join(" ")}" fill="${filled}"${line}`;
}

const fillText = (tone: Tone): string => ` class="fill-${tone}" fill="${greys[tone]}"`;
