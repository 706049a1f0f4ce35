import type { DancedSection, Stance, Version } from "../routine.js";
import { otherWeight } from "../stance.js";
import { counts, inVersion, type Remark, type Rule, type Scene } from "./rule.js";

export const dancedAgain: Rule = {
  name: "danced-again",
  severity: "warning",
  why: "A section that is danced again (`repeat`, `same-as`, the next time through) should start as it was written for: at the same height, and with the weight where its first step can be taken.",
  good: counts("1-4: { do: Sink to the floor, height: seated }\n5-8: { do: Stand up, height: standing }").concat(
    "    repeat: 2\n",
  ),
  bad: counts("1-4: { do: Sink to the floor, height: seated }\n5-8: hold").concat("    repeat: 2\n"),
  find: (scene) => {
    const remarks = scene.versions.flatMap((version) => findIn(scene, version));
    return remarks.filter((remark, index) => remarks.findIndex(({ place }) => place === remark.place) === index);
  },
};

function findIn(scene: Scene, version: Version): readonly Remark[] {
  const starts = sectionStarts(scene, version);
  const firsts = new Map<string, { readonly stance: Stance; readonly section: DancedSection }>();
  const remarks = new Map<string, Remark>();
  for (const [index, section] of scene.routine.sections.entries()) {
    const start = starts[index];
    if (start === undefined || section.seconds !== undefined) continue;
    const stance: Stance = section.mirrored ? { ...start, weight: otherWeight(start.weight) } : start;
    const key = sourceOf(scene, section);
    const first = firsts.get(key);
    if (first === undefined) firsts.set(key, { stance, section });
    else if (!remarks.has(section.place)) {
      const remark = compare(scene, version, section, first.stance, stance);
      if (remark !== undefined) remarks.set(section.place, remark);
    }
  }
  return [...remarks.values()];
}

function compare(
  scene: Scene,
  version: Version,
  section: DancedSection,
  first: Stance,
  now: Stance,
): Remark | undefined {
  const when = `${section.name}${inVersion(scene, version)} ${again(scene, section)}`;
  if (first.height !== now.height)
    return {
      place: section.place,
      message: `${when} starting ${now.height}, but it was written to start ${first.height}; end the section before it ${first.height}`,
    };
  // Where it is after what was improvised, nobody can say.
  if (first.weight === now.weight || first.weight === undefined || now.weight === undefined) return undefined;
  const easy = first.weight === "both" || now.weight === "both";
  return {
    place: section.place,
    ...(easy ? { severity: "note" as const } : {}),
    message: `${when} starting with the weight on ${now.weight}, but it was written to start on ${first.weight}; change the last step before it, or write \`start: { weight: … }\` so that both are the same`,
  };
}

/** What a section does that is not danced as it was written for: another section's counts, or its own once more. */
function again({ routine }: Scene, section: DancedSection): string {
  const first = routine.sections.find(({ written }) => written === section.written);
  if (first !== section) return `is danced again (time ${section.wall}, pass ${section.pass})`;
  return section.sameAs === undefined ? "is danced again" : `dances ${section.sameAs},`;
}

/** The stance at each danced section's first count: after every move that began before it. */
function sectionStarts(scene: Scene, version: Version): readonly Stance[] {
  let index = 0;
  let stance = version.start;
  return scene.routine.sections.map((_, section) => {
    for (; index < version.moves.length; index++) {
      const move = version.moves[index];
      if (move === undefined || move.section >= section) break;
      stance = move.after;
    }
    return stance;
  });
}

/** Sections that dance the same counts have the same source: the section that `same-as` leads to in the end. */
function sourceOf(scene: Scene, section: DancedSection): string {
  const byName = new Map(scene.written.sections.map((written) => [written.name, written]));
  let written = scene.written.sections[section.written];
  while (written?.sameAs !== undefined) written = byName.get(written.sameAs);
  return written?.place ?? section.place;
}
