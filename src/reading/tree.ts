import {
  isAlias,
  isCollection,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  Scalar,
  type YAMLMap,
  type YAMLSeq,
} from "yaml";
import type { Place, Severity } from "../routine/problem.js";
import { quoted } from "./nearest.js";
import { type Path, placeOf } from "./place.js";
import { inQuotes } from "./slips.js";
import { commentWarning } from "./swallowed.js";

/** What a front matter says, as texts, lists and mappings, and where each part of it stands. */
export interface Tree {
  readonly value: unknown;
  /** Offsets into the text by place: of the key (or the list item), and of the value. */
  readonly places: ReadonlyMap<Place, Standing>;
  /** Parts that could not be read: they have their finding, and nothing else is to be said of them. */
  readonly broken: ReadonlySet<Place>;
}

/** Where a key (or a list's entry) and its value begin. */
export interface Standing {
  readonly key: number;
  readonly value: number;
  /** True of a text: what is said of a part of it is said of the whole. */
  readonly text: boolean;
}

export type Report = (severity: Severity, rule: string, message: string, offset: number) => void;

interface Walk {
  readonly source: string;
  readonly report: Report;
  readonly places: Map<Place, Standing>;
  readonly broken: Set<Place>;
}

/* Stands for a value that has its finding already. */
const nothing = Symbol("nothing");

/** Reads the nodes of a YAML document. No alias is followed and no tag obeyed: each is a finding. */
export function readTree(root: Node | null, source: string, report: Report): Tree {
  const walk: Walk = { source, report, places: new Map(), broken: new Set() };
  walk.places.set("", { key: 0, value: offsetOf(root), text: isScalar(root) });
  const value = root ? read(walk, root, []) : nothing;
  return { value: value === nothing ? undefined : value, places: walk.places, broken: walk.broken };
}

function read(walk: Walk, node: Node, path: Path): unknown {
  const at = offsetOf(node);
  const refuse = (rule: string, message: string) => {
    walk.report("error", rule, message, at);
    walk.broken.add(placeOf(path));
    return nothing;
  };
  if (isAlias(node)) {
    return refuse(
      "special-start",
      'A text that begins with `*` must stand in quotes, for example `do: "*Soft* knees"`.',
    );
  }
  if (node.anchor !== undefined) {
    return refuse("special-start", 'A text that begins with `&` must stand in quotes, for example `do: "& hold"`.');
  }
  if (
    node.tag !== undefined &&
    !["tag:yaml.org,2002:str", "tag:yaml.org,2002:map", "tag:yaml.org,2002:seq"].includes(node.tag)
  ) {
    return refuse("special-start", 'A text that begins with `!` must stand in quotes, for example `do: "!"`.');
  }
  if (isMap(node)) return readMapping(walk, node, path);
  if (isSeq(node)) return readList(walk, node, path);
  if (!isScalar(node)) return nothing;
  const text = String(node.value ?? "");
  if (unprintable.test(text))
    return refuse("unprintable", "This text holds a character that cannot be printed: type it again.");
  if (node.type === Scalar.PLAIN && /^[“”„].*[“”]$/su.test(text)) {
    const straight = `"${text.slice(1, -1)}"`;
    walk.report(
      "warning",
      "curly-quotes",
      `These curly quotes will be printed. If they are only to hold the text together, type straight ones: ${quoted(straight)}.`,
      at,
    );
  }
  commentWarning(walk.source, node, path, walk.report);
  return text;
}

/* C0 and C1 but for tab and line feed, the two Unicode line ends, non-characters, halves of a pair. */
const unprintable = /(?![\t\n])\p{Cc}|[\u2028\u2029\ufffe\uffff]|\p{Surrogate}/u;

function readList(walk: Walk, list: YAMLSeq, path: Path): unknown[] {
  const values: unknown[] = [];
  for (const item of list.items) {
    const node = item as Node | null;
    const here = [...path, values.length];
    const at = node ? offsetOf(node) : offsetOf(list);
    if (!node || isEmpty(node)) {
      walk.report("error", "no-value", "This entry of the list is empty: write something or remove it.", at);
      continue;
    }
    walk.places.set(placeOf(here), { key: at, value: at, text: isScalar(node) });
    const value = read(walk, node, here);
    if (value !== nothing) values.push(value);
    else walk.broken.add(placeOf(path));
  }
  return values;
}

