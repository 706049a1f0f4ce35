import qrcode from "qrcode-generator";
import { figure, type Position, type StructureElement } from "../../typesetting/print.js";
import type { Drawing, Shape } from "../../typesetting/shape.js";
import type { Wording } from "../../wording/wording.js";

/** Modules of quiet zone on every side (ISO/IEC 18004, 9.1). */
const quiet = 4;

/** A QR code (ISO/IEC 18004, error correction M) that leads to an address, `size` points square, quiet zone included. */
export function codeDrawing(address: string, size: number, { print }: Wording): Drawing {
  const code = codeFor(address);
  const count = code.getModuleCount();
  const unit = size / (count + 2 * quiet);
  const shapes: Shape[] = [];
  for (let row = 0; row < count; row++)
    for (let from = 0; from < count; from++) {
      let to = from;
      while (to < count && code.isDark(row, to)) to++;
      if (to === from) continue;
      // Neighbours overlap by a hair, so that no viewer shows a seam.
      const at = [(from + quiet) * unit, (row + quiet) * unit] as const;
      shapes.push({ kind: "box", at, width: (to - from) * unit, height: unit * 1.02, fill: "ink" });
      from = to;
    }
  return { width: size, height: size, title: print.codeTitle, description: print.code, shapes };
}

/** The same as a link, for whoever reads the sheet on a screen. */
export function codeLink(address: string, size: number, position: Position, wording: Wording): StructureElement {
  const content = [figure(codeDrawing(address, size, wording), position)];
  return { tag: "Link", alt: wording.print.codeLink(address), target: { href: address }, content };
}

/** The codes of the last sheets: some have the same one, and a code takes as long to work out as a sheet to set. */
const recent = new Map<string, QRCode>();

function codeFor(address: string): QRCode {
  const known = recent.get(address);
  if (known) return known;
  const code = qrcode(0, "M");
  code.addData(new URL(address).href);
  code.make();
  if (recent.size >= 16) recent.clear();
  recent.set(address, code);
  return code;
}
