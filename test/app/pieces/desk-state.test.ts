import { describe, expect, test } from "vitest";
import type { DeskBar, DeskCut, DeskPerson } from "@/app/_data/desk/desk";
import { type DeskState, moveDesk, startState } from "@/app/(desk)/pieces/[pieceId]/_components/desk-state";
import { afterBar, draftOf, spanOfDraft } from "@/app/(desk)/pieces/[pieceId]/_cuts/cut-draft";
import { sayAgreed, sayAside, sayCut } from "@/app/(desk)/pieces/[pieceId]/_cuts/say-cut";
import { spanOfComment } from "@/app/(desk)/pieces/[pieceId]/_talk/span-of-comment";
import { at } from "@/test/builders/build-score";

const bars: DeskBar[] = Array.from({ length: 10 }, (_, index) => ({
  label: `${index + 1}`,
  length: "4",
  beats: ["0", "1", "2", "3"],
  solo: "",
}));
const person = (userId: string, name: string, role: DeskPerson["role"]): DeskPerson => ({
  ...{ userId, name, role },
  initial: name.charAt(0),
  hasLeft: false,
});
const pianist = person("p", "Ada Quill", "pianist");
const soloist = person("s", "Bram Oor", "soloist");
const people = [pianist, soloist];

function cut(change: Partial<DeskCut> = {}): DeskCut {
  return {
    ...{ id: "c1", number: 2, state: "open", proposedBy: "s", createdAt: "2026-02-22T21:14:00Z", reason: "" },
    ...{ termsHash: "h", from: { barIndex: 2, offset: "0" }, to: { barIndex: 5, offset: "0" } },
    ...{ name: "bars 3–5", firstBar: 2, lastBar: 4, gaps: [], weight: null, answers: [], instead: null },
    ...{ frozenIn: [], isStale: false, waitsForMe: true, why: null },
    ...change,
  };
}

describe("choosing a cut", () => {
  test("whole bars: play up to the first, go on after the last", () => {
    expect(draftOf({ bars }, { firstBar: 2, lastBar: 4 })).toMatchObject({
      from: { barIndex: 2, offset: "0" },
      to: { barIndex: 5, offset: "0" },
    });
    expect(spanOfDraft({ from: { barIndex: 2, offset: "0" }, to: { barIndex: 5, offset: "0" } })).toEqual({
      firstBar: 2,
      lastBar: 4,
    });
  });

  test("after the last bar is the end of the piece, which is no bar line of a next bar", () => {
    expect(afterBar(bars, 9)).toEqual({ barIndex: 9, offset: "4" });
    expect(spanOfDraft({ from: { barIndex: 8, offset: "0" }, to: afterBar(bars, 9) })).toEqual({
      firstBar: 8,
      lastBar: 9,
    });
  });
});

describe("the piece screen", () => {
  const start = startState({ cuts: [cut({ id: "mine", waitsForMe: false }), cut({ id: "waits" })] });
  const run = (state: DeskState, ...moves: Parameters<typeof moveDesk>[1][]) => moves.reduce(moveDesk, state);

  test("opens with what waits for an answer in front", () => {
    expect(start.openCutId).toBe("waits");
    expect(startState({ cuts: [cut({ state: "agreed", waitsForMe: false })] }).openCutId).toBeNull();
  });

  test("marking bars while a cut is being chosen moves its ends", () => {
    const state = run(
      start,
      { kind: "draft", draft: draftOf({ bars }, { firstBar: 0, lastBar: 0 }) },
      { kind: "mark", marking: { anchor: 6, head: 3 }, desk: { bars } },
    );
    expect(state.draft).toMatchObject({
      from: { barIndex: 3, offset: "0" },
      to: { barIndex: 7, offset: "0" },
    });
    expect(state.draft?.replaces).toBeNull();
  });

  test("a counter-proposal keeps what it would replace while its ends move", () => {
    const replaced = cut();
    const state = run(
      start,
      { kind: "draft", draft: { from: replaced.from, to: replaced.to, replaces: replaced } },
      { kind: "mark", marking: { anchor: 4, head: 4 }, desk: { bars } },
    );
    expect(state.draft?.replaces).toBe(replaced);
  });

  test("M marks from here, and M again to here", () => {
    const state = run(
      start,
      { kind: "mark-here", bar: 5, desk: { bars } },
      { kind: "mark-here", bar: 2, desk: { bars } },
    );
    expect(state.marking).toEqual({ anchor: 5, head: 2 });
  });

  test("leafing on brings the bar after the last seen to the top, back the one before to the bottom", () => {
    const seen = run(start, { kind: "view", view: { firstBar: 3, lastBar: 6 } });
    expect(run(seen, { kind: "leaf", direction: 1 }).goTo).toMatchObject({ bar: 7, edge: "top" });
    expect(run(seen, { kind: "leaf", direction: -1 }).goTo).toMatchObject({ bar: 2, edge: "bottom" });
    expect(run(start, { kind: "leaf", direction: 1 })).toBe(start);
  });

  test("going to the same bar twice goes there twice", () => {
    const once = run(start, { kind: "cursor", second: 4, bar: 1 });
    expect(run(once, { kind: "cursor", second: 4, bar: 1 }).goTo.turn).toBe(once.goTo.turn + 1);
  });

  const looked = { from: { barIndex: 4, offset: "0" }, to: { barIndex: 8, offset: "0" }, name: "bars 5–8" };
  const shown = { key: "k", bars: [3, 8], noteIds: [], cut: { from: looked.from, to: looked.to } };

  test("a cut that is looked at comes with the bar before it, in a reading that has its bars", () => {
    const state = run(start, { kind: "reading", reading: "as-it-will-read" }, { kind: "look", looked });
    expect(state).toMatchObject({ looked, reading: "open", pane: "score", draft: null });
    expect(state.goTo.bar).toBe(3);
  });

  test("a judgement leads to its bars, and unfolds what a fold would hide", () => {
    expect(run(start, { kind: "show", shown })).toMatchObject({ shown, reading: "folded", pane: "score" });
    const far = { ...shown, bars: [20], cut: { ...shown.cut, to: { barIndex: 40, offset: "0" } } };
    expect(run(start, { kind: "show", shown: far }).reading).toBe("open");
  });

  test("Escape lets go of what was shown and looked at", () => {
    const state = run(
      start,
      { kind: "look", looked },
      { kind: "show", shown },
      { kind: "mark", marking: null, desk: { bars } },
    );
    expect([state.shown, state.looked]).toEqual([null, null]);
  });

  test("what was found stays while one looks at the score, and goes when the search is closed", () => {
    const settings = {
      ...{ place: { kind: "start" as const }, resolution: "bars" as const, keepLastBars: null },
      ...{ keepRehearsal: [], keepTheme: false, savesAtLeast: "" },
    };
    const found = run(start, { kind: "search", search: settings }, { kind: "ask", asked: settings });
    expect(run(found, { kind: "look", looked }, { kind: "pane", pane: "cuts" }).asked).toBe(settings);
    expect(run(found, { kind: "search", search: null })).toMatchObject({ asked: null, search: null });
  });

  test("the second cut that is chosen opens both side by side", () => {
    const pick = (id: string) => ({ kind: "pick" as const, pick: { kind: "proposal" as const, id } });
    const one = run(start, pick("a"));
    expect(one.isWeighing).toBe(false);
    const both = run(one, pick("b"));
    expect([both.isWeighing, both.picks.length]).toEqual([true, 2]);
    expect(run(both, { kind: "drop-pick", pick: pick("a").pick })).toMatchObject({ isWeighing: false });
    expect(run(both, { kind: "weigh", picks: [] })).toMatchObject({ isWeighing: false, picks: [] });
  });

  test("letting a draft go lets its marks go", () => {
    const state = run(start, { kind: "draft-marked", desk: { bars } }, { kind: "draft", draft: null });
    expect([state.draft, state.marking]).toEqual([null, null]);
  });
});

