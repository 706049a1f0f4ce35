/* The page at an address that a routine had before: it leads on, with the version and side that were asked for. */
const link = document.querySelector<HTMLAnchorElement>("a[data-moved]");
if (link) location.replace(link.href + location.search + location.hash);
