import { describe, expect, test } from "vitest";
import {
  type Draft,
  forgetDraft,
  readDraft,
  writeDraft,
} from "@/app/(desk)/pieces/[pieceId]/hands/_editor/draft";
import { editActions } from "@/app/(desk)/pieces/[pieceId]/hands/_editor/edit-actions";
import { findDrawn } from "@/app/(desk)/pieces/[pieceId]/hands/_editor/find-drawn";
import { type EventBox, nearestEvent } from "@/app/(desk)/pieces/[pieceId]/hands/_editor/measure-events";
import { moveChoice } from "@/app/(desk)/pieces/[pieceId]/hands/_editor/move-choice";
import { nearKey } from "@/app/(desk)/pieces/[pieceId]/hands/_editor/near-key";
import { readNoteName } from "@/app/(desk)/pieces/[pieceId]/hands/_editor/note-name";
import { noteAtPress } from "@/app/(desk)/pieces/[pieceId]/hands/_editor/place-of-press";
import { sayEvent } from "@/app/(desk)/pieces/[pieceId]/hands/_editor/say-event";
import { fifthsAt, pitchAtHeight } from "@/app/(desk)/pieces/[pieceId]/hands/_editor/staff-height";
import { drawPassage } from "@/lib/engrave/passage/draw-passage";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import { openEngraver } from "@/lib/engrave/toolkit";
import { writeScore } from "@/lib/musicxml/write-score";
import { addStep, beginHistory } from "@/lib/rewrites/editing/edit-history";
import { type NoteChoice, placeOf } from "@/lib/rewrites/editing/event-place";
import { sayPitch } from "@/lib/rewrites/editing/say-pitch";
import { setTremolo } from "@/lib/rewrites/editing/set-tremolo";
import { buildScore } from "@/test/builders/build-score";
import { chosen, termsOf, written } from "@/test/lib/rewrites/editing/written-terms";

const score = buildScore({
  ...{ metre: "4/4", key: -3, solo: "R | R" },
  piano: ["c5+eb5+g5:q ab5:q r:h | g5:w", "c3:h g3:h | r:w"],
});
const terms = termsOf(score);
const { toolkit } = await openEngraver();
const passage: DrawnPassage = drawPassage(toolkit, {
  ...{ sourceHash: "a".repeat(64), source: new TextEncoder().encode(writeScore(score)) },
  ...{ partId: terms.partId, fromBar: 0, toBar: 1, rewrite: terms, as: "instead", layout: "desk" },
});

describe("what is drawn", () => {
  test("is found again, event by event, in time, the right hand first", () => {
    const drawn = findDrawn(passage, terms.events);
    expect(drawn.map(({ event }) => `${event.at.barIndex} ${event.at.offset} ${event.staff}`)).toEqual([
      ...["0 0 1", "0 0 2", "0 1 1", "0 2 1", "0 2 2", "1 0 1", "1 0 2"],
    ]);
    expect(drawn.map(({ notes, restIds }) => [notes.length, restIds.length])).toEqual([
      ...[
        [3, 0],
        [1, 0],
        [1, 0],
        [0, 1],
        [1, 0],
        [1, 0],
        [0, 1],
      ],
    ]);
    expect(new Set(drawn.flatMap(({ notes }) => notes.map(({ id }) => id))).size).toBe(passage.notes.length);
  });

  test("both sides of a tremolo belong to its event", () => {
    const rocked = setTremolo(terms, chosen(terms, "c5+eb5+g5").place, { way: "to and fro", strokes: 3 });
    if (!rocked.ok) throw new Error(rocked.problem.sentence);
    const again = drawPassage(toolkit, {
      ...{ sourceHash: "a".repeat(64), source: null, partId: terms.partId, fromBar: 0, toBar: 1 },
      ...{ rewrite: rocked.value, as: "instead", layout: "desk" },
    });
    const [first] = findDrawn(again, rocked.value.events);
    expect(first!.notes.map(({ pitch }) => sayPitch(pitch)).sort()).toEqual(["C 5", "E flat 5", "G 5"]);
  });

  test("is named for those who hear the page", () => {
    expect(terms.events.map((event) => sayEvent(event, passage.bars))).toEqual([
      "C 5, E flat 5 and G 5, a quarter, right hand, bar 1, beat 1",
      "A flat 5, a quarter, right hand, bar 1, beat 2",
      "rest, a half, right hand, bar 1, beat 3",
      "C 3, a half, left hand, bar 1, beat 1",
      "G 3, a half, left hand, bar 1, beat 3",
      "G 5, a whole note, right hand, bar 2, beat 1",
      "rest, a whole note, left hand, bar 2, beat 1",
    ]);
  });
});

