// Measures what is printed, as a reader of the file sees it (MuPDF, which shares no code with what wrote it), and prints a table:
//
//   npm run compile && node tests/tools/measure-sheets.mjs
//
// over the demo library and 100 made-up routines (seeded; up to 96 counts, cues of 40 characters or less on average), on A4 and
// Letter: the sides of a kind of file, how full its pages are, its smallest type, texts that are cut off or overlap, and texts
// that a tint ends under. With a folder, `node tests/tools/measure-sheets.mjs _site`, that built folder alone.
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import { Device, Document } from "mupdf";
import { chance } from "../bench/library.mjs";

const root = resolve(import.meta.dirname, "../..");
const generated = 100;
/** Points by which rounding in the file may move an edge. */
const slack = 0.6;
/** Part of the type size above and below the base line that most letters cover. */
const ascent = 0.72;
const descent = 0.22;

const pick = (roll, list) => list[Math.floor(roll() * list.length)];
const cues = [
  "Walk left, right",
  "Step left",
  "Drag the right toes",
  "Left palm flat",
  "Both arms rise",
  "Hold and breathe out",
  "Clap",
  "Rise onto the left foot",
  "Cross right over left",
  "Roll through the spine to the floor",
  "Shoulders drop, head last",
  "Two quick runs forward",
  "Hips to the right, twice",
  "Open the chest toward the window",
  "Quarter turn right, weight left",
  "Sink into the standing leg",
  "Reach across with the long arm",
  "Push off the floor and come up tall, eyes forward",
  "Snap",
  "Draw a half circle with the right foot behind the left",
];
const names = ["Gate", "Long stair", "Lantern row", "Under the bell", "Rope and tide", "Last lamp"];
const prose = [
  "Say the counts aloud before you move. The four is a stop and not a pat, so arrive early and wait there.",
  "Let the eyes go first, then the shoulder, then the hips. Whoever hears a thump was falling and takes the easier way.",
  "Two counts are longer than you think. Start low, breathe out, and keep the weight over the standing foot.",
  "The arms are the last thing to learn. Dance it three times with the hands on the hips and add them then.",
];

/** A phrase in the spans that a teacher writes: one, two or four counts a move. */
function phraseText(roll, counts, levels) {
  const lines = [];
  for (let count = 1; count <= counts; ) {
    const length = Math.min(pick(roll, [1, 1, 2, 2, 2, 4]), counts - count + 1);
    const on = length === 1 ? `${count}` : `${count}-${count + length - 1}`;
    const extra = [];
    if (roll() < 0.12) extra.push("          hit: true");
    if (roll() < 0.06) extra.push(`          risk: [${pick(roll, ["jump", "kneework", "backbend"])}]`);
    if (roll() < 0.08) extra.push(`          say: ${pick(roll, ["and go", "low", "switch"])}`);
    if (levels.length > 1 && roll() < 0.15) extra.push(`          options:\n            1: ${pick(roll, cues)}`);
    if (levels.length > 2 && roll() < 0.08)
      extra.push(
        `${extra.some((line) => line.includes("options")) ? "" : "          options:\n"}            3: { do: "${pick(roll, cues)}", turn: 1 left }`,
      );
    lines.push(`        ${on}:\n          do: "${pick(roll, cues)}"${extra.map((line) => `\n${line}`).join("")}`);
    count += length;
  }
  return `      -\n${lines.join("\n")}\n`;
}

function routineText(index) {
  const roll = chance(index * 104729 + 31);
  const counts = pick(roll, [8, 8, 8, 6]);
  const levels = pick(roll, [[1], [1, 2], [1, 2, 3]]);
  const phrases = Math.floor((16 + roll() * 80) / counts);
  const sections = [];
  let first = 0;
  for (let left = phrases, at = 0; left > 0; at++) {
    const here = at === names.length - 1 ? left : Math.min(left, 1 + Math.floor(roll() * 4));
    // The last section takes what is left.
    const again = at > 1 && at < names.length - 1 && here >= first && roll() < 0.3;
    sections.push(
      again
        ? `  - name: ${names[at]}\n    same-as: ${names[0]}\n    mirrored: true\n`
        : `  - name: ${names[at]}\n    words: ${pick(roll, ["under a low door", "slow as smoke", "by the long wall"])}\n    counts:\n${Array.from({ length: here }, () => phraseText(roll, counts, levels)).join("")}`,
    );
    left -= again ? first : here;
    if (at === 0) first = here;
  }
  return `---
title: Made-up dance ${index + 1}
choreographer: Ines Varga
music: { title: Made-up song, artist: The Ferry Clerks, tempo: ${72 + Math.floor(roll() * 50)}, first-count: 0:12.5, phrase: ${counts}, accents: [4] }
levels: [${levels.join(", ")}]
taught: ${levels.length > 1 ? 2 : 1}
gear:
  - { item: knee pads, need: optional, why: the floor is hard }
sections:
${sections.join("")}---
${pick(roll, prose)} ${pick(roll, prose)}

## ${names[0]}

${pick(roll, prose)}

## Before you start

${pick(roll, prose)}
`;
}

