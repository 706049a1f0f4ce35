export const data = { pagination: { data: "onlyShared", size: 1 }, permalink: "library.json" };

/** Everything that the library page is made from, for whoever wants to search it in another way. */
export function render({ site }) {
  const { cards, workshops } = site.home();
  return `${JSON.stringify({ name: site.library().name, routines: cards.map(({ facts }) => facts), workshops }, null, 1)}\n`;
}
