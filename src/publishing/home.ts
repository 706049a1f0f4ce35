import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** The package's folder, seen from the source as from the bundled program, whose files lie as deep as this one. */
const home = fileURLToPath(new URL("../../", import.meta.url));

/** The compiled page templates. */
export const pagesDir = join(home, "dist/pages");

/** The bundled browser scripts. */
export const scriptsDir = join(home, "dist/script");

/** The script of the report on a draft, which is part of that page. */
export const reportScript = join(home, "dist/report/report.js");

/** The scripts of the song desk, which `serve` has and no library is published with. */
export const songScriptsDir = join(home, "dist/song");

/** Styles and images, as they lie in the package. */
export const templatesDir = join(home, "templates");
