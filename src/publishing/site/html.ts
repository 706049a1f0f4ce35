/** Markup that is safe to set into a page as it stands. Everything else is text and gets escaped. */
export interface Html {
  readonly html: string;
}

/** What a page may be put together from; `undefined` and `false` leave nothing. */
export type HtmlValue = string | number | Html | undefined | false | readonly HtmlValue[];

const escapes: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** A text as it stands in an element or in a quoted attribute, of HTML and of XML. */
export function escapeText(text: string): string {
  return /[&<>"']/.test(text) ? text.replace(/[&<>"']/g, (sign) => escapes[sign] as string) : text;
}

function render(part: HtmlValue): string {
  if (typeof part === "string") return escapeText(part);
  if (part === undefined || part === false) return "";
  if (typeof part === "number") return String(part);
  if ("html" in part) return part.html;
  let text = "";
  for (const each of part) text += render(each);
  return text;
}

/**
 * A template whose inserted texts are escaped and whose inserted markup is not.
 *
 * @example html`<p>${"a < b"}</p>`.html // "<p>a &lt; b</p>"
 */
export function html(markup: TemplateStringsArray, ...parts: readonly HtmlValue[]): Html {
  let text = markup[0] as string;
  for (let index = 0; index < parts.length; index++) text += render(parts[index]) + markup[index + 1];
  return { html: text };
}

/** Markup made elsewhere, trusted as it is. */
export function raw(markup: string): Html {
  return { html: markup };
}

/**
 * A value as the body of a JSON data block in a page: nothing in it can end the block.
 *
 * @throws TypeError on values that JSON cannot carry
 */
export function jsonBlock(value: unknown): Html {
  return {
    html: JSON.stringify(value)
      .replace(/</g, "\\u003c")
      .replace(/\u2028/g, "\\u2028")
      .replace(/\u2029/g, "\\u2029"),
  };
}
