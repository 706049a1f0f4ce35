// Measures how tempo and first count are guessed from the sound of sampled instruments, and prints a table:
//
//   node tests/tools/unbundled.mjs && node tests/tools/measure-tempo.mjs [SEED [FOLDER]]
//
// of 51 made-up songs, three of a kind. They are written as MIDI, played by FluidSynth, and most go through a lossy codec; the Debian
// packages `fluidsynth`, `fluid-soundfont-gm`, `timgm6mb-soundfont` and `ffmpeg` bring what it takes. Tune on the seed 1 alone.
// What lies in FOLDER is not made again. The truth: counts a minute as a dancer counts, and the first downbeat of the first whole bar.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { writeMidi } from "midi-file";
import { guessSong } from "../../.unbundled/hearing/song/tempo.js";
import { readWav } from "../../.unbundled/hearing/song/wav.js";
import { chance } from "../bench/library.mjs";

const soundfonts = ["FluidR3_GM", "FluidR3_GM", "TimGM6mb"];
const codecs = ["", "mp3 48", "mp3 64", "mp3 128", "ogg 64", "ogg 96", "opus 48", "opus 64", "m4a 64", "m4a 96"];
/** Counts a minute, the drum kit, and ways to play a bar: a sign a quarter of a count, x hit, o softer; r f a root, fifth and octave. */
const styles = {};
for (const line of `
rock is 58 180 0
rock kick x.......x....... x.....x.x....... x..x......x..... x.......x.x...x.
rock snare ....x.......x...
rock hat x.o.x.o.x.o.x.o. xoxoxoxoxoxoxoxo x...x...x...x...
rock bass r.......r....... r.....r.f....... r.r.r.r.r.r.f.f. r..r..r.r..r..f.
rock chord x............... x.......x....... x..x..x.x..x..x. x...x...x...x...
floor is 100 150 24
floor kick x...x...x...x...
floor snare ....x.......x... ............x..o
floor hat ..x...x...x...x. o.x.o.x.o.x.o.x. ooxoooxoooxoooxo
floor bass ..r...r...r...r. r..r..r.r..r..f. r.a.r.a.r.a.r.a.
floor chord x..x..x......... ..x...x...x...x. x...............
soul is 84 126 8
soul kick x..x......x..x.. x.x....x..x.....
soul snare ....x..o.o..x..o
soul hat xoxoxoxoxoxoxoxo x.o.x.o.x.o.x.o.
soul bass r..r...a..r..f.. r.....rf..r...a.
soul chord ...x..x....x.... ..x....x..x.....
half is 100 160 25
half kick x.........x..... x.....x....x....
half snare ........x.......
half hat x...x...x...x... x.o.x.o.x.o.x.o. x.x.x.xxx.x.x.x.
half bass r............... r.....r...f.....
half chord x............... x.......x.......
walking is 96 180 40 swung
walking kick ................ o...o...o...o...
walking snare ....o.......o... ......o.......o.
walking hat x...x.o.x...x.o.
walking bass r...f...a...f... r...r...f...a...
walking chord x.....x......... ......x.......x. ..x.......x.....
clave is 140 180 0
clave kick ......x.....x...
clave snare x.....x.....x... ....x...x.......
clave hat x...x.x.x...x.x.
clave bass ......r.....f... r.....r.....f...
clave chord x.x...x...x...x. ..x...x.x...x.x.
skank is 64 92 8 swung
skank kick ........x.......
skank snare ........x.......
skank hat x.o.x.o.x.o.x.o.
skank bass r..r....f.r..... ....r..r....f.r.
skank chord ..x...x...x...x.
ballad is 56 96 0
ballad bass r............... r.......f.......
ballad chord x.x.x.x.x.x.x.x. x...x...x...x... x...............
waltz is 84 180 32
waltz kick x...........
waltz snare ....o...o... ........o...
waltz hat x...x...x... x...x.o.x.o.
waltz bass r........... r.......f...
waltz chord ....x...x... x...x...x...
`
  .trim()
  .split("\n")) {
  const [style, part, ...ways] = line.split(" ");
  styles[style] = { ...styles[style], [part]: ways };
}
const any = "rock floor soul ballad waltz half rock walking skank".split(" ");
const kinds = [
  ...Object.keys(styles).map((style) => [style, [style]]),
  ...["pick-up", "spoken", "ambient", "breakdown", "loose", "ritardando", "drift", "change"].map((kind) => [kind, any]),
];
const programs = [
  [32, 33, 34, 35, 38, 43],
  [0, 1, 4, 16, 24, 25, 26, 27, 48],
  [52, 53, 56, 65, 66, 73, 40, 71],
  [89, 91, 52, 49],
];
const drums = { kick: [36, 36], snare: [38, 40], hat: [42, 51] };
const progressions = ["0 5 3 4", "5 3 0 4", "0 3 0 4", "1 4 0 5", "0 4 5 3"];

