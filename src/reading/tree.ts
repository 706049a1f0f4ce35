import { isAlias, isMap, isScalar, isSeq, type Node, type Pair, Scalar, type YAMLMap, type YAMLSeq } from "yaml";
import type { Place } from "../routine/problem.js";
import type { Report } from "./finding.js";
import { inQuotes, longestLine } from "./mistakes/mistake.js";
import { eitherOf, suggested } from "./nearest.js";
import { commaMessage, emptyMessage } from "./no-value.js";
import { normalText } from "./normal-text.js";
import { type Path, placeOf } from "./place.js";
import type { KeyNames } from "./schema/keys.js";
import { warnOfText } from "./text-warnings.js";
import { offsetOf, readKey, twice, unprintable } from "./tree-key.js";

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

interface Walk {
  readonly source: string;
  readonly report: Report;
  readonly keys: KeyNames;
  readonly places: Map<Place, Standing>;
  readonly broken: Set<Place>;
}

/* Stands for a value that has its finding already. */
const nothing = Symbol("nothing");

/** Reads the nodes of a YAML document. No alias is followed and no tag obeyed: each is a finding. */
export function readTree(root: Node | null, source: string, report: Report, keys: KeyNames): Tree {
  const walk: Walk = { source, report, keys, places: new Map(), broken: new Set() };
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
  const sign = specialSign(node);
  if (sign !== undefined) return refuse("special-start", specialMessage(walk.source, at, sign, path));
  if (isMap(node)) return readMapping(walk, node, path);
  if (isSeq(node)) return readList(walk, node, path);
  if (!isScalar(node)) return nothing;
  const text = String(node.value ?? "");
  if (unprintable.test(text))
    return refuse("unprintable", "This text holds a character that cannot be printed: type it again.");
  warnOfText(walk.source, node, path, walk.report, walk.keys);
  return normalText(text);
}

const plainTags = ["tag:yaml.org,2002:str", "tag:yaml.org,2002:map", "tag:yaml.org,2002:seq"];

/** The sign at a value's beginning that means something to YAML and, here, to nobody else. */
function specialSign(node: Node): string | undefined {
  if (isAlias(node)) return "*";
  if (node.anchor !== undefined) return "&";
  return node.tag !== undefined && !plainTags.includes(node.tag) ? "!" : undefined;
}

/** What is said of it, with the author's words as they should be, where they can be told; YAML counts the sign for no part of them. */
function specialMessage(source: string, at: number, sign: string, path: Path): string {
  const start = `A text that begins with \`${sign}\` must stand in quotes`;
  const before =
    source
      .slice(Math.max(0, at - longestLine), at)
      .split("\n")
      .at(-1) ?? "";
  const from = source[at] === sign ? 0 : before.length - before.lastIndexOf(sign);
  if (from > before.length) return `${start}.`;
  const inBrackets = (before.match(/[[{]/g) ?? []).length > (before.match(/[\]}]/g) ?? []).length;
  const end = inBrackets ? /^[^\n,\]}]*/ : /^.*?(?=\s+#|$)/m;
  const text = inQuotes(end.exec(source.slice(at - from, at + longestLine))?.[0].trimEnd() ?? "");
  const key = path.at(-1);
  return `${start}: ${suggested(typeof key === "string" ? `${key}: ${text}` : text)}.`;
}

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
  const pairs = mapping.items as Pair<Node | null, Node | null>[];
  let before: { readonly key: string; readonly value: unknown } | undefined;
  let first: string | undefined;
  let another = false;
  let outside = 0;
  for (const [index, pair] of pairs.entries()) {
    // What belongs to the empty move before it has been said.
    if (outside-- > 0) continue;
    const key = readKey(pair.key, walk.report);
    if (key === undefined) continue;
    const here = [...path, key];
    const at = offsetOf(pair.key);
    first ??= key;
    if (Object.hasOwn(values, key)) {
      const entry = key === first && path.length > 0 && !mapping.flow ? entryText(key, pair.value) : undefined;
      // What follows where a dash is missing is there for the second time as well, and no mistake of its own.
      if (!another) walk.report("error", "key-twice", twice(key, entry), at);
      another ||= entry !== undefined;
      continue;
    }
    if (!pair.value || isEmpty(pair.value)) {
      const parts = mapping.flow === true || !/^\d/.test(key) ? [] : partsBelow(pairs.slice(index + 1), walk.keys);
      if (parts.length > 0) {
        walk.report("error", "indent", tooFarLeft(parts, key), offsetOf(pairs[index + 1]?.key ?? null));
        walk.broken.add(placeOf(here));
        outside = parts.length;
        continue;
      }
      const cut = mapping.flow === true && !pair.value;
      // Of several that commas made one after the other, the first speaks for all.
      const spoken = cut && index > 0 && !pairs[index - 1]?.value;
      if (!spoken) {
        const message = cut
          ? commaMessage(cutKeys(pairs, index), String(path.at(-1) ?? ""), walk.keys, before)
          : emptyMessage(key, walk.source.slice(at), walk.keys);
        walk.report("error", "no-value", message, at);
      }
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

/** The keys of a move that stand below its empty count, in the column of the counts. */
function partsBelow(pairs: readonly Pair<Node | null, Node | null>[], { isKey }: KeyNames): readonly string[] {
  const names = pairs.map(({ key }) => (isScalar(key) ? String(key.value ?? "") : ""));
  const end = names.findIndex((name) => /^\d/.test(name) || !isKey(name));
  const parts = end < 0 ? names : names.slice(0, end);
  return parts.includes("do") ? parts : [];
}

function tooFarLeft(parts: readonly string[], count: string): string {
  const them = parts.length === 1 ? ["belongs", "it"] : ["belong", "them"];
  const names = eitherOf(
    parts.map((part) => `\`${part}\``),
    "and",
  );
  return `${names} ${them[0]} to \`${count}\`: begin ${them[1]} two spaces further right.`;
}

function entryText(key: string, value: Node | null): string {
  return `${key}: ${isScalar(value) && typeof value.value === "string" ? value.value : "…"}`;
}

/** Keys without a value from one on, as far as they follow each other. */
function cutKeys(pairs: readonly Pair<Node | null, Node | null>[], from: number): readonly string[] {
  const end = pairs.findIndex(({ value }, index) => index > from && value !== null);
  const cut = pairs.slice(from, end < 0 ? undefined : end);
  return cut.map(({ key }) => (isScalar(key) ? String(key.value ?? "") : ""));
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
