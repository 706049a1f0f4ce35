/** Of a page that was opened from a folder: what leads to a folder leads to the page in it, as a host would. */
export function linkToFiles(): void {
  if (location.protocol !== "file:") return;
  for (const link of document.querySelectorAll("a"))
    if (link.protocol === "file:" && link.pathname.endsWith("/")) link.pathname += "index.html";
}