/** Where counts fall in seconds after the first downbeat: a table that bends where the song does. */
function clockOf(kind, roll, tempo, counts) {
  const sign = roll() < 0.5 ? -1 : 1;
  const [other, middle] = [tempo * (1 + sign * (0.06 + 0.16 * roll())), 4 * Math.round(counts * (0.1 + 0.05 * roll()))];
  const tempoAt = (count) => {
    if (kind === "ritardando") return tempo * Math.min(1, 1 - (0.4 * (count - counts + 16)) / 16);
    if (kind === "drift") return tempo * (1 + (0.03 * sign * count) / counts);
    return kind === "change" && count >= middle ? other : tempo;
  };
  const times = [0];
  for (let step = 0; step < counts * 8; step++) times.push(times[step] + 60 / tempoAt((step + 0.5) / 8) / 8);
  const at = (count) => {
    if (count <= 0) return (count * 60) / tempo;
    const step = Math.min(counts * 8 - 1, Math.floor(count * 8));
    return times[step] + (times[step + 1] - times[step]) * (count * 8 - step);
  };
  return { at, range: [tempoAt(0), tempoAt(counts)].sort((one, two) => one - two) };
}

/** The notes of a song, [second, channel, key, velocity, seconds], and what is true of it. */
function compose(kind, style, turn, roll) {
  const { is, ...parts } = styles[style];
  const pick = (list) => list[Math.floor(roll() * list.length)];
  const exact = is[0] * (is[1] / is[0]) ** ((turn + roll()) / 3);
  const tempo = roll() < 0.5 ? Math.round(exact) : Math.round(exact * 10) / 10;
  const steps = parts.bass[0].length;
  const bars = 4 * Math.round(((60 + 75 * roll()) * tempo) / 60 / steps);
  const lead = { spoken: 4 + 10 * roll(), ambient: 8 + 16 * roll(), "pick-up": 2.5 }[kind] ?? 0;
  const first = lead + 0.3 + 1.7 * roll();
  const clock = clockOf(kind, roll, tempo, (bars * steps) / 4);
  const swing = is[3] ? 0.58 + 0.09 * roll() : 0.5;
  const late = kind === "loose" ? 0.008 + 0.007 * roll() : 0.004 * roll();
  const notes = [];
  /** From the count on, whose second half comes later where it is swung; a hand is never quite on it. */
  const play = (count, channel, key, velocity, counts) => {
    const part = count - Math.floor(count);
    const swung = part < 0.5 ? part * 2 * swing : swing + (part - 0.5) * 2 * (1 - swing);
    const start = first + clock.at(Math.floor(count) + swung);
    const swell = kind === "breakdown" ? 0.5 + (2 * count) / bars / steps : 1;
    const noise = (roll() + roll() + roll() - 1.5) * 2 * late;
    notes.push([
      start + noise,
      channel,
      key,
      velocity * swell * (0.9 + 0.2 * roll()),
      first + clock.at(count + counts) - start,
    ]);
  };
  const tonic = 36 + Math.floor(roll() * 10);
  const note = (degree) => tonic + [0, 2, 4, 5, 7, 9, 11][((degree % 7) + 7) % 7] + 12 * Math.floor(degree / 7);
  const band = {
    chords: pick(progressions).split(" ").map(Number),
    perChord: pick([1, 1, 2]),
    steps,
    bars,
    note,
    play,
    pick,
    roll,
  };
  playBand(parts, band, { intro: pick([0, 0, 4, 8]), rest: kind === "breakdown" ? 8 * Math.floor(bars / 20) : bars });
  if (kind === "pick-up")
    for (let count = -pick([1, 2, 3]); count < 0; count += 0.5) play(count, 2, note(21 + pick([0, 2, 4])), 90, 0.45);
  for (
    let time = 0.4;
    kind === "spoken" && time < lead - 0.4;
    time += roll() < 0.15 ? 0.7 + roll() : 0.11 + 0.2 * roll()
  )
    notes.push([time, 2, 50 + Math.floor(9 * roll()), 60 + 60 * roll(), 0.15], [time, 9, 70, 60, 0.1]);
  for (let time = 0.2; kind === "ambient" && time < lead; time += 2.5 + 3 * roll())
    for (const third of [0, 2, 4]) notes.push([time + 0.4 * roll(), 3, note(14 + pick(band.chords) + third), 66, 5]);
  const unsteady = ["ritardando", "drift", "change"].includes(kind);
  return { notes, programs: programs.map(pick), kit: Number(is[2]), kind, tempo, first, unsteady, range: clock.range };
}

