import { dancersOf } from "./chart.js";
import type { Routine, Version } from "./routine.js";
import { groupsMeeting } from "./whose.js";

/**
 * The routine as one of its groups dances it, as if there were no other: its moves, its start, the cautions that it meets. Where it
 * begins later in canon, that stays: its sheet has the numbers of the room over its own.
 *
 * @example asDancedBy(routine, "Flood").versions[0].moves[0].cue.text // "Sink to the knees"
 */
export function asDancedBy(routine: Routine, group: string): Routine {
  return {
    ...routine,
    groups: [],
    sections: routine.sections.map((section) => ({
      ...section,
      canon: section.canon.filter((one) => one.group === group),
      parts: [],
    })),
    versions: routine.versions.map((version) => versionOf(routine, version, group)),
  };
}

function versionOf(routine: Routine, version: Version, group: string): Version {
  const dancers = dancersOf(routine, version).find((one) => one.group === group);
  if (dancers === undefined) throw new Error(`The routine ${routine.slug} has no group ${group}.`);
  const { load, space } = version.groups.find(({ name }) => name === group) ?? version;
  const cautions = version.cautions.filter((risk) => {
    const met = groupsMeeting(routine, version, risk);
    return met.length === 0 || met.includes(group);
  });
  const { moves, start, end } = dancers;
  return { ...version, ...{ moves, start, end, load, space, cautions }, groups: [] };
}
