import { slug } from "../slug.js";

/**
 * Names sections for addresses within a page: a phrase is "harbour-wall-2", a count of it "harbour-wall-2-5". A section whose
 * name another one's addresses could be taken for, or that has no letter, goes by its place: "section-3".
 *
 * @example anchorNames(["Harbour wall", "Harbour wall 2"]) // ["harbour-wall", "section-2"]
 */
export function anchorNames(sections: readonly string[]): readonly string[] {
  const taken: string[] = ["section"];
  return sections.map((section, index) => {
    const name = slug(section);
    const free = name !== "" && !taken.some((other) => mayMeet(name, other) || mayMeet(other, name));
    const given = free ? name : `section-${index + 1}`;
    taken.push(given);
    return given;
  });
}

/** Whether one name is the other one with numbers behind it. */
function mayMeet(one: string, other: string): boolean {
  return one === other || (one.startsWith(`${other}-`) && /^(?:-\d+)+(?:-and|-e|-a)?$/.test(one.slice(other.length)));
}

/** Where counts begin, as the end of an address: "5" of "5–8", "4-and" of "4&". */
export function anchorOfCount(on: string): string {
  const [first = ""] = on.split(/[–,-]/);
  return first.replace("&", "-and").replace(/(?<=\d)([ea])$/, "-$1");
}
