// Measures how tempo and first count are guessed from the sound of sampled instruments, and prints a table:
//
//   node tests/tools/unbundled.mjs && node tests/tools/measure-tempo.mjs [SEED [FOLDER]]
//
// of 60 arrangements, three of each kind. They are written as MIDI, played by FluidSynth, and most go through a lossy codec; the Debian
// packages `fluidsynth`, `fluid-soundfont-gm`, `timgm6mb-soundfont` and `ffmpeg` bring what it takes. Tune on the seed 1 alone.
// What is in FOLDER is not made again. The truth: counts a minute as a dancer counts, and the first downbeat of the first whole bar.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { writeMidi } from "midi-file";
import { chance } from "../bench/library.mjs";

const soundfonts = ["FluidR3_GM", "FluidR3_GM", "TimGM6mb"];
const codecs = ["", "mp3 48", "mp3 64", "mp3 128", "ogg 64", "ogg 96", "opus 48", "opus 64", "m4a 64", "m4a 96"];
/** Counts a minute, what the style is like, and ways to play a bar: a sign a quarter of a count, x hit, o softer, r f a root, fifth and octave. */
const styles = {};
for (const line of `
rock is 58 180 kit=0,8,16,24
rock kick x.......x....... x.....x.x....... x..x......x..... x.......x.x...x.
rock snare ....x.......x...
rock hat x.o.x.o.x.o.x.o. xoxoxoxoxoxoxoxo x...x...x...x...
rock bass r.......r....... r.....r.f....... r.r.r.r.r.r.f.f. r..r..r.r..r..f.
rock chord x............... x.......x....... x..x..x.x..x..x. x...x...x...x...
shuffle is 76 150 kit=0,8,16 swing
shuffle kick x.......x....... x.....x.x.......
shuffle snare ....x.......x...
shuffle hat x.o.x.o.x.o.x.o. x...x.o.x...x.o.
shuffle bass r...r...r...f... r.r.f.f.a.a.f.f. r.....r.f.......
shuffle chord x............... x.....x......... ..x...x...x...x.
floor is 100 150 kit=24,25,0
floor kick x...x...x...x...
floor snare ....x.......x... ............x..o
floor hat ..x...x...x...x. o.x.o.x.o.x.o.x. ooxoooxoooxoooxo
floor bass ..r...r...r...r. r..r..r.r..r..f. r.a.r.a.r.a.r.a.
floor chord x..x..x......... ..x...x...x...x. x...............
soul is 84 126 kit=0,8,32
soul kick x..x......x..x.. x.x....x..x.....
soul snare ....x..o.o..x..o
soul hat xoxoxoxoxoxoxoxo x.o.x.o.x.o.x.o.
soul bass r..r...a..r..f.. r.....rf..r...a.
soul chord ...x..x....x.... ..x....x..x.....
half is 100 160 kit=25,24,16
half kick x.........x..... x.....x....x....
half snare ........x.......
half hat x...x...x...x... x.o.x.o.x.o.x.o. x.x.x.xxx.x.x.x.
half bass r............... r.....r...f.....
half chord x............... x.......x.......
walking is 96 180 kit=32,40 swing
walking kick ................ o...o...o...o...
walking snare ....o.......o... ......o.......o.
walking hat x...x.o.x...x.o.
walking bass r...f...a...f... r...r...f...a...
walking chord x.....x......... ......x.......x. ..x.......x.....
clave is 140 180 kit=0,8
clave kick ......x.....x...
clave snare x.....x.....x... ....x...x.......
clave hat x...x.x.x...x.x.
clave bass ......r.....f... r.....r.....f...
clave chord x.x...x...x...x. ..x...x.x...x.x.
tresillo is 84 112 kit=0,24
tresillo kick x...x...x...x...
tresillo snare ...x..x....x..x.
tresillo hat x.o.x.o.x.o.x.o.
tresillo bass r..r..f.r..r..f.
tresillo chord x............... ..x...x...x...x.
skank is 64 92 kit=0,8 swing
skank kick ........x.......
skank snare ........x.......
skank hat x.o.x.o.x.o.x.o.
skank bass r..r....f.r..... ....r..r....f.r.
skank chord ..x...x...x...x.
ballad is 56 96 kit=0
ballad bass r............... r.......f.......
ballad chord x.x.x.x.x.x.x.x. x...x...x...x... x...............
picked is 60 112 kit=0
picked bass r...f...r...f...
picked chord ..x.x.x...x.x.x. ..o...o...o..oo.
waltz is 84 180 kit=40,0,32 meter=12
waltz kick x...........
waltz snare ....o...o... ........o...
waltz hat x...x...x... x...x.o.x.o.
waltz bass r........... r.......f...
waltz chord ....x...x... x...x...x...
parlour is 84 170 kit=0 meter=12
parlour bass r........... r.......f...
parlour chord ....x...x... x.x.x.x.x.x.
`
  .trim()
  .split("\n")) {
  const [style, part, ...rest] = line.split(" ");
  styles[style] = { ...styles[style], [part]: rest };
}
const any = "rock floor soul ballad waltz half shuffle walking skank";
const kinds = [
  ...Object.keys(styles)
    .filter((style) => style !== "tresillo")
    .map((style) => [style, style === "clave" ? "clave tresillo" : style]),
  ...["pick-up", "spoken", "ambient", "breakdown", "loose", "ritardando", "drift", "change"].map((kind) => [kind, any]),
];
const bassists = [32, 33, 34, 35, 38, 43];
const players = [0, 1, 4, 16, 24, 25, 26, 27, 48, 89];
const singers = [52, 53, 56, 65, 66, 73, 40, 71, 81];
const progressions = ["0 5 3 4", "5 3 0 4", "0 3 0 4", "1 4 0 5", "0 4 5 3"];
const drums = { kick: [36], snare: [38, 40, 39], hat: [42, 42, 51] };