/** Rectangles that a path is made of, on the page. */
function boundsOf(path, [a, b, c, d, e, f]) {
  const xs = [];
  const ys = [];
  const at = (x, y) => {
    xs.push(a * x + c * y + e);
    ys.push(b * x + d * y + f);
  };
  path.walk({ moveTo: at, lineTo: at, curveTo: (...points) => at(points[4], points[5]), closePath: () => {} });
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** Letters in runs along a line, and the grey areas, of one page. */
function readPage(page) {
  const letters = [];
  const tints = [];
  const device = new Device({
    fillText(text, ctm) {
      text.walk({
        showGlyph(font, [, , c, d, e, f], glyph, unicode, wmode) {
          if (String.fromCodePoint(unicode > 0 ? unicode : 32).trim() === "") return;
          const size = Math.hypot(c * ctm[0] + d * ctm[2], c * ctm[1] + d * ctm[3]);
          const x = ctm[0] * e + ctm[2] * f + ctm[4];
          const y = ctm[1] * e + ctm[3] * f + ctm[5];
          const width = font.advanceGlyph(glyph, wmode) * size;
          letters.push({
            size,
            left: x,
            right: x + width,
            top: y - size * ascent,
            bottom: y + size * descent,
            base: y,
            text: String.fromCodePoint(unicode),
          });
        },
      });
    },
    fillPath(path, _evenOdd, ctm, _colors, color) {
      const grey = color.every((part) => part > 0.3 && part < 0.99);
      const box = boundsOf(path, ctm);
      if (grey && box.right - box.left > 8 && box.bottom - box.top > 4) tints.push(box);
    },
  });
  page.run(device, [1, 0, 0, 1, 0, 0]);
  device.close();
  return { letters, tints, box: page.getBounds() };
}

/** Letters that follow each other on a base line. */
function linesOf(letters) {
  const lines = [];
  for (const letter of letters) {
    const last = lines.at(-1);
    const follows =
      last !== undefined &&
      Math.abs(last.base - letter.base) < 0.1 &&
      Math.abs(last.size - letter.size) < 0.1 &&
      letter.left - last.right > -0.5 &&
      letter.left - last.right < letter.size * 0.6;
    if (!follows) lines.push({ ...letter });
    else Object.assign(last, { right: letter.right, text: last.text + letter.text });
  }
  return lines;
}

const meet = (from, to, start, end) => from + slack < end && start + slack < to;

function measurePage(page) {
  const { letters, tints, box } = readPage(page);
  const [, , width, height] = box;
  const lines = linesOf(letters);
  const cut = lines.filter(
    ({ left, right, top, bottom }) => left < 8 || right > width - 8 || top < 8 || bottom > height - 8,
  );
  const overlapping = lines.flatMap((one, index) =>
    lines.slice(index + 1).filter((other) => {
      // A T and what follows it are drawn into each other by the face.
      const kerned =
        Math.abs(one.base - other.base) < 0.1 &&
        Math.min(one.right, other.right) - Math.max(one.left, other.left) < one.size / 4;
      return (
        !kerned &&
        meet(one.left, one.right, other.left, other.right) &&
        meet(one.top, one.bottom, other.top, other.bottom)
      );
    }),
  );
  // A tint's edge runs through a line of text, or under some of its letters only.
  const ends = lines.filter((line) =>
    tints.some((tint) => {
      const over =
        meet(line.left, line.right, tint.left, tint.right) && meet(line.top, line.bottom, tint.top, tint.bottom);
      const inside =
        line.left > tint.left - slack &&
        line.right < tint.right + slack &&
        line.top > tint.top - 1 &&
        line.bottom < tint.bottom + 1;
      return (
        over &&
        !inside &&
        !tints.some(
          (other) =>
            other !== tint &&
            line.left > other.left - slack &&
            line.right < other.right + slack &&
            line.top > other.top - 1 &&
            line.bottom < other.bottom + 1,
        )
      );
    }),
  );
  // What stands over the foot, from the head of the page down.
  const body = lines.filter(({ bottom }) => bottom < height - 44);
  const lowest = Math.max(0, ...body.map(({ bottom }) => bottom));
  return {
    fill: Math.max(0, lowest - 36) / (height - 36 - 44),
    least: Math.min(Number.POSITIVE_INFINITY, ...lines.map(({ size }) => size)),
    cut: cut.map(({ text }) => text),
    overlapping: overlapping.map(({ text }) => text),
    ends: ends.map(({ text }) => text),
  };
}

function measureFile(path) {
  const document = Document.openDocument(readFileSync(path), "application/pdf");
  const pages = Array.from({ length: document.countPages() }, (_, index) => measurePage(document.loadPage(index)));
  return { path, pages };
}

const kindOf = (path) => {
  const name = basename(path, ".pdf");
  if (/^pack|^course|^lesson/.test(name)) return name.replace(/\d+/, "n");
  return `handout ${/-(mirrored|large|card)$/.exec(name)?.[1] ?? "sheet"}`;
};

function filesIn(folder) {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".pdf"))
    .sort()
    .map((name) => join(folder, name));
}