describe("a press", () => {
  const { systems } = passage;
  const [system] = systems;
  const [bar] = system!.bars;
  const size = { width: 940, height: (940 * system!.height) / system!.width };
  /** So many staff steps over the bottom line of a staff, at a share of the bar. */
  const press = (staff: number, steps: number, share: number) => {
    const { top, bottom } = bar!.staves[staff - 1]!;
    const y = bottom - (steps * (bottom - top)) / 8;
    const x = bar!.x + share * bar!.width;
    return { ...size, x: (x * size.width) / system!.width, y: (y * size.height) / system!.height };
  };

  test.each([
    [1, 0, "E flat 4"],
    [1, 8, "F 5"],
    [1, 10, "A flat 5"],
    [1, -2, "C 4"],
    [2, 0, "G 2"],
    [2, 8, "A flat 3"],
  ])("on staff %i, %i steps over the bottom line, is %s as the key has it", (staff, steps, name) => {
    const note = noteAtPress(passage, system!, [], press(staff, steps, 0.9));
    expect(note && sayPitch(note.pitch)).toBe(name);
    expect(note?.place).toEqual({ barIndex: 0, offset: "3", staff });
  });

  test("near something that begins is there, elsewhere on the beat", () => {
    const box = (left: number): EventBox => ({
      ...{ left, right: left + 1, top: 40, bottom: 50, event: terms.events[1]! },
      heads: [{ id: "a", pitch: terms.events[1]!.pitches[0]!, left, right: left + 1, top: 40, bottom: 50 }],
    });
    const point = press(1, 4, 0.1);
    const near = (100 * point.x) / point.width;
    expect(noteAtPress(passage, system!, [box(near)], point)?.place.offset).toBe("1");
    expect(noteAtPress(passage, system!, [box(near + 10)], point)?.place.offset).toBe("0");
  });

  test("beside the bars is none", () => {
    expect(noteAtPress(passage, system!, [], { ...size, x: 0, y: 10 })).toBeNull();
  });

  test("takes the nearest event and the nearest head of it, and nothing that is far", () => {
    const head = (top: number) => ({ id: `${top}`, left: 10, right: 12, top, bottom: top + 4 });
    const event = terms.events[0]!;
    const [c, , g] = event.pitches;
    const boxes: EventBox[] = [
      {
        event,
        left: 10,
        right: 12,
        top: 20,
        bottom: 60,
        heads: [
          { ...head(56), pitch: c! },
          { ...head(20), pitch: g! },
        ],
      },
      { event: terms.events[1]!, left: 30, right: 32, top: 20, bottom: 24, heads: [] },
    ];
    const at = (x: number, y: number) => nearestEvent(boxes, { x, y, width: 100, height: 100 });
    expect(at(11, 25)?.pitch).toEqual(g);
    expect(at(11, 52)?.pitch).toEqual(c);
    expect(at(29, 22)?.box.event).toBe(terms.events[1]);
    expect(at(80, 22)).toBeNull();
  });
});

