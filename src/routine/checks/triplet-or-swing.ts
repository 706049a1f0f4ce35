import { counts, type Remark, type Rule, type Scene } from "./rule.js";

export const tripletOrSwing: Rule = {
  name: "triplet-or-swing",
  severity: "note",
  why: "In `triplet` feel `&` is one third past its count. Who calls `1 & 2 &` to a swung song mostly means the two-thirds place, which is `&` in `feel: swing`. Where every third is danced, some move stands on an `a`.",
  good: counts("1: Step\n1a: Close\n2-8: hold", "music: { tempo: 100, feel: triplet }\n"),
  bad: counts("1: Step\n1&: Close\n2-8: hold", "music: { tempo: 100, feel: triplet }\n"),
  find: (scene) => {
    const used = partsUsed(scene);
    return scene.written.sections.flatMap(({ name, place, sameAs }, index): readonly Remark[] => {
      const parts = used.get(index);
      if (sameAs !== undefined || parts?.has("&") !== true || parts.has("a")) return [];
      const message = `${name} is in triplets and uses \`&\`, one third past a count, but never \`a\`; if its \`&\` is the swung one, two thirds past, write \`feel: swing\``;
      return [{ place, message }];
    });
  },
};

/** The parts of counts that moves in triplet phrases name, by section of the file. */
function partsUsed({ routine, versions }: Scene): ReadonlyMap<number, ReadonlySet<string>> {
  const used = new Map<number, Set<string>>();
  for (const version of versions)
    for (const { moves } of [version, ...version.groups])
      for (const { section, phrase, on } of moves) {
        const danced = routine.sections[section];
        if (danced?.phrases[phrase - 1]?.feel !== "triplet") continue;
        const parts = used.get(danced.written) ?? new Set();
        used.set(danced.written, parts);
        for (const part of on.match(/[&a]/g) ?? []) parts.add(part);
      }
  return used;
}
