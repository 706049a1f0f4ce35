import { type Content, readContent } from "../reading/read-content.js";
import { teachingSettings } from "../teaching/settings.js";

/** Reads a content folder whole, the class planner's settings looked at as well. */
export function look(contentDir: string): Promise<Content> {
  return readContent(contentDir, { checkTeaching: (teaching) => teachingSettings(teaching).problems });
}
