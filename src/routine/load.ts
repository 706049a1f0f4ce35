import type { Version } from "./routine.js";
import type { Contact } from "./vocabulary.js";

/** Contacts of a run of moves by part of the body, in the order in which they first come up: each move counts once. */
export function loadOf(moves: readonly { readonly contacts: readonly Contact[] }[]): Version["load"] {
  const load: Partial<Record<Contact, number>> = {};
  for (const { contacts } of moves) for (const part of new Set(contacts)) load[part] = (load[part] ?? 0) + 1;
  return load;
}