describe("keys and clefs", () => {
  const place = { barIndex: 3, offset: "1", staff: 1 };
  const at = (barIndex: number, offset: string) => ({ barIndex, offset });

  test("hold from where they stand, each on its staff", () => {
    const keys = [
      { ...at(0, "0"), staff: null, fifths: -3 },
      { ...at(3, "1"), staff: 2, fifths: 1 },
      { ...at(3, "3/2"), staff: 1, fifths: 2 },
    ];
    expect(fifthsAt({ keys }, place)).toBe(-3);
    expect(fifthsAt({ keys }, { ...place, staff: 2 })).toBe(1);
    expect(fifthsAt({ keys }, { ...place, offset: "2" })).toBe(2);
  });

  test.each([
    [{ sign: "F", line: 4, octaveChange: 0 }, "G 2"],
    [{ sign: "C", line: 3, octaveChange: 0 }, "F 3"],
    [{ sign: "C", line: 4, octaveChange: 0 }, "D 3"],
    [{ sign: "G", line: 2, octaveChange: 1 }, "E 5"],
    [{ sign: "G", line: null, octaveChange: 0 }, "E 4"],
    [{ sign: "percussion", line: null, octaveChange: 0 }, "E 4"],
  ])("under %o the bottom line is %s", (clef, name) => {
    const clefs = [{ ...at(0, "0"), staff: 1, ...clef }];
    expect(sayPitch(pitchAtHeight({ clefs, keys: [] }, place, 0))).toBe(name);
  });
});

describe("a note by its name", () => {
  test.each([
    ["E♭5", "E flat 5"],
    ["eb5", "E flat 5"],
    ["f# 3", "F sharp 3"],
    ["b", "B flat 4"],
    ["bb", "B flat 4"],
    ["bbb", "B double flat 4"],
    ["en", "E 5"],
    ["C", "C 5"],
    ["g4", "G 4"],
    ["H", null],
    ["c9", null],
    ["", null],
  ])("%s is %s, near c5 in three flats", (text, name) => {
    const pitch = readNoteName(text, -3, 72);
    expect(pitch && sayPitch(pitch)).toBe(name);
  });

  test("is near the chosen note, the top of its chord, or what the hand played before", () => {
    const chord = chosen(terms, "c5+eb5+g5");
    expect(nearKey(terms, chord)).toBe(79);
    expect(nearKey(terms, chosen(terms, "c5+eb5+g5 eb5"))).toBe(75);
    expect(nearKey(terms, chosen(terms, "r"))).toBe(80);
  });
});

describe("arrow keys", () => {
  const say = (choice: NoteChoice | null) =>
    choice &&
    `${choice.place.barIndex} ${choice.place.offset} ${choice.place.staff} ${choice.pitch ? sayPitch(choice.pitch) : "all"}`;
  const chord = chosen(terms, "c5+eb5+g5");

  test.each([
    ["begin with the first", null, "after", "0 0 1 all"],
    ["go on along the staff", chord, "after", "0 1 1 all"],
    ["stay at the first", chord, "before", "0 0 1 all"],
    ["go into the chord, away from the other hand", chord, "higher", "0 0 1 C 5"],
    ["go on in the chord", chosen(terms, "c5+eb5+g5 c5"), "higher", "0 0 1 E flat 5"],
    ["come to the whole chord again", chosen(terms, "c5+eb5+g5 g5"), "higher", "0 0 1 all"],
    ["go to the other hand", chosen(terms, "ab5"), "lower", "0 0 2 all"],
    ["go back to the first hand", chosen(terms, "g3"), "higher", "0 2 1 all"],
  ] as const)("%s", (_name, from, direction, expected) => {
    expect(say(moveChoice(terms.events, from, direction))).toBe(expected);
  });
});

