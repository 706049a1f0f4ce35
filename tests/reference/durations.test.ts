import fc from "fast-check";
import Fraction from "fraction.js";
import { parse, toSeconds } from "iso8601-duration";
import { expect, test } from "vitest";
import { isoDuration, momentLink, writtenSeconds } from "../../src/publishing/format.js";

/* ISO 8601 durations with the designators T, H, M and S, a fraction only in the last; read back by iso8601-duration. */

test.each([
  ["0", "PT0S"],
  ["0.5", "PT0.5S"],
  ["63.8", "PT1M3.8S"],
  ["60", "PT1M"],
  ["760", "PT12M40S"],
  ["3600", "PT1H"],
  ["3723.004", "PT1H2M3.004S"],
  ["90061", "PT25H1M1S"],
  ["59.9996", "PT1M"],
])("%s seconds are %s", (seconds, text) => {
  expect(isoDuration(new Fraction(seconds))).toBe(text);
});

test("any length reads back to the millisecond", () => {
  fc.assert(
    fc.property(fc.nat(10_000_000_000), fc.integer({ min: 1, max: 997 }), (above, below) => {
      const seconds = new Fraction(above, below * 100);
      expect(toSeconds(parse(isoDuration(seconds)))).toBeCloseTo(seconds.round(3).valueOf(), 6);
    }),
  );
});

/* W3C Media Fragments URI 1.0, temporal dimension: "t=" and Normal Play Time in seconds, other dimensions joined by "&". */

test.each([
  ["https://example.org/video", "63.8", "https://example.org/video#t=63.8"],
  ["https://example.org/video?v=1&w=2", "0", "https://example.org/video?v=1&w=2#t=0"],
  ["https://example.org/video#t=5", "10", "https://example.org/video#t=10"],
  ["https://example.org/video#track=audio&t=1,2", "10", "https://example.org/video#track=audio&t=10"],
])("%s at %s seconds is %s", (url, seconds, link) => {
  expect(momentLink(url, new Fraction(seconds))).toBe(link);
});

test("any moment makes a time of the specification's form, and the address itself stays", () => {
  // npt-sec = 1*DIGIT [ "." *DIGIT ] (section 4.2.1 of the specification, from memory)
  fc.assert(
    fc.property(fc.webUrl({ withQueryParameters: true }), fc.nat(100_000_000), (url, milliseconds) => {
      const link = new URL(momentLink(url, new Fraction(milliseconds, 1000)));
      const [, seconds] = /^#t=(\d+(?:\.\d*)?)$/.exec(link.hash) ?? [];
      expect(Number(seconds)).toBe(milliseconds / 1000);
      link.hash = "";
      expect(link.href).toBe(new URL(url).href);
    }),
  );
});

test("seconds are written to the millisecond, half away from zero on either side of it", () => {
  expect(
    ["0.0005", "-0.0005", "1.0004999", "-2.6085", "85.0666666"].map((text) => writtenSeconds(new Fraction(text))),
  ).toEqual([0.001, -0.001, 1, -2.609, 85.067]);
});
