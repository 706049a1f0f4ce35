import type { Facing, Height } from "../routine/vocabulary.js";
import { type Sentence, saidOf, textOf } from "./talk.js";
import type { Draft } from "./types.js";

const heights: Readonly<Record<string, Height>> = {
  standing: "standing",
  kneeling: "kneeling",
  seated: "seated",
  sitting: "seated",
  lying: "lying",
  crouching: "crouching",
};

/** How the routine starts, as far as she says it before the first run; a later sentence corrects an earlier one. */
export function openingOf(sentences: readonly Sentence[], firstRun: number): Draft["start"] {
  let start: Draft["start"] = {};
  for (const sentence of sentences.filter(({ start: at }) => at < firstRun)) {
    const text = textOf(sentence);
    const said = saidOf(sentence);
    const facing = facingIn(text);
    const weight =
      / weight(?: is| stays| starts| goes|'s)?(?: all)? (?:on|in) (?:the |your |my )?(left|right|both) /.exec(
        text,
      )?.[1];
    const height =
      heights[
        / (?:start|begin|starting|beginning) (?:here )?(standing|kneeling|seated|sitting|lying|crouching) /.exec(
          text,
        )?.[1] ?? ""
      ];
    if (facing) start = { ...start, facing: { value: facing, said } };
    if (weight === "left" || weight === "right" || weight === "both")
      start = { ...start, weight: { value: weight, said } };
    if (height) start = { ...start, height: { value: height, said } };
  }
  return start;
}

function facingIn(text: string): Facing | undefined {
  const side =
    / (?:face|facing|faces) (?:to )?(?:the |your |towards the |towards )?(front|back|left|right)(?: (?:left|right))? /.exec(
      text,
    );
  const [way, corner] = (side?.[0] ?? "").trim().split(" ").slice(-2);
  if (side && (way === "front" || way === "back") && (corner === "left" || corner === "right"))
    return `${way}-${corner}`;
  if (side) return side[1] as Facing;
  return / back to the (?:audience|mirror|front|camera) /.test(text) ? "back" : undefined;
}