describe("the words of a card", () => {
  const now = new Date("2026-03-01T10:00:00Z");
  const words = (one: DeskCut, me = pianist) => {
    const { headline, state, edge } = sayCut({ people, me }, one, now);
    return [headline, state, edge];
  };
  const answered = (answer: "agree" | "decline" | "withdraw" | "reopen", userId: string, reason = "") => [
    { userId, answer, reason, at: "2026-02-26T09:00:00Z" },
  ];
  const replaced = { id: "c0", name: "bars 3–8", proposedBy: "p", savedSeconds: 20 };

  test.each([
    ["proposed by the other", cut(), ["Bram proposes", "waits for you", "so"]],
    [
      "proposed by me",
      cut({ proposedBy: "p", waitsForMe: false }),
      ["Ada", "with Bram since Sun 22 Feb", "pf"],
    ],
    ["counter-proposed", cut({ instead: replaced }), ["Bram counter-proposes", "waits for you", "so"]],
    [
      "agreed",
      cut({ state: "agreed", answers: answered("agree", "p") }),
      ["agreed Thu 26 Feb", "agreed", "agreed"],
    ],
    [
      "declined",
      cut({ state: "declined", answers: answered("decline", "p", "No.") }),
      ["Bram proposed", "declined by Ada", "aside"],
    ],
    ["withdrawn", cut({ state: "withdrawn" }), ["Bram proposed", "withdrawn", "aside"]],
    ["replaced", cut({ state: "superseded" }), ["Bram proposed", "replaced", "aside"]],
  ])("%s", (_, one, expected) => expect(words(one)).toEqual(expected));

  test("nobody has it yet while the other place is empty", () => {
    const alone = sayCut(
      { people: [pianist], me: pianist },
      cut({ proposedBy: "p", waitsForMe: false }),
      now,
    );
    expect(alone.state).toBe("with nobody yet since Sun 22 Feb");
  });

  test("what is laid aside says why", () => {
    const declined = cut({ state: "declined", answers: answered("decline", "p", "I need that rest.") });
    expect(sayAside({ people, me: pianist }, declined, now)).toBe("“I need that rest.”");
    const withdrawn = cut({ state: "withdrawn", answers: answered("withdraw", "s") });
    expect(sayAside({ people, me: pianist }, withdrawn, now)).toBe("Bram took it back on Thu 26 Feb.");
  });

  test("agreeing is announced with the running time", () => {
    expect(sayAgreed(522, 540)).toBe("Agreed. 8:42 of 9:00.");
    expect(sayAgreed(522, null)).toBe("Agreed. 8:42.");
  });
});

test("a comment that ends on a bar line is about the bars before it", () => {
  const about = (from: ReturnType<typeof at>, to: ReturnType<typeof at>) =>
    spanOfComment({ about: { kind: "span", from, to } });
  expect(about(at(2), at(5))).toEqual({ firstBar: 2, lastBar: 4 });
  expect(about(at(2, 1), at(5, 2))).toEqual({ firstBar: 2, lastBar: 5 });
  expect(about(at(2), at(2))).toEqual({ firstBar: 2, lastBar: 2 });
  expect(spanOfComment({ about: { kind: "proposal", proposalId: "x" } })).toBeNull();
});
