import { existsSync, readFileSync, realpathSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { digestOf, digestsIn } from "./digest.js";
import { listFiles } from "./folders.js";

const home = realpathSync(fileURLToPath(new URL("../../", import.meta.url)));

/**
 * A digest of all that a pack is made with beside the content: this program's code (declarations aside) and templates, the packages that it uses
 * (fonts among them), and Node, whose compression decides about the bytes of a PDF.
 */
export function toolDigest(folder = home): string {
  const own = digestsIn(folder, [...listFiles(folder, "dist", ["types"]), ...listFiles(folder, "templates")]);
  return digestOf(process.version, process.arch, own, packagesOf(folder));
}

interface Package {
  readonly name?: string;
  readonly version?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
}

/** Every package that one depends on, directly or not, as "name@version". */
function packagesOf(folder: string): readonly string[] {
  const seen = new Map<string, string>();
  const visit = (home: string) => {
    const {
      name,
      version,
      dependencies = {},
    } = JSON.parse(readFileSync(join(home, "package.json"), "utf8")) as Package;
    seen.set(home, `${name}@${version}`);
    for (const dependency of Object.keys(dependencies)) {
      const place = packageFolder(home, dependency);
      if (place !== undefined && !seen.has(place)) visit(place);
    }
  };
  visit(folder);
  return [...seen.values()].sort();
}

/** Where a package is found from a folder: in the nearest `node_modules` above it. */
function packageFolder(from: string, name: string): string | undefined {
  const place = join(from, "node_modules", name);
  if (existsSync(join(place, "package.json"))) return realpathSync(place);
  const parent = dirname(from);
  return parent === from ? undefined : packageFolder(parent, name);
}