/** Counts in seconds from the first downbeat on: a table that bends where the song does. */
function clockOf(kind, roll, tempo, counts) {
  const sign = roll() < 0.5 ? -1 : 1;
  const other = tempo * (1 + sign * (0.06 + 0.16 * roll()));
  const half = 4 * Math.round((counts * (0.4 + 0.2 * roll())) / 4);
  const tempoAt = (count) => {
    if (kind === "ritardando") return tempo * Math.min(1, 1 - (0.4 * (count - counts + 16)) / 16);
    if (kind === "drift") return tempo * (1 + (0.03 * sign * count) / counts);
    return kind === "change" && count >= half ? other : tempo;
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
function compose(kind, [style, turn], roll) {
  const { is, ...parts } = styles[style];
  const pick = (list) => list[Math.floor(roll() * list.length)];
  const has = (word) =>
    is
      .find((each) => each.startsWith(word))
      ?.split("=")
      .at(-1);
  const [low, high] = is.map(Number);
  const exact = low * (high / low) ** ((turn + roll()) / 3);
  const tempo = roll() < 0.5 ? Math.round(exact) : Math.round(exact * 10) / 10;
  const steps = Number(has("meter") ?? 16);
  const meter = steps / 4;
  const bars = 4 * Math.round(((60 + 75 * roll()) * tempo) / 60 / meter / 4);
  const swing = has("swing") ? 0.58 + 0.09 * roll() : 0.5;
  const late = kind === "loose" ? 0.008 + 0.007 * roll() : 0.004 * roll();
  const lead = { spoken: 4 + 10 * roll(), ambient: 8 + 16 * roll(), "pick-up": 2.5 }[kind] ?? 0;
  const first = lead + 0.3 + 1.7 * roll();
  const { at, range } = clockOf(kind, roll, tempo, bars * meter);
  const notes = [];
  const bend = (count) => Math.floor(count) + swung(count - Math.floor(count));
  const swung = (part) => (part < 0.5 ? part * 2 * swing : swing + (part - 0.5) * 2 * (1 - swing));
  const noise = () => (roll() + roll() + roll() - 1.5) * 2 * late;
  const play = (count, channel, key, velocity, counts) => {
    const start = first + at(bend(count));
    const swell = kind === "breakdown" ? 0.5 + (0.5 * count) / bars / meter : 1;
    const loud = Math.max(10, Math.min(127, velocity * swell * (0.92 + 0.16 * roll())));
    notes.push([start + noise(), channel, key, loud, first + at(count + counts) - start]);
  };
  const degree = (step) => [0, 2, 4, 5, 7, 9, 11][((step % 7) + 7) % 7] + 12 * Math.floor(step / 7);
  const tonic = 36 + Math.floor(roll() * 10);
  const chords = pick(progressions).split(" ").map(Number);
  const perChord = pick([1, 1, 1, 2, 0.5]);
  const rootAt = (bar, step) => chords[Math.floor((bar + (perChord < 1 ? step / steps : 0)) / perChord) % 4];
  // Two ways of playing a part, A and B, that take turns by sections of eight bars.
  const ways = Object.fromEntries(Object.entries(parts).map(([part, list]) => [part, [pick(list), pick(list)]]));
  const motif = Array.from({ length: 4 }, () =>
    [...Array(steps / 2).keys()].map((step) => roll() < (step % 2 ? 0.25 : 0.5)),
  );
  const tune = Array.from({ length: steps * 2 }, () => Math.round(3 * (roll() - 0.5)));
  const intro = pick([0, 0, 4, 8]);
  const rest = kind === "breakdown" ? 8 * Math.floor((0.3 + 0.2 * roll()) * (bars / 8)) : Number.NaN;
  for (let bar = 0; bar < bars; bar++) {
    const section = Math.floor(bar / 8);
    const broken = bar >= rest && bar < rest + 8;
    const fill = bar % 8 === 7 && ways.kick !== undefined && !broken;
    const silent = {
      kick: broken,
      snare: broken || bar < intro,
      hat: broken,
      bass: broken || (bar < intro && intro === 8 && ways.chord[0][0] === "x"),
      chord: false,
    };
    for (const [part, list] of Object.entries(ways)) {
      const way = list[section % 2];
      for (let step = 0; step < steps; step++) {
        const sign = way[step];
        if (sign === "." || silent[part] || (fill && part === "snare" && step >= steps / 2)) continue;
        const count = bar * meter + step / 4;
        const next = way.slice(step + 1).search(/[^.]/) + 1 || steps - step;
        const root = rootAt(bar, step);
        const accent = (sign === "o" ? 62 : 92) + (step === 0 ? 12 : step % 4 === 0 ? 5 : 0);
        if (drums[part]) play(count, 9, drums[part][section % 2], part === "hat" ? accent - 22 : accent, 0.2);
        else if (part === "bass")
          play(count, 0, tonic + degree(root + { r: 0, f: 4, a: 7 }[sign]), accent, 0.9 * (next / 4));
        else if (ways.kick || next > 2 || !"ballad parlour picked".includes(style))
          for (const third of [0, 2, 4])
            play(count, 1, tonic + 24 + degree(root + third), accent - 24, 0.9 * (next / 4));
        else
          play(
            count,
            1,
            tonic + 24 + degree(root + [0, 2, 4, 2][step % 4 === 0 ? (step / 4) % 4 : 3]),
            accent - 14,
            next / 2,
          );
      }
    }
    if (fill)
      for (let step = steps / 2; step < steps; step++)
        if (roll() < 0.7) play(bar * meter + step / 4, 9, pick([38, 45, 47, 50]), 95, 0.2);
    if (bar % 8 === 0 && ways.kick && bar >= intro) play(bar * meter, 9, 49, 96, 2);
    if (bar < intro || section % 4 === 3) continue;
    motif[bar % 4].forEach((sounds, step) => {
      const pitch =
        rootAt(bar, step * 2) + (tune.slice(0, (bar % 4) * 8 + step).reduce((sum, move) => sum + move, 0) % 5);
      if (sounds && bar % 4 < 3) play(bar * meter + step / 2, 2, tonic + 36 + degree(pitch), 84, 0.45);
    });
  }
  if (kind === "pick-up") {
    const long = pick([0.5, 1, 1.5, 2, 3]);
    for (let count = -long; count < 0; count += 0.5)
      play(count, 2, tonic + 36 + degree(Math.round(count * 2)), 90, 0.45);
  }
  if (kind === "spoken") {
    notes.push([0, 3, 60, 50, lead], [0, 3, 64, 40, lead * 0.8]);
    for (let time = 0.5; time < lead - 0.4; time += roll() < 0.15 ? 0.7 + roll() : 0.11 + 0.2 * roll()) {
      notes.push([time, 4, 50 + Math.floor(9 * roll()), 60 + 60 * roll(), 0.1 + 0.1 * roll()]);
      notes.push([time - 0.02, 5, 60, 90, 0.06]);
    }
  }
  if (kind === "ambient")
    for (let time = 0.2; time < lead; time += 2.5 + 3 * roll())
      for (const third of [0, 2, 4])
        notes.push([time + 0.4 * roll(), 6, tonic + 24 + degree(pick(chords) + third), 66, 5]);
  const programs = [pick(bassists), pick(players), pick(singers), 126, 53, 121, pick([89, 91, 52, 49, 94])];
  if ("ballad parlour picked".includes(style))
    programs[1] = style === "picked" ? pick([24, 25]) : pick([0, 0, 1, 48, 6]);
  const unsteady = ["ritardando", "drift", "change"].includes(kind);
  return {
    notes,
    programs,
    kit: Number(pick(has("kit").split(","))),
    truth: { kind, style, tempo, first, meter, unsteady, range },
  };
}

/** At a tenth of a millisecond a tick. */
function midiOf({ notes, programs, kit }) {
  const ticks = (seconds) => Math.max(0, Math.round(seconds * 10000));
  const set = [...programs.entries(), [9, kit]].map(([channel, programNumber]) => ({
    at: 0,
    type: "programChange",
    channel,
    programNumber,
  }));
  const sounded = notes.flatMap(([second, channel, noteNumber, velocity, seconds]) => [
    { at: ticks(second), type: "noteOn", channel, noteNumber, velocity: Math.round(velocity) },
    { at: ticks(second + Math.max(0.05, seconds)), type: "noteOff", channel, noteNumber, velocity: 0 },
  ]);
  let last = 0;
  const track = [...set, ...sounded]
    .sort((one, two) => one.at - two.at)
    .map(({ at, ...event }) => {
      const deltaTime = at - last;
      last = at;
      return { deltaTime, ...event };
    });
  const header = { format: 0, numTracks: 1, ticksPerBeat: 5000 };
  return Buffer.from(
    writeMidi({
      header,
      tracks: [
        [
          { deltaTime: 0, type: "setTempo", microsecondsPerBeat: 500000 },
          ...track,
          { deltaTime: 0, type: "endOfTrack" },
        ],
      ],
    }),
  );
}

/** The file of a song, played and put through its codec. */
function rendered(folder, name, song, roll) {
  const file = join(folder, `${name}.wav`);
  const pick = (list) => list[Math.floor(roll() * list.length)];
  const [font, [ending, kilobits]] = [pick(soundfonts), pick(codecs).split(" ")];
  if (existsSync(file)) return file;
  writeFileSync(join(folder, "song.mid"), midiOf(song));
  const played = join(folder, "played.wav");
  execFileSync(
    "fluidsynth",
    [
      "-ni",
      "-q",
      "-g",
      "0.4",
      "-r",
      "44100",
      "-F",
      played,
      `/usr/share/sounds/sf2/${font}.sf2`,
      join(folder, "song.mid"),
    ],
    { stdio: "ignore" },
  );
  const quiet = ["-hide_banner", "-loglevel", "error", "-y"];
  const coded = ending ? join(folder, `coded.${ending}`) : played;
  if (ending) execFileSync("ffmpeg", [...quiet, "-i", played, "-b:a", `${kilobits}k`, coded]);
  execFileSync("ffmpeg", [...quiet, "-i", coded, "-c:a", "pcm_s16le", file]);
  return file;
}

const [seed = "1", kept] = process.argv.slice(2);
const folder = kept ?? mkdtempSync(join(tmpdir(), "countleaf-tempo-"));
mkdirSync(folder, { recursive: true });
const songs = kinds.flatMap(([kind, list], row) =>
  [0, 1, 2].map((turn) => {
    // Neighbouring seeds begin alike: they are scrambled first (the last steps of MurmurHash3).
    const mixed = Math.imul(Number(seed) * 4096 + row * 8 + turn + 1, 0x85ebca6b);
    const roll = chance(Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35));
    const all = list.split(" ");
    const song = compose(kind, [all[Math.floor(roll() * all.length)], turn], roll);
    return { ...song.truth, name: `${kind}-${turn + 1}`, file: rendered(folder, `${kind}-${turn + 1}`, song, roll) };
  }),
);

writeFileSync(`${folder}.json`, JSON.stringify(songs)); process.exit();
const { guessSong } = await import("../../.unbundled/hearing/song/tempo.js");
const { readWav } = await import("../../.unbundled/hearing/song/wav.js");

function heard({ file, tempo, first, unsteady, range: [slow, fast] }) {
  const { samples, rate } = readWav(readFileSync(file));
  const guess = guessSong(samples, rate);
  const tempos = guess.tempos ?? [];
  const ratio = (tempos[0]?.countsPerMinute ?? 0) / tempo;
  const octave = 2 ** Math.round(Math.log2(ratio || 1));
  const place = tempos.findIndex(
    ({ countsPerMinute }) => countsPerMinute > 0.96 * slow && countsPerMinute < 1.04 * fast,
  );
  const offs = (tempos[place]?.firstCounts ?? [])
    .map(({ at }) => at - first)
    .sort((one, two) => Math.abs(one) - Math.abs(two));
  const said = guess.unsteady && [guess.unsteady.slowest / octave, guess.unsteady.fastest / octave];
  // Half of what it changes by is heard, and hardly anything beyond.
  const covers =
    said &&
    Math.min(said[1], fast) - Math.max(said[0], slow) >= (fast - slow) / 2 &&
    said[0] >= 0.97 * slow &&
    said[1] <= 1.03 * fast;
  return {
    ratio,
    close: Math.abs(ratio / octave - 1) <= 0.002,
    place,
    off: offs[0] ?? 99,
    said,
    right: unsteady ? covers === true : !said,
  };
}

const rows = songs.map((song) => ({ ...song, ...heard(song) }));
const sum = (list, holds) => `${list.filter(holds).length} of ${list.length}`;
const figures = (list) => {
  const [steady, other] = [list.filter(({ unsteady }) => !unsteady), list.filter(({ unsteady }) => unsteady)];
  return [
    sum(steady, ({ close }) => close),
    sum(list, ({ place }) => place === 0),
    sum(list, ({ place }) => place === 0 || place === 1),
    sum(list, ({ off }) => Math.abs(off) <= 0.06),
    sum(steady, ({ said }) => said),
    sum(other, ({ said }) => said),
    sum(other, ({ right }) => right),
  ];
};
if (process.env.EACH)
  for (const { name, style, tempo, ratio, place, off, said, close, right, unsteady } of rows)
    console.log(
      `${name.padEnd(13)} ${style.padEnd(9)} ${String(tempo).padStart(6)} x${ratio.toFixed(4)} ${unsteady || close ? "     " : "TEMPO"} place ${place} first ${(1000 * off).toFixed(0).padStart(6)} ms ${said ? said.map((one) => one.toFixed(1)).join("-") : ""} ${right ? "" : "STEADINESS"}`,
    );
console.log(
  "| kind | tempo within 0.2 % | octave first | in first two | first count | wrongly unsteady | unsteady | with the range |",
);
console.log(`|${" --- |".repeat(8)}`);
for (const [kind] of kinds)
  console.log(`| ${[kind, ...figures(rows.filter((row) => row.kind === kind))].join(" | ")} |`);
console.log(`| ${["all", ...figures(rows)].join(" | ")} |`);
if (kept === undefined) rmSync(folder, { recursive: true });
