import { writeInto } from "../../src/build/staging.js";
import { captions } from "../../src/publishing/captions/publisher.js";
import { description } from "../../src/publishing/description/publisher.js";
import { libraryPreview, preview, workshopPreview } from "../../src/publishing/preview/publisher.js";
import { record } from "../../src/publishing/record/publisher.js";
import { contextOf } from "../fixtures/context.js";
import { writeSite } from "../fixtures/write-site.js";

/** Pages with the text files that they link to. Handouts are left out: they take long. */
export async function publishInto(content: Parameters<typeof writeSite>[0], folder: string): Promise<void> {
  for (const routine of content.routines)
    for (const { publish } of [captions, description, preview, record])
      for (const file of await publish(routine, contextOf(content.library))) writeInto(folder, file);
  const write = async (files: ReturnType<typeof preview.publish>) => {
    for (const file of await files) writeInto(folder, file);
  };
  for (const workshop of content.workshops) await write(workshopPreview.publish(workshop, contextOf(content.library)));
  await write(libraryPreview.publish({ facts: content }, contextOf(content.library)));
  await writeSite(content, folder);
}
