import type { Workshop } from "../../routine/routine.js";
import type { Publisher } from "../publisher.js";
import { drawPack } from "./pack.js";

/** Everything for one class on paper: `workshops/<slug>/pack.pdf`. */
export const pack: Publisher<Workshop> = {
  name: "pack",
  async publish(workshop, library) {
    return [{ path: pathOf(workshop), content: await drawPack(workshop, library) }];
  },
  paths: (workshop) => [pathOf(workshop)],
};

function pathOf({ slug }: Workshop): string {
  return `workshops/${slug}/pack.pdf`;
}
