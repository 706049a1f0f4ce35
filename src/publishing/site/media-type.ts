import { extname } from "node:path";

const types: Readonly<Record<string, string>> = {
  ".css": "text/css",
  ".html": "text/html",
  ".js": "text/javascript",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".webmanifest": "application/manifest+json",
  ".woff2": "font/woff2",
  ".xml": "application/xml",
};

/** The media type of a file of the site, by the ending of its name. */
export function mediaTypeOf(path: string): string {
  return types[extname(path)] ?? "application/octet-stream";
}
