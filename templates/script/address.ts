/** Puts what is chosen into the page's address. A page from a folder may not be allowed to; it works all the same. */
export function putInAddress(address: URL): void {
  try {
    history.replaceState(null, "", address);
  } catch {
    // The choice holds until the page is left, and its link can be copied.
  }
}
