// Writes libraries of made-up routines for the benchmarks: 6 sections, 64 counts, 3 levels, a note a section. The same seed
// gives the same files.
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const sections = [
  ["Gate", 1],
  ["Long stair", 2],
  ["Lantern row", 1],
  ["Under the bell", 2],
  ["Rope and tide", 1],
  ["Last lamp", 1],
];
const walks = ["Walk", "Stride", "Drift", "Stamp", "Skate", "Stroll"];
const arms = ["arms wide", "fists to the ribs", "one hand on the rail", "palms up", "fingers closing", "head last"];
const looks = ["as if the floor were wet", "slow as smoke", "under a low door", "on a long breath", "quick and small"];
const adjectives = ["Brass", "Quiet", "Paper", "Salted", "Hollow", "Amber", "Crooked", "Second", "Winter", "Tall"];
const nouns = ["Lantern", "Ferry", "Orchard", "Kettle", "Staircase", "Harbour", "Bicycle", "Window", "Compass", "Drum"];
const notes = [
  "Say the counts aloud before you move. The *four* is a stop and not a pat, so arrive early and wait there.",
  "Let the eyes go first, then the shoulder, then the hips. Whoever hears a thump was falling and takes the easier way.",
  "Two counts are longer than you think. Start low, breathe out, and keep the weight over the standing foot.",
  "The arms are the last thing to learn. Dance it three times with the hands on the hips and add them then.",
];

/** Numbers in [0, 1) that look like chance: a linear congruential generator with the constants of Numerical Recipes. */
export function chance(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** The name of a routine's file without its ending. */
export function slugAt(index) {
  return `${adjectives[index % 10]}-${nouns[Math.floor(index / 10) % 10]}-${index + 1}`.toLowerCase();
}

/** The text of a routine's file. */
export function routineText(index, salt = "") {
  const roll = chance(index * 7919 + 17);
  const pick = (list) => list[Math.floor(roll() * list.length)];
  const title = `${adjectives[index % 10]} ${nouns[Math.floor(index / 10) % 10]} ${index + 1}`;
  const day = String((index % 28) + 1).padStart(2, "0");
  return `---
title: ${title}
choreographer: Ines Varga
date: 20${String(10 + (index % 17))}-${String((index % 12) + 1).padStart(2, "0")}-${day}
style: [${pick(["jazz", "contemporary", "street"])}, floorwork]
summary: ${pick(walks)} and ${pick(walks).toLowerCase()}, ${pick(looks)}, for an evening class.${salt}
music:
  title: ${title}
  artist: The ${pick(adjectives)} ${pick(nouns)}s
  tempo: ${72 + Math.floor(roll() * 50)}
  first-count: 0:${String(5 + Math.floor(roll() * 20)).padStart(2, "0")}.5
  accents: [4, 8]
video:
  breakdown: https://saltmarsh.example/watch/${slugAt(index)}
  length: 12:40
  chapters:
    - 0:00 What you need
    - 1:30 Counts and words
    - 8:05 Full tempo
start: { facing: front, weight: left }
levels: [1, 2, 3]
taught: 2
gear:
  - { item: knee pads, need: required, why: the shins take weight twice }
sections:
${sections.map(([name, phrases]) => sectionText(name, phrases, pick)).join("")}---
A made-up dance for a class of an hour. ${pick(notes)}

${sections.map(([name]) => `## ${name}\n\n${pick(notes)} ${pick(notes)}\n`).join("\n")}
## Before you start

${pick(notes)}
`;
}

function sectionText(name, phrases, pick) {
  // Every phrase begins and ends with the weight on the left foot, so that the steps fit whatever comes before.
  const phrase = () => `      - 1-2:
          do: ${pick(walks)} with the right foot and the left, ${pick(arms)}
          step: [right, left]
          travel: { forward: 2 }
        3: Right arm through, ${pick(looks)}
        4:
          do: Right foot flat, ${pick(arms)}
          step: right
          hit: true
        5-6:
          do: Sink over the right leg, ${pick(arms)}
          height: crouching
          note: The heels stay down, ${pick(looks)}.
          options:
            1: { do: Bend both legs and round the back, height: crouching }
            3:
              5:
                do: Down to the left shin, ${pick(arms)}
                height: kneeling
                weight: knees
                contacts: [knees]
                risk: [kneework]
                gear: [knee pads]
              6: { do: Push back over the right foot, height: crouching, weight: right }
        7: Gather, forearms crossed, ${pick(looks)}
        8:
          do: Rise onto the left foot, ${pick(arms)}
          height: standing
          step: left
          hit: true
          options:
            3: { do: "Full turn to the left, rising", turn: 1 left, step: left, height: standing, risk: [spin], hit: true }
`;
  return `  - name: ${name}
    words: ${pick(looks)}
    counts:
${Array.from({ length: phrases }, phrase).join("")}`;
}

/** Writes a content folder with `size` routines and a workshop. */
export function writeLibrary(folder, size) {
  for (const name of ["routines", "workshops"]) mkdirSync(join(folder, name), { recursive: true });
  writeFileSync(
    join(folder, "library.yaml"),
    "name: Saltmarsh Dance Room\nteacher: Ines Varga\nurl: https://saltmarsh.example\ncredit: Choreography by Ines Varga.\n",
  );
  for (let index = 0; index < size; index++)
    writeFileSync(join(folder, "routines", `${slugAt(index)}.md`), routineText(index));
  const some = [0, 1, 2].filter((index) => index < size).map(slugAt);
  writeFileSync(
    join(folder, "workshops", "lamp-evening.md"),
    `---\ntitle: Lamp evening\ndate: 2027-01-16\nminutes: 90\nlevel: 2\nroutines: [${some.join(", ")}]\nwarm-up: 12\ncool-down: 6\nbreaks: 5\n---\nBring knee pads.\n`,
  );
}
