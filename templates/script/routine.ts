import { noticesWording } from "../../src/wording/notices.js";
import { putInAddress } from "./address.js";
import { answerQuestions } from "./ask.js";
import { copyText } from "./copy.js";
import { linkToFiles } from "./folder.js";
import { foldOnPhones, openByTap } from "./folds.js";
import { rememberGroup } from "./groups.js";
import { keepForLater, offerToKeep } from "./keep.js";
import { practise } from "./practice/main.js";

/*
 * The choice of version and side lives in the form, where the style sheet sees it, and in the address, so that a link
 * shows what its sender saw. The root element carries it too, for the player: `data-version`, `data-side`, `data-group`, and an event
 * `countleaf:view` of the document when they change.
 */
const root = document.documentElement;
root.dataset.script = "";
const wording = noticesWording(root.lang);

function part<T extends Element>(selector: string): T | null {
  return document.querySelector<T>(selector);
}

const versions = [...document.querySelectorAll<HTMLInputElement>('.choice input[name="version"]')];
const groups = [...document.querySelectorAll<HTMLInputElement>('.whose input[name="group"]')];
const choice = part<HTMLElement>(".choice");
const mirrored = part<HTMLInputElement>("#mirrored");
const beside = part<HTMLInputElement>("#beside");
const taught = versions.find((version) => version.defaultChecked)?.value;

/** Says what is chosen to a style sheet that can't look into the form. */
function showChosen(): void {
  const chosen = [...versions, ...groups].filter(({ checked }) => checked).map(({ id }) => id);
  const article = part<HTMLElement>("[data-shown]");
  if (article) article.dataset.shown = [...chosen, ...(beside?.checked ? ["others"] : [])].join(" ");
}

/** Hands the choice to the player. */
function announceView(): void {
  root.dataset.version = versions.find((version) => version.checked)?.value ?? taught ?? "";
  root.dataset.side = mirrored?.checked ? "mirrored" : "as-taught";
  root.dataset.group = groups.find((group) => group.checked)?.value ?? "";
  showChosen();
  document.dispatchEvent(new Event("countleaf:view"));
}

/** The page's address with the choice in it; what is as taught is left out. */
function addressOfView(): URL {
  const address = new URL(location.href);
  const { version, side } = root.dataset;
  const put = (name: string, value: string | undefined, usual: string | undefined) => {
    if (value === undefined || value === usual) address.searchParams.delete(name);
    else address.searchParams.set(name, value);
  };
  put("version", version, taught);
  put("group", groups.find((group) => group.checked)?.value, "");
  put("side", side, "as-taught");
  put("beside", beside?.checked ? "others" : "nothing", "nothing");
  return address;
}

function readAddress(): void {
  const wanted = new URLSearchParams(location.search);
  const version = versions.find(({ value }) => value === (wanted.get("version") ?? taught));
  if (version) version.checked = true;
  const group = groups.find(({ value }) => value === (wanted.get("group") ?? ""));
  if (group) group.checked = true;
  if (mirrored) mirrored.checked = wanted.get("side") === "mirrored";
  if (beside) beside.checked = wanted.get("beside") === "others";
  announceView();
}

for (const field of [...versions, ...groups, mirrored, beside])
  field?.addEventListener("change", () => {
    announceView();
    putInAddress(addressOfView());
  });
addEventListener("popstate", readAddress);
readAddress();

part("[data-share]")?.addEventListener("click", () => {
  const address = addressOfView();
  address.hash = "";
  copyText(address.href, part("[data-shared]"), wording.linkCopied, wording);
});
part("[data-copy]")?.addEventListener("click", () => {
  copyText(part(".video-text pre")?.textContent ?? "", part(".video-text [role=status]"), wording.textCopied, wording);
});

answerQuestions(wording);
practise();
linkToFiles();
void keepForLater();
const [keepButton, keptLine] = [part<HTMLButtonElement>("[data-keep]"), part("[data-kept]")];
if (keepButton && keptLine) void offerToKeep(keepButton, keptLine, wording);

if (choice) openByTap(choice);
foldOnPhones();
if (groups.length > 0) rememberGroup(groups, part<HTMLElement>(".routine")?.dataset.slug ?? "", announceView);

/* How high the choice stands, so that what is jumped to is not hidden by it: in a sheet of its own, as no element has a style. */
if (choice && "adoptedStyleSheets" in document) {
  const sheet = new CSSStyleSheet();
  // Set anew: in its first years the list could not be added to.
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  const measure = () => sheet.replaceSync(`:root{--choice:${choice.offsetHeight}px}`);
  // At once too: a page that is opened at a heading jumps there for the last time when it has loaded, and an observer may come later.
  measure();
  new ResizeObserver(measure).observe(choice);
}
