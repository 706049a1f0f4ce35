import type { Risk } from "../vocabulary.js";

/* How a cue comes out of what was just done. Common practice in class: no source. */
const after: Partial<Record<Risk, RegExp>> = {
  "floor-drop":
    /\b(?:from|off|along|across|on) the floor\b|\b(?:roll|press|push|get|come|spring|rise|stand|climb)(?:s|es|ing)? (?:back )?up\b/i,
  inversion:
    /\b(?:out of|from|leave|exit) (?:the |your )?(?:(?:hand|head|shoulder|forearm)-?stand|cart-?wheel)\b|\b(?:feet|legs?) (?:back |come )?down\b|\bback (?:on|onto|to) (?:the |your |both )?feet\b/i,
  backbend: /\b(?:out of|up from|from) (?:the |your )?(?:back-?bend|bridge)\b/i,
  split: /\b(?:out of|up from|from) (?:the |your )?splits?\b/i,
  jump: /\bland(?:s|ing)?\b|\b(?:out of|from) (?:the |your )?(?:jump|leap)\b/i,
  spin: /\b(?:out of|from|stop|end|finish|catch)(?:s|es|ping|ing)? (?:the |your )?(?:spin|spinning|turn|turning|pirouette)s?\b/i,
  lift: /\b(?:down|out) (?:from|of) (?:the |your )?lift\b|\b(?:set|put|lower)s? (?:her|him|them|your partner|the partner)\b/i,
  kneework: /\b(?:off|from) (?:the |your |both )*knees?\b/i,
  climb:
    /\b(?:down|off) (?:from |of )?(?:the |your )?(?:chair|stool|table|box|bench)\b|\b(?:step|climb|jump|hop)s? (?:back )?down\b/i,
  throw: /\bcatch(?:es|ing)? (?:it|the)\b/i,
  neck: /\b(?:off|from) (?:the |your )?neck\b/i,
};

/** Where a cue speaks of coming from a risk as from something that was just done, the words that do. */
export function afterRisk(text: string, risk: Risk): string | undefined {
  return after[risk]?.exec(text)?.[0];
}
