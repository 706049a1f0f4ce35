export const data = { pagination: { data: "onlyShared", size: 1 }, permalink: "library.json" };

/** Everything that the library page is made from, for whoever wants to search it in another way. */
export function render() {
  const { cards, workshops } = this.libraryView();
  return `${JSON.stringify({ name: this.library().name, routines: cards.map(({ facts }) => facts), workshops }, null, 1)}\n`;
}
