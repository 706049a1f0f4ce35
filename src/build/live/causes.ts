import type { Finding } from "../../reading/finding.js";
import { saysOfCounts } from "../../reading/read-routine.js";

/** What is wrong, causes first. */
export interface Causes {
  readonly causes: readonly Finding[];
  /** What may be wrong for no other reason than that the causes are. */
  readonly consequences: readonly Finding[];
}

/**
 * Where a file says something that can't be read, its counts are looked at without it: what is wrong with them may follow from that. Of
 * several files the library's comes first and a routine's before a class's that dances it.
 */
export function byCause(findings: readonly Finding[]): Causes {
  const unread = new Set(findings.filter(({ rule }) => !saysOfCounts(rule)).map(({ file }) => file));
  const follows = ({ file, rule }: Finding) => saysOfCounts(rule) && unread.has(file);
  const depth = ({ file }: Finding) => (/(^|\/)routines\//.test(file) ? 1 : /(^|\/)workshops\//.test(file) ? 2 : 0);
  return {
    causes: findings.filter((one) => !follows(one)).sort((a, b) => depth(a) - depth(b)),
    consequences: findings.filter(follows),
  };
}