describe("the buttons", () => {
  const press = (id: string, choice: NoteChoice) => {
    const done = editActions.find((action) => action.id === id)!.apply({ terms, choice }, 2);
    return done.ok ? written(done.value.terms) : done.problem.sentence;
  };

  test("each do what they say to what is chosen, and follow it", () => {
    const chord = chosen(terms, "c5+eb5+g5");
    expect(press("delete", chord)[0]).toBe("r 1");
    expect(press("octave-down", chord)[0]).toBe("c4+eb4+g4 1");
    expect(press("sharpen", chosen(terms, "c5+eb5+g5 eb5"))[0]).toBe("c5+e5+g5 1");
    expect(press("to-and-fro", chord)[0]).toBe("c5~3eb5+g5 1");
    expect(press("roll", chord)[0]).toBe("c5+eb5+g5 rolled 1");
    expect(press("tie", chosen(terms, "g5"))).toMatch(/^Nothing of this voice follows/);
    const up = editActions.find(({ id }) => id === "octave-up")!;
    const moved = up.apply({ terms, choice: chosen(terms, "c5+eb5+g5 c5") }, 2);
    expect(moved.ok && moved.value.choice.pitch).toEqual({ step: "C", alter: 0, octave: 6 });
  });

  test("turn off what they turned on", () => {
    for (const id of ["tremolo", "to-and-fro", "roll", "accent"]) {
      const action = editActions.find((each) => each.id === id)!;
      const choice = chosen(terms, "c5+eb5+g5");
      const on = action.apply({ terms, choice }, 2);
      if (!on.ok) throw new Error(on.problem.sentence);
      const off = action.apply(on.value, 2);
      expect(off.ok && off.value.terms).toEqual(terms);
    }
  });

  test("have keys of their own", () => {
    const keys = editActions.flatMap(({ keys, withShift }) =>
      keys.map((key) => `${withShift ? "shift " : ""}${key}`),
    );
    expect(new Set(keys).size).toBe(keys.length);
    // Letters of notes add notes; n adds by pressing.
    expect(keys.filter((key) => /^[a-gn]$/.test(key))).toEqual([]);
  });
});

describe("a draft", () => {
  const storage = () => {
    const kept = new Map<string, string>();
    return {
      getItem: (name: string) => kept.get(name) ?? null,
      setItem: (name: string, value: string) => void kept.set(name, value),
      removeItem: (name: string) => void kept.delete(name),
      kept,
    };
  };
  const place = { pieceId: "p", sourceHash: "a".repeat(64), fromBar: 0, toBar: 1 };
  const draft: Draft = {
    history: addStep(beginHistory(terms), { ...terms, events: terms.events.slice(1) }),
    words: "thinner",
  };

  test("is there again with its steps, until it is forgotten; for its own bars only", () => {
    const own = storage();
    writeDraft(own, place, draft);
    expect(readDraft(own, place)).toEqual(draft);
    expect(readDraft(own, { ...place, toBar: 2 })).toBeNull();
    forgetDraft(own, place);
    expect(readDraft(own, place)).toBeNull();
  });

  test("that cannot be read is none", () => {
    const own = storage();
    writeDraft(own, place, draft);
    const [name] = own.kept.keys();
    for (const text of [
      "",
      "{",
      "[]",
      '{"schema":1,"states":[],"at":0,"words":""}',
      JSON.stringify({ ...draft, schema: 2 }),
    ]) {
      own.kept.set(name!, text);
      expect(readDraft(own, place)).toBeNull();
    }
  });

  test("of very many steps keeps the last ones and where it stands", () => {
    const own = storage();
    let history = beginHistory(terms);
    for (let step = 0; step < 200; step += 1) history = addStep(history, { ...terms, words: `${step}` });
    writeDraft(own, place, { history, words: "" });
    const read = readDraft(own, place)!;
    expect(read.history.states.length).toBe(30);
    expect(read.history.states[read.history.at]).toEqual(history.states[history.at]);
  });

  test("that does not fit is left out without a word", () => {
    const full = {
      setItem: () => {
        throw new DOMException("full", "QuotaExceededError");
      },
    };
    expect(() => writeDraft(full, place, draft)).not.toThrow();
  });
});

test("a place names its event", () => {
  expect(terms.events.map(placeOf)).toHaveLength(
    new Set(terms.events.map((event) => JSON.stringify(placeOf(event)))).size,
  );
});
