import { join } from "node:path";
import { expect, it } from "vitest";
import { makeDraft } from "../../../src/build/draft/make-draft.js";
import { readCaptions } from "../../../src/hearing/captions.js";
import { listen } from "../../../src/hearing/listen.js";
import { emptyLibrary } from "../../../src/reading/read-library.js";
import { readRoutine } from "../../../src/reading/read-routine.js";
import { recordingsIn } from "../../hearing/recording.js";
import { render } from "../../hearing/render.js";

/** Those in which anything is heard; that it is, the test of listening holds. */
const heard = recordingsIn(join(import.meta.dirname, "../../hearing/recordings")).flatMap((recording) => {
  const captions = readCaptions(render(recording));
  const draft = "why" in captions ? captions : listen(captions);
  return "why" in draft ? [] : [{ name: recording.name, draft }];
});

it.each(heard)(
  "the draft of $name is read without an error, asks what it counts, and has a report",
  ({ name, draft }) => {
    const made = makeDraft(draft, { title: name, choreographer: "Ines Varga" }, emptyLibrary);
    const { routine, findings } = readRoutine(made.text, name, emptyLibrary);
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(routine?.doubts.length).toBe(made.questions);
    expect(made.report().match(/<tr class="drafted">/g)).toHaveLength(made.phrases);
  },
);