/** Two ways of playing each part take turns every eight bars; fills before them; a melody over all. Before `intro` and in `rest` drums are few. */
function playBand(parts, { chords, perChord, steps, bars, note, play, pick, roll }, { intro, rest }) {
  const ways = Object.fromEntries(Object.entries(parts).map(([part, list]) => [part, [pick(list), pick(list)]]));
  const motif = Array.from(
    { length: 3 * (steps / 2) },
    (_, step) => roll() < (step % 2 ? 0.25 : 0.5) && pick([0, 1, 2, 4]),
  );
  for (let bar = 0; bar < bars; bar++) {
    const [side, root, begins] = [Math.floor(bar / 8) % 2, chords[Math.floor(bar / perChord) % 4], (bar * steps) / 4];
    const broken = bar >= rest && bar < rest + 8;
    const fills = ways.kick && bar % 8 === 7 && !broken;
    for (const [part, list] of Object.entries(ways))
      [...list[side]].forEach((sign, step, way) => {
        const silent = part === "snare" ? bar < intro || (fills && step >= steps / 2) : false;
        if (sign === "." || silent || (broken && part !== "chord")) return;
        const [count, lasts] = [
          begins + step / 4,
          ([...way, "x"].findIndex((other, at) => at > step && other !== ".") - step) / 4.5,
        ];
        const velocity = (sign === "o" ? 62 : 92) + (step === 0 ? 12 : step % 4 === 0 ? 5 : 0);
        if (drums[part]) play(count, 9, drums[part][side], part === "hat" ? velocity - 22 : velocity, 0.2);
        else if (part === "bass") play(count, 0, note(root + { r: 0, f: 4, a: 7 }[sign]), velocity, lasts);
        else for (const third of [0, 2, 4]) play(count, 1, note(14 + root + third), velocity - 24, lasts);
      });
    for (let step = steps / 2; fills && step < steps; step++)
      if (roll() < 0.7) play(begins + step / 4, 9, pick([38, 45, 47, 50]), 95, 0.2);
    if (bar % 8 === 0 && ways.kick && bar >= intro) play(begins, 9, 49, 96, 2);
    for (let step = 0; bar >= intro && bar % 4 < 3 && step < steps / 2; step++) {
      const degree = motif[(bar % 4) * (steps / 2) + step];
      if (degree !== false) play(begins + step / 2, 2, note(21 + root + degree), 84, 0.45);
    }
  }
}

/** At a tenth of a millisecond a tick. */
function midiOf(song) {
  const events = song.notes.flatMap(([second, channel, noteNumber, loud, seconds]) => {
    const [start, end] = [second, second + Math.max(0.05, seconds)].map((time) =>
      Math.max(0, Math.round(time * 10000)),
    );
    const velocity = Math.round(Math.max(10, Math.min(127, loud)));
    return [
      { at: start, type: "noteOn", channel, noteNumber, velocity },
      { at: end, type: "noteOff", channel, noteNumber, velocity: 0 },
    ];
  });
  const set = [...song.programs.entries(), [9, song.kit]].map(([channel, programNumber]) => ({
    at: 0,
    type: "programChange",
    channel,
    programNumber,
  }));
  const inOrder = [{ at: 0, type: "setTempo", microsecondsPerBeat: 500000 }, ...set, ...events].sort(
    (one, two) => one.at - two.at,
  );
  const track = inOrder.map(({ at, ...event }, index) => ({ deltaTime: at - (inOrder[index - 1]?.at ?? 0), ...event }));
  const header = { format: 0, numTracks: 1, ticksPerBeat: 5000 };
  return Buffer.from(writeMidi({ header, tracks: [[...track, { deltaTime: 0, type: "endOfTrack" }]] }));
}