function readMapping(walk: Walk, mapping: YAMLMap, path: Path): Record<string, unknown> {
  const values: Record<string, unknown> = {};
  let before: { readonly key: string; readonly value: unknown } | undefined;
  for (const pair of mapping.items as Pair<Node | null, Node | null>[]) {
    const key = readKey(walk, pair.key, values);
    if (key === undefined) continue;
    const here = [...path, key];
    const at = offsetOf(pair.key);
    if (!pair.value || isEmpty(pair.value)) {
      const message =
        mapping.flow && !pair.value ? commaMessage(key, before) : emptyMessage(key, walk.source.slice(at));
      walk.report("error", "no-value", message, at);
      walk.broken.add(placeOf(here));
      continue;
    }
    walk.places.set(placeOf(here), { key: at, value: offsetOf(pair.value), text: isScalar(pair.value) });
    const value = read(walk, pair.value, here);
    before = { key, value };
    if (value !== nothing) values[key] = value;
  }
  return values;
}

function readKey(walk: Walk, node: Node | null, values: Record<string, unknown>): string | undefined {
  const at = offsetOf(node);
  if (!isScalar(node) || node.anchor !== undefined) {
    walk.report("error", "odd-key", "A key must be a plain word or a count, for example `title:` or `1-3:`.", at);
    return undefined;
  }
  const key = String(node.value ?? "");
  if (oddSpaceAround.test(key)) {
    walk.report(
      "error",
      "odd-space",
      "A special space stands here, perhaps pasted from elsewhere: delete it and type a plain one.",
      at,
    );
    return undefined;
  }
  if (key === "__proto__" || key === "<<" || key === "" || unprintable.test(key)) {
    walk.report(
      "error",
      "unknown-key",
      `${key === "" ? "A colon without a word before it" : quoted(key)} is not a key here.`,
      at,
    );
    return undefined;
  }
  if (Object.hasOwn(values, key)) {
    walk.report("error", "key-twice", `${quoted(key)} stands here for the second time: keep one of the two.`, at);
    return undefined;
  }
  return key;
}

/* Spaces that are not the space bar's come along with text from web pages and word processors. */
const oddSpaceAround = /^[\u00a0\u2000-\u200b\u202f\u3000]|[\u00a0\u2000-\u200b\u202f\u3000]$/;

function commaMessage(key: string, before?: { readonly key: string; readonly value: unknown }): string {
  const start = `${quoted(key)} has no value: inside { } a comma begins a new key.`;
  if (typeof before?.value !== "string")
    return `${start} Write \`key: value\`, for example \`{ do: Walk, step: left }\`.`;
  const whole = (text: string) => quoted(`${before.key}: ${inQuotes(text)}`);
  const text = `${before.value}, ${key}`;
  if (/^[“”„]/.test(text))
    return `${start} Curly quotes do not hold a text together; type straight ones: ${whole(text.replace(/[“”„]/g, ""))}.`;
  return `${start} If it belongs to the text before it, put that in quotes: ${whole(text)}.`;
}

function emptyMessage(key: string, from: string): string {
  const [, remark] = /^[^\n:]*:[ \t]+(#[^\n]*)/.exec(from) ?? [];
  if (remark?.startsWith("# ") === false) {
    return `\`${key}:\` has no value: everything from the \`#\` on is left out as a remark. Put the text in quotes: ${quoted(`${key}: "${remark}"`)}.`;
  }
  return `\`${key}:\` has no value: write one after the colon, or start the lines that belong to it further in.`;
}

function isEmpty(node: Node): boolean {
  return (
    isScalar(node) &&
    node.type === Scalar.PLAIN &&
    (node.source ?? "") === "" &&
    node.tag === undefined &&
    node.anchor === undefined
  );
}

function offsetOf(node: Node | null): number {
  if (!node) return 0;
  return isCollection(node) || isScalar(node) || isAlias(node) ? (node.range?.[0] ?? 0) : 0;
}