function report(name, folder) {
  const kinds = group(filesIn(folder).map(measureFile));
  for (const [kind, files] of kinds) {
    const sides = files.map(({ pages }) => pages.length);
    const pages = files.flatMap((file) => file.pages);
    const inner = files.flatMap((file) => file.pages.slice(0, -1));
    const count = (key) => pages.reduce((sum, page) => sum + page[key].length, 0);
    const shares = [1, 2, 3, 4].map((n) => sides.filter((each) => (n === 4 ? each >= 4 : each === n)).length);
    console.log(
      `| ${name} | ${kind} | ${files.length} | ${shares.join(" / ")} | ${Math.max(...sides)} | ${inner.filter(({ fill }) => fill < 2 / 3).length} of ${inner.length} | ${Math.min(...pages.map(({ least }) => least)).toFixed(1)} | ${count("cut")} | ${count("overlapping")} | ${count("ends")} |`,
    );
    if (process.argv.includes("--where"))
      for (const file of files)
        for (const [index, page] of file.pages.entries())
          for (const key of ["cut", "overlapping", "ends"])
            for (const text of page[key]) console.log(`    ${key}: ${file.path} page ${index + 1}: ${text}`);
  }
}

const group = (files) => {
  const kinds = new Map();
  for (const file of files) kinds.set(kindOf(file.path), [...(kinds.get(kindOf(file.path)) ?? []), file]);
  return kinds;
};

console.log(
  "| library | file | files | sides: 1 / 2 / 3 / 4+ | most | under two thirds full, last pages apart | smallest type | cut off | overlapping | tint ends under |",
);
console.log("| --- | --- | ---: | --- | ---: | ---: | ---: | ---: | ---: | ---: |");
const given = process.argv.slice(2).find((word) => !word.startsWith("--"));
if (given !== undefined) report(basename(given), resolve(given));
else {
  const work = mkdtempSync(join(tmpdir(), "countleaf-sheets-"));
  try {
    for (const paper of ["A4", "Letter"]) {
      const settings = (text) => text.replace(/^paper: .*$/m, `paper: ${paper}`);
      const demo = join(work, `demo-${paper}`);
      cpSync(join(root, "content"), demo, { recursive: true });
      const library = settings(readFileSync(join(demo, "library.yaml"), "utf8"));
      writeFileSync(join(demo, "library.yaml"), `${library}handouts: [versions, mirrored, large, card]\n`);
      const made = join(work, `made-${paper}`);
      mkdirSync(join(made, "routines"), { recursive: true });
      writeFileSync(join(made, "library.yaml"), `${library}handouts: [versions, mirrored, card]\n`);
      for (let index = 0; index < generated; index++)
        writeFileSync(join(made, "routines", `made-up-${index + 1}.md`), routineText(index));
      for (const content of [demo, made]) {
        const out = `${content}-out`;
        execFileSync(
          process.execPath,
          [process.env.COUNTLEAF_MAIN ?? join(root, "dist/cli/main.js"), "build", "--content", content, "--out", out],
          { stdio: "pipe", maxBuffer: 2 ** 26 },
        );
        report(`${content === demo ? "demo" : "made up"}, ${paper}`, out);
      }
    }
  } finally {
    if (process.argv.includes("--keep")) console.log(work);
    else rmSync(work, { recursive: true, force: true });
  }
}
