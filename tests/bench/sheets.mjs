// A handout as plain data, for the peers that set it: what ours says, and its drawings as SVG.
import { floorPlan } from "../../.unbundled/publishing/drawing/floor-plan.js";
import { phraseMap } from "../../.unbundled/publishing/drawing/phrase-map.js";
import { codeDrawing } from "../../.unbundled/publishing/paper/code.js";
import { trackTime } from "../../.unbundled/routine/clock.js";
import { mirror } from "../../.unbundled/routine/mirror.js";
import { svgText } from "../../.unbundled/typesetting/svg.js";
import { wordingOf } from "../../.unbundled/wording/wording.js";

/** Every handout of a routine: one a version, and the taught one mirrored and in large print. */
export function sheetsOf(routine, library) {
  const taught = routine.versions.find(({ id }) => id === routine.taught);
  const other = mirror(routine);
  return [
    ...routine.versions.map((version) => sheet(routine, version, library)),
    sheet(
      other,
      other.versions.find(({ id }) => id === routine.taught),
      library,
    ),
    { ...sheet(routine, taught, library), large: true },
  ];
}

function sheet(routine, version, library) {
  const { music } = routine;
  const wording = wordingOf(library.language);
  const plan = floorPlan(routine, version, library, { width: 240, size: 7, wording });
  return {
    large: false,
    map: svgText(phraseMap(routine, version, { width: 515, size: 7, wording }), "map"),
    floor: plan ? svgText(plan, "floor") : "",
    code: svgText(codeDrawing(`https://saltmarsh.example/routines/${routine.slug}/`, 64, wording), "code"),
    legend:
      "▬ accent in the music · ◤ lands hard · ▲ facing from here on, seen from above: the audience is at the top of the page",
    title: routine.title,
    studio: library.name,
    by: `Choreography: ${routine.choreographer} to “${music.title}” by ${music.artist}`,
    facts: [
      [wording.versions.name(version.id), "version"],
      [String(routine.counts), "counts"],
      [wording.time.clock(routine.seconds), "one run"],
      [wording.time.tempo(music.countsPerMinute), "counts a minute"],
      [String(music.countIn), "counts in"],
      [wording.time.track(music.firstCount), "first count"],
    ],
    lines: [
      ["Starts", wording.stance.whole(version.start)],
      ["Bring", version.gear.map(({ item }) => item).join(", ")],
    ],
    sections: routine.sections.map((section, index) => ({
      name: `${index + 1} ${section.name}`,
      words: section.words ?? "",
      phrases: section.phrases.map((phrase) => phraseOf(routine, version, index, phrase, wording)),
    })),
    notes: [
      [
        "Other ways to dance it",
        version.moves.flatMap(({ on, alternatives }) =>
          alternatives.map(
            (way) => `${on} ${wording.versions.name(way.version)}: ${way.moves.map(({ cue }) => cue.text).join(", ")}`,
          ),
        ),
      ],
      [
        "Teaching notes",
        [
          routine.prose.introduction,
          ...version.moves.flatMap(({ on, note }) => (note ? [`${on} ${note.text}`] : [])),
          ...sectionNotes(routine),
          routine.prose.after,
        ],
      ],
      [
        "Take care",
        [
          ...version.cautions.map((risk) => `${wording.risks.label(risk)}. ${wording.risks.caution(risk)}`),
          wording.risks.generalCaution,
        ],
      ],
      [
        "Practice speeds",
        routine.practice.map(
          ({ percent, countsPerMinute, seconds }) =>
            `${percent} % · ${wording.time.tempo(countsPerMinute)} · ${wording.time.clock(seconds)}`,
        ),
      ],
    ],
    credit: routine.credit ?? library.credit ?? "",
  };
}

function sectionNotes({ prose }) {
  return prose.notes.map(({ section, markdown }) => `${section}: ${markdown}`);
}

function phraseOf(routine, version, section, phrase, wording) {
  const moves = version.moves.filter((move) => move.section === section && move.phrase === phrase.number);
  const cells = moves.map(({ on, at, length, cue, hit }) => ({
    on: hit ? `${on} ◤` : on,
    width: Math.max(1, Math.round(length.valueOf())),
    text: cue.text,
    from: at.valueOf() - phrase.at,
  }));
  return { track: wording.time.track(trackTime(routine, moves[0]?.start ?? routine.seconds)), cells };
}
