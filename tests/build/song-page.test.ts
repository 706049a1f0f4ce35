import { HtmlValidate } from "html-validate";
import { describe, expect, it } from "vitest";
import { deskRoutine, songPage } from "../../src/build/live/song-page.js";
import { readRoutine } from "../../src/reading/read-routine.js";
import { hostilePatterns } from "../fixtures/hostile-patterns.js";
import { plainLibrary } from "../fixtures/written.js";

/** The desk of a routine whose title and section are called so. */
function pageOf(name: string): string {
  const text = `---\ntitle: ${JSON.stringify(name)}\nchoreographer: Ines Varga\nmusic: { tempo: 96, first-count: 0:10 }\nsections:\n  - { name: ${JSON.stringify(name)}, counts: [{ 1-8: Walk }] }\n---\n`;
  const { routine, findings } = readRoutine(text, "low-tide", plainLibrary);
  if (!routine) throw new Error(JSON.stringify(findings));
  const data = { language: "en", run: { header: "x", token: "y" }, routine: deskRoutine(routine, text, "key") };
  return songPage(data, { ...plainLibrary, name }, []);
}

describe("the page of the song desk", () => {
  it("is sound HTML, with a routine and without", async () => {
    const rules = { "require-sri": "off", "long-title": "off", "doctype-style": "off" } as const;
    const validator = new HtmlValidate({ root: true, extends: ["html-validate:recommended"], rules });
    const plain = songPage({ language: "en" }, plainLibrary, [{ slug: "low-tide", title: "Low Tide" }]);
    for (const page of [pageOf("Low Tide"), plain]) {
      const { results } = await validator.validateString(page);
      expect(results.flatMap(({ messages }) => messages.map(({ ruleId, message }) => `${ruleId}: ${message}`))).toEqual(
        [],
      );
    }
  });

  it("carries no markup of anybody's", () => {
    const tags = (page: string) => page.match(/<\/?[a-z]+/g)?.join();
    // What might end the block of data, which is the only one of its kind.
    const hostile = hostilePatterns.filter((name) => /<(?:\/|!--|script)/i.test(name));
    expect(hostile.length).toBeGreaterThan(3);
    for (const name of hostile) expect(tags(pageOf(name)), name).toBe(tags(pageOf("Low Tide")));
  });
});
