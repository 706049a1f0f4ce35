import type { Routine } from "../../routine/routine.js";
import { slug } from "../slug.js";

/** Most letters of a group's name in a file's name: with a long version's name too, one that every disk takes. */
const most = 40;

/**
 * What stands for each group in the names of its files: its own name, "flood", unless a file with that name would be another's; then its
 * place in the list, "group-2".
 */
export function groupNames({ groups, versions }: Pick<Routine, "groups" | "versions">): readonly string[] {
  const ids = versions.map(({ id }) => id.toLowerCase());
  const taken = new Set(ids.flatMap((id) => [id, ...["mirrored", "large", "card"].map((kind) => `${id}-${kind}`)]));
  return groups.map((group, index) => {
    const free = (name: string) => name !== "" && ids.every((id) => !taken.has(`${id}-${name}`));
    const placed = `group-${index + 1}`;
    let name = slug(group).slice(0, most).replace(/-+$/, "");
    for (let again = 1; !free(name); again++) name = again === 1 ? placed : `${placed}-${again}`;
    for (const id of ids) taken.add(`${id}-${name}`);
    return name;
  });
}
