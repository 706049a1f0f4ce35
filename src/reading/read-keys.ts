import type * as z from "zod";
import { type Complaint, explain } from "./explain.js";
import type { TextFinding } from "./finding.js";
import { placeOf } from "./place.js";
import { keyNames } from "./schema/keys.js";
import { withoutFaults } from "./without-faults.js";
import { type Front, readYaml } from "./yaml.js";

/** A front matter held against its schema. */
export interface Checked<T> {
  readonly front: Front;
  /** Absent where anything is wrong. */
  readonly keys?: T;
  /** Where something is wrong: what is left without it, to look for further faults in. */
  readonly remaining?: T;
  /** Keys of the outermost mapping with something wrong in them, or in how they are spelt. */
  readonly faulty: ReadonlySet<string>;
  readonly findings: readonly TextFinding[];
}

/* A file of nothing but faults must not take minutes: past this many, the rest is not looked at. */
const most = 1000;

/** Reads YAML and checks it against a schema. */
export function readKeys<S extends z.ZodType>(yaml: string, schema: S): Checked<z.output<S>> {
  const front = readYaml(yaml, keyNames(schema));
  const result = schema.safeParse(front.value ?? {}, { reportInput: true });
  const complaints = result.success
    ? []
    : result.error.issues.slice(0, most).flatMap((issue) => explain(schema, issue));
  const said = complaints
    .filter((each) => !isSaid(front, each, complaints))
    .map((each) => asFinding(front, each))
    .filter(({ line }) => !front.isUnsure(line))
    .filter(unlikeBefore());
  const findings = [...front.findings, ...said];
  if (result.success && !findings.some(({ severity }) => severity === "error"))
    return { front, keys: result.data, findings, faulty: new Set() };
  const meant = complaints.flatMap(({ path, meant }) => (path.length === 1 && meant !== undefined ? [meant] : []));
  const faulty = new Set([...complaints.map(({ path }) => String(path[0])), ...meant, ...front.faulty]);
  const remaining = front.ragged
    ? undefined
    : result.success
      ? result.data
      : withoutFaults(schema, front.value, complaints);
  return { front, findings, faulty, ...(remaining === undefined ? {} : { remaining }) };
}

/* Of a value of the wrong kind zod also says that it has the wrong length. */
function unlikeBefore(): (finding: TextFinding) => boolean {
  const seen = new Set<string>();
  return ({ line, column, message }) => {
    const told = `${line}:${column} ${message}`;
    const isNew = !seen.has(told);
    seen.add(told);
    return isNew;
  };
}

function asFinding(front: Front, { path, part, rule, message }: Complaint): TextFinding {
  return { severity: "error", rule, message, ...front.locate(placeOf(path), part) };
}

/* Of a part that could not be read, and of what lies in it, everything has been said. */
function isSaid(front: Front, { path, rule }: Complaint, others: readonly Complaint[]): boolean {
  if (path.some((_, index) => front.isBroken(placeOf(path.slice(0, index + 1))))) return true;
  if (rule !== "missing-key") return false;
  const holder = placeOf(path.slice(0, -1));
  const isMeant = ({ meant, path: other }: Complaint) =>
    meant === path.at(-1) && placeOf(other.slice(0, -1)) === holder;
  return front.ragged || front.hasGap(holder) || others.some(isMeant);
}