/** The file of a song, played and put through its codec. */
function rendered(folder, name, song, roll) {
  const [file, midi, played] = [`${name}.wav`, "song.mid", "played.wav"].map((one) => join(folder, one));
  const pick = (list) => list[Math.floor(roll() * list.length)];
  const [font, [ending, kilobits]] = [`/usr/share/sounds/sf2/${pick(soundfonts)}.sf2`, pick(codecs).split(" ")];
  if (existsSync(file)) return file;
  writeFileSync(midi, midiOf(song));
  execFileSync("fluidsynth", ["-ni", "-q", "-g", "0.4", "-r", "44100", "-F", played, font, midi], { stdio: "ignore" });
  const quiet = ["-hide_banner", "-loglevel", "error", "-y", "-i"];
  const coded = ending ? join(folder, `coded.${ending}`) : played;
  if (ending) execFileSync("ffmpeg", [...quiet, played, "-b:a", `${kilobits}k`, coded]);
  execFileSync("ffmpeg", [...quiet, coded, "-c:a", "pcm_s16le", file]);
  return file;
}

function heard({ tempo, first, unsteady, range: [slow, fast] }, file) {
  const { samples, rate } = readWav(readFileSync(file));
  const guess = guessSong(samples, rate);
  const tempos = guess.tempos ?? [];
  const ratio = (tempos[0]?.countsPerMinute ?? 1) / tempo;
  const octave = 2 ** Math.round(Math.log2(ratio));
  const place = tempos.findIndex(({ countsPerMinute: one }) => one > 0.96 * slow && one < 1.04 * fast);
  const found = tempos[place]?.firstCounts.some(({ at }) => Math.abs(at - first) <= 0.06) ?? false;
  const [least, most] = guess.unsteady ? [guess.unsteady.slowest / octave, guess.unsteady.fastest / octave] : [0, 0];
  // At least half of what it changes by, and hardly anything beyond.
  const ranges =
    Math.min(most, fast) - Math.max(least, slow) >= (fast - slow) / 2 && least >= 0.97 * slow && most <= 1.03 * fast;
  return {
    unsteady,
    close: Math.abs(ratio / octave - 1) <= 0.002,
    place,
    found,
    said: guess.unsteady !== undefined,
    ranges,
  };
}

const [seed = "1", kept] = process.argv.slice(2);
const folder = kept ?? mkdtempSync(join(tmpdir(), "countleaf-tempo-"));
mkdirSync(folder, { recursive: true });
const rows = kinds.flatMap(([kind, list], row) =>
  [0, 1, 2].map((turn) => {
    // Neighbouring seeds begin alike: they are scrambled first (the last steps of MurmurHash3, *from memory*).
    const mixed = Math.imul(Number(seed) * 4096 + row * 8 + turn + 1, 0x85ebca6b);
    const roll = chance(Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35));
    const song = compose(kind, list[Math.floor(roll() * list.length)], turn, roll);
    return { kind, ...heard(song, rendered(folder, `${kind}-${turn + 1}`, song, roll)) };
  }),
);
if (kept === undefined) rmSync(folder, { recursive: true });

const figures = (list) => {
  const [steady, other] = [false, true].map((unsteady) => list.filter((one) => one.unsteady === unsteady));
  const columns = [
    [steady, ({ close }) => close],
    [list, ({ place }) => place === 0],
    [list, ({ place }) => place === 0 || place === 1],
    [list, ({ found }) => found],
    [steady, ({ said }) => said],
    [other, ({ said }) => said],
    [other, ({ said, ranges }) => said && ranges],
  ];
  return columns
    .map(([some, holds]) => (some.length === 0 ? "" : `${some.filter(holds).length} of ${some.length}`))
    .join(" | ");
};
console.log(
  "| kind | tempo within 0.2 % | octave first | in first two | first count | wrongly unsteady | said unsteady | with its range |",
);
console.log(`|${" --- |".repeat(8)}`);
for (const [kind] of kinds) console.log(`| ${kind} | ${figures(rows.filter((row) => row.kind === kind))} |`);
console.log(`| all | ${figures(rows)} |`);
