import type { Routine, Workshop } from "../routine/routine.js";
import { captions } from "./captions/publisher.js";
import { click } from "./click/publisher.js";
import { description } from "./description/publisher.js";
import { handout } from "./handout/publisher.js";
import { pack } from "./pack/publisher.js";
import { pictures } from "./pictures/publisher.js";
import { plan } from "./plan/publisher.js";
import { preview } from "./preview/publisher.js";
import type { Publisher } from "./publisher.js";

/** What is made of every routine. A further output is a folder and a line here. */
export const routinePublishers: readonly Publisher<Routine>[] = [
  handout,
  pictures,
  preview,
  captions,
  click,
  description,
];

/** What is made of every workshop. */
export const workshopPublishers: readonly Publisher<Workshop>[] = [plan, pack];
