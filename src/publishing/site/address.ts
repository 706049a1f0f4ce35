const allowed = new Set(["http:", "https:", "mailto:"]);

/**
 * The address if it may stand in a link: http, https, mailto, or relative to the page. Browsers drop tabs, line ends and
 * leading control characters before they read the scheme, so it is judged as a browser would: by parsing.
 */
export function safeAddress(address: string): string | undefined {
  try {
    return allowed.has(new URL(address, "https://relative.invalid/a/b/").protocol) ? address.trim() : undefined;
  } catch {
    return undefined;
  }
}
