import type { Wording } from "../../wording/wording.js";
import type { GroupFacing } from "./bands.js";

/** Who faces where: "Ebb facing front", "Flood facing back". */
export function facingTexts(facings: readonly GroupFacing[], { print, stance }: Wording): readonly string[] {
  return facings.map(({ group, facing }) => print.faces(group, stance.facing(facing)));
}
