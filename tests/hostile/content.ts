import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** Quoted for YAML, whose double-quoted style takes every escape of JSON. */
const quoted = (text: string) => JSON.stringify(text);

/** A routine that says the same thing in every key that takes a text, and in its prose, there perhaps in paragraphs. */
export function routineSaying(pattern: string, paragraphs: readonly string[] = [pattern]): string {
  const prose = paragraphs.join("\n\n");
  const text = quoted(pattern);
  const move = `do: ${text}, say: ${text}, note: ${text}, words: ${text}, choose: [${text}], gear: [${text}]`;
  return `---
title: ${text}
choreographer: ${text}
date: 2026-10-02
style: [${text}, ${quoted(`${pattern} two`)}]
summary: ${text}
credit: ${text}
music: { title: ${text}, artist: ${text}, tempo: 92, link: "https://example.org/track" }
video:
  performance: https://example.org/performance
  breakdown: https://example.org/breakdown
  length: 2:00
  chapters: [${quoted(`0:00 ${pattern}`)}, 0:30 Two, 1:00 Three]
gear: [{ item: ${text}, need: required, why: ${text} }]
levels: [1, 2]
adaptations: [seated]
groups: [${text}, { name: ${quoted(`${pattern} two`)}, facing: back }]
sections:
  - name: ${text}
    words: ${text}
    counts:
      - say: [${text}]
        1-4: { ${move}, options: { 2: { ${move} }, seated: { 1-2: ${text}, 3-4: { ${move} } } } }
        5-8: ${text}
    parts: { ${quoted(`${pattern} two`)}: [{ 1-8: ${text} }] }
  - { name: ${quoted(`${pattern} again`)}, same-as: ${text}, mirrored: yes }
---
${prose}

## ${pattern}

${prose}

1. ${pattern}

| ${pattern} |
| --- |
| ${pattern} |
`;
}

/** A content folder in which library, workshop and routines say these patterns wherever a text may stand. */
export function writeHostile(
  content: string,
  patterns: readonly string[],
  routines: readonly (readonly string[])[],
): void {
  const library = patterns.join(" ");
  for (const folder of ["routines", "workshops"]) mkdirSync(join(content, folder), { recursive: true });
  const text = quoted(library);
  const keys = ["name", "teacher", "credit", "cautions"].map((key) => `${key}: ${text}\n`).join("");
  writeFileSync(join(content, "library.yaml"), `${keys}url: https://saltmarsh.example\nmirror-words: [[${text}, x]]\n`);
  for (const [index, said] of routines.entries())
    writeFileSync(join(content, "routines", `p${index}.md`), routineSaying(said.join(" "), said));
  const workshop = `title: ${text}\nvenue: ${text}\nminutes: 90\nroutines: [p0]\nlevel: 1\ndate: 2027-01-16\n`;
  writeFileSync(
    join(content, "workshops", "all.md"),
    `---\n${workshop}---\n${patterns.join("\n\n")}\n\n## ${library}\n\n- ${library}\n`,
  );
}
