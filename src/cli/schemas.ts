import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { writeSchemas } from "../reading/json-schema.js";
import { withKeyTable } from "../reading/key-table.js";

/* Brings what is made from the schemas up to date, in a clone: the editors' schemas and the README's table of keys. */
await writeSchemas("templates/schemas");
if (existsSync("README.md")) writeFileSync("README.md", withKeyTable(readFileSync("README.md", "utf8")));
