import { type Bare, bare } from "./walk.js";

/** What a key is for, and its default where it has one that is worth a word. */
export function described(about: Bare): string {
  const preset = presetText(about);
  return `${about.description ?? ""}${preset === "" ? "" : ` (default ${preset})`}`;
}

/** A default in words; of a mapping, those of its keys. That something is empty or off goes without saying. */
function presetText({ preset, keys = {} }: Bare): string {
  if (typeof preset === "string" || typeof preset === "number") return preset === "never" ? "" : String(preset);
  if (Array.isArray(preset)) return preset.join(", ");
  if (typeof preset !== "object") return "";
  return Object.entries(keys)
    .map(([key, inner]) => [key, presetText(bare(inner))] as const)
    .flatMap(([key, text]) => (text === "" ? [] : [`${key} ${text}`]))
    .join(", ");
}
