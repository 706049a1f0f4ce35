import { type Unwrapped, unwrap } from "./walk.js";

/** What a key is for, and its default where it has one that is worth a word. */
export function described(about: Unwrapped): string {
  const preset = presetText(about);
  return `${about.description ?? ""}${preset === "" ? "" : ` (default ${preset})`}`;
}

/* That something is empty or off goes without saying; of a mapping of mappings, each says its own. */
function presetText({ preset, keys = {} }: Unwrapped): string {
  if (typeof preset === "string" || typeof preset === "number") return String(preset);
  if (Array.isArray(preset)) return preset.join(", ");
  const inner = Object.entries(keys).map(([key, schema]) => [key, unwrap(schema)] as const);
  if (typeof preset !== "object" || inner.some(([, about]) => about.keys)) return "";
  return inner.flatMap(([key, about]) => (presetText(about) === "" ? [] : [`${key} ${presetText(about)}`])).join(", ");
}
