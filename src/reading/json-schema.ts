import * as z from "zod";
import { rest } from "./place.js";
import { librarySchema } from "./schema/library.js";
import { described } from "./schema/presets.js";
import { routineSchema } from "./schema/routine.js";
import { type Unwrapped, unwrap } from "./schema/walk.js";
import { workshopSchema } from "./schema/workshop.js";

/** The three kinds of file and what may stand in their YAML. */
export const schemas = { library: librarySchema, routine: routineSchema, workshop: workshopSchema } as const;

/** A JSON Schema (draft 7, which editors know best) by the name of its file. */
export function schemaFiles(): ReadonlyMap<string, string> {
  return new Map(
    Object.entries(schemas).map(([name, schema]) => [
      `${name}.schema.json`,
      `${JSON.stringify(jsonSchema(name, schema), null, 2)}\n`,
    ]),
  );
}

function jsonSchema(name: string, schema: z.ZodType): object {
  const made = z.toJSONSchema(schema, {
    io: "input",
    target: "draft-7",
    unrepresentable: "any",
    override: ({ zodSchema, jsonSchema: json }) => adapt(json, unwrap(zodSchema)),
  });
  return { title: `Countleaf ${name}`, ...made };
}

/* An editor sees numbers and yes as YAML resolves them, and counts and versions beside the fixed keys. */
function adapt(json: z.core.JSONSchema.BaseSchema, about: Unwrapped): void {
  const { editor } = json;
  for (const note of ["editor", "wants", "example", "also", "instead", "ownWords", "standIn", "default"])
    delete json[note];
  if (json.description !== undefined) json.description = described(about);
  if (typeof editor === "object" && editor !== null) {
    for (const key of ["type", "pattern"]) delete json[key];
    Object.assign(json, editor);
  }
  const others = json.properties?.[rest];
  if (!json.properties || others === undefined) return;
  delete json.properties[rest];
  json.required = json.required?.filter((key) => key !== rest) ?? [];
  if (json.required.length === 0) delete json.required;
  if (typeof others !== "object" || typeof others.additionalProperties !== "object") return;
  const pattern = typeof others.propertyNames === "object" ? others.propertyNames.pattern : undefined;
  if (pattern === undefined) json.additionalProperties = others.additionalProperties;
  else json.patternProperties = { [pattern]: others.additionalProperties };
}
