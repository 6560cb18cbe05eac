import { describe, expect, test } from "vitest";
import { readInvitationLink } from "@/app/(desk)/_home/read-invitation-link";
import { firstName, sayPlays, sayWaiting } from "@/app/(desk)/_home/say-waiting";
import type { Waiting } from "@/lib/store/proposals/list-waiting";

const from = (name: string, pieceTitle: string): Waiting => ({
  ...{ kind: "edition", pieceId: pieceTitle, pieceTitle, from: name, since: new Date(0) },
  ...{ editionNumber: 1, hash: "" },
});

describe("what waits, in the headline", () => {
  test.each([
    [[], "Nothing waits for you", null],
    [[["Ada Falk", "Romance"]], "One answer waits for you", "From Ada, in Romance."],
    [
      [
        ["Ada Falk", "Romance"],
        ["Ada Falk", "Romance"],
      ],
      "Two answers wait for you",
      "Both from Ada, both in Romance.",
    ],
    [
      [
        ["Ada Falk", "Romance"],
        ["Ada Falk", "Scena"],
      ],
      "Two answers wait for you",
      "Both from Ada, in Romance and Scena.",
    ],
    [
      [
        ["Ada Falk", "Romance"],
        ["Per Lund", "Scena"],
        ["Per Lund", "Scena"],
      ],
      "Three answers wait for you",
      "From Ada and Per.",
    ],
  ] as [[string, string][], string, string | null][])("%j", (waiting, headline, below) =>
    expect(sayWaiting(waiting.map(([name, piece]) => from(name, piece)))).toEqual({ headline, below }),
  );

  test("more than ten are said in figures", () => {
    const waiting = Array.from({ length: 11 }, () => from("Ada", "Romance"));
    expect(sayWaiting(waiting).headline).toBe("11 answers wait for you");
  });
});

test.each([
  ["pianist", "Clarinet in B♭", "piano"],
  ["soloist", "Clarinet in B♭", "clarinet in B♭"],
  ["soloist", undefined, "solo"],
  ["coach", "Clarinet in B♭", "coach"],
])("%s of a piece for %s", (role, solo, words) => expect(sayPlays(role, solo)).toBe(words));

test.each([
  ["Ada Falk", "Ada"],
  ["  Ada ", "Ada"],
  ["Ada", "Ada"],
])("first name of %j", (name, first) => expect(firstName(name)).toBe(first));

const token = "tJtwrHZlGOCqAvks1M-WZx7xeFvF38P8_MA0evFVCyw";

test.each([
  [`https://example.org/invitation/${token}`, `/invitation/${token}`],
  [` http://localhost:3000/invitation/${token}/ `, `/invitation/${token}`],
  [token, `/invitation/${token}`],
  ["https://example.org/invitation/", null],
  ["https://example.org/pieces/abc", null],
  ["javascript:alert(1)", null],
  [`/invitation/${token}?x=1`, null],
  ["", null],
])("the path in %j", (text, path) => expect(readInvitationLink(text)).toBe(path));
