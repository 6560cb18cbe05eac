import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { escapeText, writeContentLine } from "@/lib/calendar/content-line";
import { type CalendarEvent, writeCalendar } from "@/lib/calendar/write-calendar";

// Each check names the section of RFC 5545 that it was read from.

/** What every reader does first. RFC 5545, 3.1: a line break and one white space after it are taken out. */
const unfold = (text: string) => text.replace(/\r\n[ \t]/g, "");

/** RFC 5545, 3.3.11, read the other way round. */
const readText = (escaped: string) =>
  escaped.replace(/\\(.)/g, (_both, sign: string) => (sign === "n" || sign === "N" ? "\n" : sign));

describe("a content line", () => {
  test("3.1: the RFC's own example unfolds to what we write in one line", () => {
    // "DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line." stands there as folded.
    const folded = "DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.";
    expect(`${unfold(folded)}\r\n`).toBe(
      writeContentLine("DESCRIPTION", "This is a long description that exists on a long line."),
    );
  });

  test("3.1: at most 75 octets a line, CRLF at each end, and it unfolds to itself", () => {
    const anything = fc
      .string({ unit: "grapheme", maxLength: 400 })
      .map((text) => text.replace(/[\r\n]/g, ""));
    fc.assert(
      fc.property(anything, (text) => {
        const written = writeContentLine("SUMMARY", text);
        expect(written.endsWith("\r\n")).toBe(true);
        const lines = written.slice(0, -2).split("\r\n");
        for (const line of lines) {
          expect(new TextEncoder().encode(line).byteLength).toBeLessThanOrEqual(75);
          expect(line).not.toContain("\ufffd");
        }
        for (const line of lines.slice(1)) expect(line.startsWith(" ")).toBe(true);
        expect(unfold(written)).toBe(`SUMMARY:${text}\r\n`);
      }),
    );
  });

  test.each([
    [75, 1],
    [76, 2],
    [75 + 74, 2],
    [75 + 75, 3],
  ])("3.1: %d octets are %d lines", (octets, lines) => {
    expect(
      writeContentLine("X", "a".repeat(octets - 2))
        .trimEnd()
        .split("\r\n"),
    ).toHaveLength(lines);
  });

  test("3.1: no character of several octets is divided", () => {
    const written = writeContentLine("X", "♭".repeat(60));
    expect(written.split("\r\n").slice(0, -1).join("").replaceAll(" ", "")).toBe(`X:${"♭".repeat(60)}`);
    // "X:" and 24 signs of three octets are 74; a 25th would be 77.
    expect(written.split("\r\n")[0]).toBe(`X:${"♭".repeat(24)}`);
  });
});

describe("3.3.11: text", () => {
  test.each([
    ["\\", "\\\\"],
    [";", "\\;"],
    [",", "\\,"],
    ["\n", "\\n"],
    ["\r\n", "\\n"],
    ["\r", "\\n"],
    [":", ":"],
    ['"', '"'],
    ["\\n", "\\\\n"],
    ["a\u0000b\u0007c", "abc"],
    ["a\tb", "a\tb"],
    // The example of the section: a text of three lines.
    [
      "Project XYZ Final Review\nConference Room - 3B\nCome Prepared.",
      "Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.",
    ],
  ])("%j is written %j", (text, written) => {
    expect(escapeText(text)).toBe(written);
  });

  test("reads back as it was", () => {
    const plain = fc.string({ unit: fc.constantFrom(..."ab\\;,:\nN n♭".split("")), maxLength: 40 });
    fc.assert(fc.property(plain, (text) => readText(escapeText(text)) === text));
  });
});

const jury: CalendarEvent = {
  ...{ uid: "019a-1", sequence: 2, changedAt: new Date("2026-02-10T18:30:05.250Z"), on: "2026-03-14" },
  ...{ startsAt: "10:40", lengthSeconds: 728, summary: "Ostermark Prize, second round" },
  ...{ location: "Kestrel Hall; room 2", description: "№ 3\nplanned 12:08", url: "https://colla.test/x" },
};

describe("a calendar file", () => {
  test("3.4, 3.6: one calendar, its obligatory properties once, CRLF throughout", () => {
    const written = writeCalendar([jury]);
    expect(written.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    const lines = unfold(written).trimEnd().split("\r\n");
    expect(lines).toEqual([
      "BEGIN:VCALENDAR",
      "VERSION:2.0",
      "PRODID:-//Colla Parte//Performances//EN",
      "CALSCALE:GREGORIAN",
      "BEGIN:VEVENT",
      "UID:019a-1",
      "DTSTAMP:20260210T183005Z",
      "SEQUENCE:2",
      "DTSTART:20260314T104000",
      "DURATION:PT13M",
      "SUMMARY:Ostermark Prize\\, second round",
      "LOCATION:Kestrel Hall\\; room 2",
      "DESCRIPTION:№ 3\\nplanned 12:08",
      "URL:https://colla.test/x",
      "END:VEVENT",
      "END:VCALENDAR",
    ]);
  });

  test("3.3.5: a local time has neither a zone nor a Z; 3.8.7.2: the stamp is in UTC", () => {
    const lines = writeCalendar([jury]).split("\r\n");
    expect(lines.find((line) => line.startsWith("DTSTART"))).toMatch(/^DTSTART:\d{8}T\d{6}$/);
    expect(lines.find((line) => line.startsWith("DTSTAMP"))).toMatch(/^DTSTAMP:\d{8}T\d{6}Z$/);
  });

  test("3.6.1: without a time of day it is a date, which lasts that day, with no end", () => {
    const lines = writeCalendar([{ ...jury, startsAt: null }]).split("\r\n");
    expect(lines).toContain("DTSTART;VALUE=DATE:20260314");
    expect(lines.some((line) => /^(DURATION|DTEND)/.test(line))).toBe(false);
  });

  test.each([
    [0, "PT1M"],
    [60, "PT1M"],
    [61, "PT2M"],
    [7200, "PT120M"],
  ])("3.3.6: %d seconds are %s", (lengthSeconds, duration) => {
    expect(writeCalendar([{ ...jury, lengthSeconds }])).toContain(`DURATION:${duration}\r\n`);
  });

  test("what is empty is left out; a name cannot begin a property of its own", () => {
    const written = writeCalendar([
      { ...jury, location: "", description: "", url: null, summary: "x\r\nATTACH:http://elsewhere.test" },
    ]);
    expect(written).not.toMatch(/\r\n(LOCATION|DESCRIPTION|URL|ATTACH)/);
    expect(written).toContain("SUMMARY:x\\nATTACH:http://elsewhere.test\r\n");
  });

  test.each([
    [{ on: "2026-02-30" }],
    [{ on: "14.3.2026" }],
    [{ startsAt: "24:00" }],
    [{ startsAt: "9:30" }],
    [{ sequence: -1 }],
    [{ lengthSeconds: Number.NaN }],
  ])("%j is refused", (change) => {
    expect(() => writeCalendar([{ ...jury, ...change }])).toThrow(RangeError);
  });
});
