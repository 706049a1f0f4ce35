import type { Random } from "../random.js";

type Change = (lines: string[], at: number, random: Random, donor: readonly string[]) => void;

const changes: readonly Change[] = [
  (lines, at, random) => lines.splice(at, 1 + random.below(4)),
  (lines, at) => lines.splice(at, 0, lines[at] ?? ""),
  (lines, at, random) => {
    const to = random.below(lines.length);
    [lines[at], lines[to]] = [lines[to] ?? "", lines[at] ?? ""];
  },
  (lines, at, random) => lines.splice(random.below(lines.length), 0, ...lines.splice(at, 1 + random.below(6))),
  // Further in and further out: what people who copy an example get wrong most.
  (lines, at, random) => {
    lines[at] = " ".repeat(1 + random.below(4)) + lines[at];
  },
  (lines, at, random) => {
    lines[at] = (lines[at] ?? "").replace(new RegExp(`^ {1,${1 + random.below(4)}}`), "");
  },
  (lines, at, random) => {
    for (let line = at; line < Math.min(lines.length, at + 1 + random.below(8)); line++)
      lines[line] = `  ${lines[line]}`;
  },
  (lines, at) => {
    lines[at] = (lines[at] ?? "").replace(/^ */, "\t");
  },
  (lines, at) => lines.splice(at, 2, `${lines[at]}${lines[at + 1] ?? ""}`),
  (lines, at, random) => {
    const text = lines[at] ?? "";
    const cut = random.below(text.length + 1);
    lines.splice(at, 1, text.slice(0, cut), text.slice(cut));
  },
  (lines, at, random) => {
    lines[at] = (lines[at] ?? "").replace(random.pick([/: /, /:/, /- /, /["'[\]{}]/, /,/, /\w/]), "");
  },
  (lines, at, random) => {
    const text = lines[at] ?? "";
    const cut = random.below(text.length + 1);
    const sign = random.pick([
      '"',
      "'",
      "{",
      "}",
      "[",
      "]",
      ":",
      ": ",
      ",",
      " #",
      "&",
      "*",
      "!",
      "|",
      ">",
      "- ",
      "`",
      "%",
    ]);
    lines[at] = text.slice(0, cut) + sign + text.slice(cut);
  },
  (lines, at, random) =>
    lines.splice(at, 0, random.pick(["---", "...", "", "# x", "## x", "- x", "x", "> > > x", "```", "\f"])),
  (lines, at, random) => lines.splice(at, 0, ...donor(random)),
  (lines, at, random, other) => {
    const from = random.below(other.length);
    lines.splice(at, 0, ...other.slice(from, from + 1 + random.below(8)));
  },
  (lines, at, random) => {
    lines[at] = `${lines[at]}${random.pick(["\r", "\r\r", " ", "\t", "\u2028", "\u0085"])}`;
  },
  (lines, at, random) => {
    const text = lines[at] ?? "";
    if (random.chance(20)) lines.splice(at, 0, ...Array<string>(random.pick([30, 300])).fill(text));
  },
];

/* Moves that are right in themselves, wherever they are put. */
function donor(random: Random): readonly string[] {
  const deep = " ".repeat(random.pick([0, 4, 6, 8, 10]));
  return random.pick([
    [`${deep}options: { seated: Breathe, 3: { do: Leap, risk: [jump] } }`],
    [`${deep}1-4: { do: Drop, height: lying, contacts: [hands] }`],
    [`${deep}same-as: A`, `${deep}mirrored: alternate`],
    [`${deep}repeat: ${random.pick([0, 2, 99, 1000])}`, `${deep}times: 1000`],
    ["walls: 64", "times: 1000"],
    ["groups: [Ebb, { name: Flood, facing: back }]"],
    [`${deep}canon: { Flood: 4 }`],
  ]);
}

/** Changes a line or a few, in one of the ways that editors, hands and merges do. */
export function mutateLines(text: string, random: Random, other: string): string {
  const lines = text.split("\n");
  random.pick(changes)(lines, random.below(lines.length), random, other.split("\n"));
  return lines.join("\n");
}
