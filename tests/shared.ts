import { inject } from "vitest";

/** What one run of the tests makes once, for every file that asks. */
export type Made = "browser" | "demo";

declare module "vitest" {
  interface ProvidedContext {
    /** The address at which the run answers with what it has made. */
    readonly shared: string;
  }
}

/** Where it is: the browser's endpoint, the folder of the published demo library. Made for the first who asks. */
export async function made(what: Made): Promise<string> {
  const response = await fetch(inject("shared") + what);
  const text = await response.text();
  if (!response.ok) throw new Error(text);
  return text;
}
