import { describe, expect, test } from "vitest";
import { findAgreeing } from "@/app/_data/editions/find-agreeing";
import { compareEditions } from "@/lib/edition/compare-editions";
import { toCutTerms } from "@/lib/edition/cut-terms";
import { type EditionContent, hashEdition, noMarks } from "@/lib/edition/edition-content";
import { hashText } from "@/lib/edition/hash-terms";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { timeEdition } from "@/lib/edition/time-edition";
import { readTempoMap } from "@/lib/score/tempo-map";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import type { LastApproval } from "@/lib/store/editions/last-approvals";
import { at, buildScore } from "@/test/builders/build-score";

const bars = (bar: string) => Array.from({ length: 20 }, () => bar).join(" | ");
// Twenty bars of 4/4 at 60: a bar lasts four seconds.
const score = buildScore({ metre: "4/4", tempo: 60, solo: bars("c5:w"), piano: bars("c3:w") });
const sourceHash = hashText("a source");
const names = {
  cut: () => "some bars",
  place: ({ barIndex }: { barIndex: number }) => `bar ${barIndex + 1}`,
};
const place = (barIndex: number) => ({ barIndex, offset: "0" });
const content = (changes: Partial<EditionContent> = {}): EditionContent => ({
  ...{ ...noMarks, schema: 2, sourceHash, cuts: [], tempo: printedTempo },
  partRoles: Object.fromEntries(score.parts.map(({ id, role }) => [id, role])),
  ...changes,
});
const cut = toCutTerms({ from: at(8), to: at(12) }, sourceHash);
const breath = { at: place(3) };
const cue = { at: place(5), text: "Fl." };

const yes = (
  userId: string,
  what: EditionContent | null,
  change: Partial<LastApproval> = {},
): LastApproval => ({
  ...{ userId, at: new Date("2026-05-01T14:02:00Z"), hash: what ? hashEdition(what) : "0".repeat(64) },
  ...{ content: what, isEnded: false, isTakenBack: false, ...change },
});
const edition = (number: number, what: EditionContent): EditionRecord => ({
  ...{ number, content: what, hash: hashEdition(what), cutNumbers: [], previousHash: null },
  ...{ frozenAt: new Date("2026-04-01T00:00:00Z"), rendererVersion: null, approvals: [] },
});

function agreeing(
  now: EditionContent,
  { editions = [], yeses = [] }: { editions?: EditionRecord[]; yeses?: LastApproval[] },
) {
  return findAgreeing({
    working: {
      ...{ number: editions.length + 1, content: now, hash: hashEdition(now), openProposals: 0 },
      ...{ approvals: [], lastApprovals: yeses, marksHash: "m", canFreeze: true, whyNot: null },
    },
    ...{ editions, myId: "n" },
    compare: (a, b) => compareEditions(score, readTempoMap(score), a, b, names),
    secondsOf: (what) => (what.sourceHash === sourceHash ? timeEdition(score, what).seconds : null),
  });
}
const said = ({ unseen }: ReturnType<typeof agreeing>) => unseen.map(({ sentence }) => sentence);

describe("what has to be seen before a yes", () => {
  test("is all against the print at first, told from the content whose hash is sent", () => {
    const now = content({ cuts: [cut], breaths: [breath] });
    const found = agreeing(now, {});
    expect(found).toMatchObject({ hash: hashEdition(now), since: { kind: "print" }, secondsLonger: -16 });
    expect(said(found)).toEqual(["Cut added: some bars, 0:16 shorter.", "Breath added at the end of bar 3."]);
  });

  test("is what changed since the last edition for whoever agreed to that, or never to anything", () => {
    const [old, now] = [content({ cuts: [cut] }), content({ cuts: [cut], cues: [cue] })];
    for (const yeses of [[], [yes("n", old, { isEnded: true })], [yes("m", now)]]) {
      const found = agreeing(now, { editions: [edition(1, old)], yeses });
      expect(found.since).toEqual({ kind: "edition", number: 1 });
      expect(said(found)).toEqual(["Fl. written over bar 6."]);
    }
  });

  test("is what changed since one's own last yes, be it later than the last edition", () => {
    const old = content({ cuts: [cut] });
    const mine = content({ cuts: [cut], breaths: [breath] });
    const now = content({ cuts: [cut], breaths: [breath], cues: [cue] });
    const found = agreeing(now, { editions: [edition(1, old)], yeses: [yes("n", mine)] });
    expect(found.since).toMatchObject({ kind: "my yes", at: "2026-05-01T14:02:00.000Z" });
    expect(said(found)).toEqual(["Fl. written over bar 6."]);
  });

  test("is everything since the last edition where nobody knows what the yes was given to", () => {
    const [old, now] = [content(), content({ cues: [cue] })];
    const found = agreeing(now, { editions: [edition(1, old)], yeses: [yes("n", null)] });
    expect(found.since).toEqual({ kind: "edition", number: 1 });
  });

  test("is told whole after another file: nothing of it was seen", () => {
    const old = content({ sourceHash: hashText("another") });
    const found = agreeing(content({ breaths: [breath] }), { editions: [edition(1, old)] });
    expect(said(found)).toEqual([
      "The music itself is another file, so bars cannot be compared one by one.",
      "Breath added at the end of bar 3.",
    ]);
  });

  test("is nothing where only the form in which it was frozen differs", () => {
    const found = agreeing(content(), { editions: [edition(1, content({ schema: 1 }))] });
    expect(said(found)).toEqual([]);
  });
});

describe("a yes that was overtaken", () => {
  const [old, earlier] = [content(), content({ breaths: [breath] })];
  const now = content({ breaths: [breath], cues: [cue] });
  test("is said with what changed since", () => {
    const { overtaken } = agreeing(now, { editions: [edition(1, old)], yeses: [yes("m", earlier)] });
    expect(overtaken).toMatchObject([
      { userId: "m", at: "2026-05-01T14:02:00.000Z", changes: [{ sentence: "Fl. written over bar 6." }] },
    ]);
  });

  test.each<[string, LastApproval]>([
    ["one that still holds", yes("m", now)],
    ["one that made an edition", yes("m", old, { isEnded: true })],
    ["one that was taken back", yes("m", earlier, { isEnded: true, isTakenBack: true })],
    ["one's own", yes("n", earlier)],
  ])("is not %s", (_name, given) => {
    const { overtaken } = agreeing(now, { editions: [edition(1, old)], yeses: [given] });
    expect(overtaken).toEqual([]);
  });
});
