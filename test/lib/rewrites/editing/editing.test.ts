import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type RewriteTerms, rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { checkRewriteFit } from "@/lib/rewrites/check-rewrite-fit";
import { addNote, addNoteAt } from "@/lib/rewrites/editing/add-note";
import { divide, joinWithNext } from "@/lib/rewrites/editing/change-length";
import { changeAlteration, shiftOctaves } from "@/lib/rewrites/editing/change-pitch";
import { deleteNotes } from "@/lib/rewrites/editing/delete-notes";
import {
  addStep,
  beginHistory,
  canRedo,
  canUndo,
  redo,
  standingIn,
  undo,
} from "@/lib/rewrites/editing/edit-history";
import type { Edited } from "@/lib/rewrites/editing/edit-problem";
import { byPlace, isSamePitch, type NoteChoice, placeOf } from "@/lib/rewrites/editing/event-place";
import { toggleAccent, toggleRoll } from "@/lib/rewrites/editing/mark-chord";
import { moveToOtherHand } from "@/lib/rewrites/editing/move-to-other-hand";
import { setTremolo } from "@/lib/rewrites/editing/set-tremolo";
import { tieToNext } from "@/lib/rewrites/editing/tie-to-next";
import { quarters } from "@/lib/score/quarters";
import { success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { buildScore } from "@/test/builders/build-score";
import { arbitraryPiano } from "@/test/lib/hands/arbitrary-piano";
import { chosen, termsOf, written } from "./written-terms";

const bars = (right: string, left: string): Score =>
  buildScore({ metre: "4/4", solo: "R", piano: [right, left] });

type Step = (terms: RewriteTerms, choice: NoteChoice) => Edited<RewriteTerms>;

/** One edit of the first event that a token of the notation names, or why it cannot be made. */
function edit(terms: RewriteTerms, at: string, step: Step): string[] | string {
  const edited = step(terms, chosen(terms, at));
  return edited.ok ? written(edited.value) : edited.problem.sentence;
}

const plain = termsOf(bars("c5+e5+g5:q e5:q e5:h", "c3:h r:h"));

describe("one step", () => {
  const steps: readonly [string, string, Step, string[] | string][] = [
    ["deletes a note of a chord", "c5+e5+g5 e5", deleteNotes, ["c5+g5 1", "e5 1", "e5 2", "| c3 2", "r 2"]],
    ["deletes a chord", "c5+e5+g5", deleteNotes, ["r 1", "e5 1", "e5 2", "| c3 2", "r 2"]],
    ["has nothing to delete in a rest", "r", deleteNotes, "This is a rest: there is no note to delete."],
    [
      "moves a chord by an octave",
      "c5+e5+g5",
      (terms, choice) => shiftOctaves(terms, choice, -1),
      ["c4+e4+g4 1", "e5 1", "e5 2", "| c3 2", "r 2"],
    ],
    [
      "moves one note of a chord and sorts it in",
      "c5+e5+g5 c5",
      (terms, choice) => shiftOctaves(terms, choice, 1),
      ["e5+g5+c6 1", "e5 1", "e5 2", "| c3 2", "r 2"],
    ],
    [
      "lowers a note by a semitone",
      "c5+e5+g5 e5",
      (terms, choice) => changeAlteration(terms, choice, -1),
      ["c5+eb5+g5 1", "e5 1", "e5 2", "| c3 2", "r 2"],
    ],
    [
      "gives a note to the other hand, where nothing begins with it: a voice of its own",
      "c5+e5+g5 c5",
      (terms, choice) => mapTerms(moveToOtherHand(terms, choice, 2)),
      ["e5+g5 1", "e5 1", "e5 2", "| c3 2", "r 2", "| c5 1"],
    ],
    [
      "gives the last chord to the rest below it",
      "e5 2",
      (terms, choice) => mapTerms(moveToOtherHand(terms, choice, 2)),
      ["c5+e5+g5 1", "e5 1", "r 2", "| c3 2", "e5 2"],
    ],
    [
      "rocks between the lowest note and the others",
      "c5+e5+g5",
      (terms, { place }) => setTremolo(terms, place, { way: "to and fro", strokes: 3 }),
      ["c5~3e5+g5 1", "e5 1", "e5 2", "| c3 2", "r 2"],
    ],
    [
      "repeats a note",
      "e5",
      (terms, { place }) => setTremolo(terms, place, { way: "repeated", strokes: 2 }),
      ["c5+e5+g5 1", "e5~2 1", "e5 2", "| c3 2", "r 2"],
    ],
    [
      "does not rock on one note",
      "e5",
      (terms, { place }) => setTremolo(terms, place, { way: "to and fro", strokes: 3 }),
      "To and fro needs two notes at least. Add one first.",
    ],
    ["ties to the same note", "e5", tieToNext, ["c5+e5+g5 1", "e5- 1", "e5 2", "| c3 2", "r 2"]],
    [
      "ties what comes again of a chord",
      "c5+e5+g5",
      tieToNext,
      ["c5+e5-+g5 1", "e5 1", "e5 2", "| c3 2", "r 2"],
    ],
    ["ties nothing that does not come next", "c5+e5+g5 g5", tieToNext, "G 5 does not come next."],
    [
      "ties nothing out of the bars",
      "e5 2",
      tieToNext,
      "Nothing of this voice follows in these bars: there is no note to tie to.",
    ],
    [
      "rolls a chord",
      "c5+e5+g5",
      (terms, { place }) => toggleRoll(terms, place),
      ["c5+e5+g5 rolled 1", "e5 1", "e5 2", "| c3 2", "r 2"],
    ],
    [
      "rolls no single note",
      "e5",
      (terms, { place }) => toggleRoll(terms, place),
      "Only a chord of two notes or more can be rolled.",
    ],
    [
      "accents a note",
      "e5",
      (terms, { place }) => toggleAccent(terms, place),
      ["c5+e5+g5 1", "e5> 1", "e5 2", "| c3 2", "r 2"],
    ],
    [
      "adds a note to a chord",
      "e5",
      (terms, { place }) => addNote(terms, place, { step: "C", alter: 1, octave: 5 }),
      ["c5+e5+g5 1", "c#5+e5 1", "e5 2", "| c3 2", "r 2"],
    ],
    [
      "adds no key twice",
      "e5",
      (terms, { place }) => addNote(terms, place, { step: "F", alter: -1, octave: 5 }),
      "F flat 5 is in this chord already.",
    ],
    [
      "writes a note instead of a rest",
      "r",
      (terms, { place }) => addNote(terms, place, { step: "G", alter: 0, octave: 3 }),
      ["c5+e5+g5 1", "e5 1", "e5 2", "| c3 2", "g3 2"],
    ],
    [
      "writes a note into a rest",
      "r",
      (terms) =>
        mapTerms(
          addNoteAt(
            terms,
            { barIndex: 0, offset: "3", staff: 2 },
            { step: "G", alter: 0, octave: 3 },
            quarters(1, 2),
          ),
        ),
      ["c5+e5+g5 1", "e5 1", "e5 2", "| c3 2", "r 1", "g3 1/2", "r 1/2"],
    ],
    [
      "writes a note beside others in a voice of its own",
      "r",
      (terms) =>
        mapTerms(
          addNoteAt(
            terms,
            { barIndex: 0, offset: "1/2", staff: 2 },
            { step: "G", alter: 0, octave: 3 },
            quarters(1),
          ),
        ),
      ["c5+e5+g5 1", "e5 1", "e5 2", "| c3 2", "r 2", "| g3 1"],
    ],
    [
      "makes one note of two",
      "e5",
      (terms, { place }) => joinWithNext(terms, place),
      ["c5+e5+g5 1", "e5 3", "| c3 2", "r 2"],
    ],
    [
      "makes two notes of one",
      "e5 2",
      (terms, { place }) => divide(terms, place),
      ["c5+e5+g5 1", "e5 1", "e5 1", "e5 1", "| c3 2", "r 2"],
    ],
  ];

  test.each(steps)("%s", (_name, at, step, expected) => {
    expect(edit(plain, at, step)).toEqual(expected);
  });

  test("a chord that gives all its notes to one that begins with it joins it", () => {
    const terms = termsOf(bars("e4+g4:w", "c3:w"));
    expect(edit(terms, "e4+g4 e4", (own, choice) => mapTerms(moveToOtherHand(own, choice, 2)))).toEqual([
      "g4 4",
      "| c3+e4 4",
    ]);
  });

  test("a tremolo that is taken away strikes both sides together, and one that loses a side is held", () => {
    const terms = termsOf(bars("c5+e5+g5:w", "c3:w"));
    const rocked = setTremolo(terms, chosen(terms, "c5+e5+g5").place, { way: "to and fro", strokes: 3 });
    if (!rocked.ok) throw new Error(rocked.problem.sentence);
    const place = chosen(terms, "c5+e5+g5").place;
    expect(edit(rocked.value, "c5~3e5+g5", (own) => setTremolo(own, place, null))).toEqual(written(terms));
    expect(
      edit(rocked.value, "c5~3e5+g5", (own) =>
        deleteNotes(own, { place, pitch: { step: "C", alter: 0, octave: 5 } }),
      ),
    ).toEqual(["e5+g5 4", "| c3 4"]);
  });

  test("a tie ends with the note that it led to", () => {
    const terms = termsOf(bars("e5:q e5:q e5:h", "c3:w"));
    const tied = tieToNext(terms, chosen(terms, "e5"));
    if (!tied.ok) throw new Error(tied.problem.sentence);
    const second = placeOf(tied.value.events[1]!);
    const raised = shiftOctaves(tied.value, { place: second, pitch: null }, 1);
    expect(raised.ok && written(raised.value)).toEqual(["e5 1", "e6 1", "e5 2", "| c3 4"]);
  });
});

function mapTerms(moved: Edited<{ readonly terms: RewriteTerms }>): Edited<RewriteTerms> {
  return moved.ok ? success(moved.value.terms) : moved;
}

/** Every kind of step, on an event and a note of it that two numbers choose. */
const anyStep = fc.record({
  kind: fc.integer({ min: 0, max: 12 }),
  event: fc.nat(),
  note: fc.nat(),
  strokes: fc.integer({ min: 1, max: 4 }),
  pitch: fc.record({
    step: fc.constantFrom("C", "D", "E", "F", "G", "A", "B"),
    alter: fc.integer({ min: -2, max: 2 }),
    octave: fc.integer({ min: 0, max: 9 }),
  }),
});

function take(terms: RewriteTerms, step: typeof anyStep extends fc.Arbitrary<infer T> ? T : never) {
  const event = terms.events[step.event % terms.events.length]!;
  const place = placeOf(event);
  const all = [...event.pitches, ...(event.tremolo?.other ?? [])];
  const pitch = all.length > 0 && step.note % 3 > 0 ? all[step.note % all.length]! : null;
  const choice = { place, pitch };
  const { strokes } = step;
  const steps: (() => Edited<RewriteTerms>)[] = [
    () => deleteNotes(terms, choice),
    () => shiftOctaves(terms, choice, 1),
    () => shiftOctaves(terms, choice, -1),
    () => changeAlteration(terms, choice, step.note % 2 ? 1 : -1),
    () => mapTerms(moveToOtherHand(terms, choice, 2)),
    () => setTremolo(terms, place, step.note % 3 ? { way: "repeated", strokes } : null),
    () => setTremolo(terms, place, { way: "to and fro", strokes }),
    () => tieToNext(terms, choice),
    () => toggleRoll(terms, place),
    () => toggleAccent(terms, place),
    () => addNote(terms, place, step.pitch),
    () =>
      mapTerms(
        addNoteAt(
          terms,
          { ...event.at, staff: (step.note % 2) + 1 },
          step.pitch,
          quarters(1, (step.note % 3) + 1),
        ),
      ),
    () => (step.note % 2 ? joinWithNext(terms, place) : divide(terms, place)),
  ];
  return steps[step.kind]!();
}

describe("laws, after any number of any steps", () => {
  test("every voice is as long as printed, the terms are valid and in order, and nothing outside the bars is touched", () => {
    fc.assert(
      fc.property(arbitraryPiano, fc.array(anyStep, { maxLength: 12 }), (score, steps) => {
        let terms = termsOf(score);
        for (const step of steps) {
          const edited = take(terms, step);
          if (!edited.ok) {
            expect(edited.problem.sentence).toMatch(/^[A-Z].*\.$/);
            continue;
          }
          const next = edited.value;
          expect(rewriteTermsSchema.safeParse(next).error).toBeUndefined();
          const { events: _before, ...around } = terms;
          const { events: _after, ...stays } = next;
          expect(stays).toEqual(around);
          const fit = checkRewriteFit(score, next);
          expect(fit).toEqual({ ok: true, value: next });
          expect([...next.events].sort(byPlace)).toEqual(next.events);
          terms = next;
        }
      }),
    );
  });

  test("a step changes what it names: the other bars are as they were, and no more than two voices differ", () => {
    fc.assert(
      fc.property(arbitraryPiano, anyStep, (score, step) => {
        const terms = termsOf(score);
        const edited = take(terms, step);
        if (!edited.ok) return;
        const at = terms.events[step.event % terms.events.length]!.at.barIndex;
        const others = (of: RewriteTerms) => of.events.filter(({ at: place }) => place.barIndex !== at);
        // A tie from the bar before may go with the note that it led to.
        const untied = (of: RewriteTerms) => others(of).map((event) => ({ ...event, tied: [] }));
        expect(untied(edited.value)).toEqual(untied(terms));
        const voices = new Set([...terms.events, ...edited.value.events].map(({ voice }) => voice));
        const changed = [...voices].filter(
          (voice) =>
            JSON.stringify(untiedVoice(terms, voice)) !== JSON.stringify(untiedVoice(edited.value, voice)),
        );
        expect(changed.length).toBeLessThanOrEqual(2);
      }),
    );
  });

  test("every tie inside leads to the same note", () => {
    fc.assert(
      fc.property(arbitraryPiano, fc.array(anyStep, { maxLength: 8 }), (score, steps) => {
        let terms = termsOf(score);
        const printed = looseTies(terms);
        for (const step of steps) {
          const edited = take(terms, step);
          if (edited.ok) terms = edited.value;
        }
        expect(looseTies(terms)).toBeLessThanOrEqual(printed);
      }),
    );
  });

  test("undo gives the former, redo the later, and a new step ends what was undone", () => {
    fc.assert(
      fc.property(arbitraryPiano, fc.array(anyStep, { maxLength: 6 }), (score, steps) => {
        const all = [termsOf(score)];
        let history = beginHistory(all[0]!);
        for (const step of steps) {
          const edited = take(standingIn(history), step);
          if (!edited.ok) continue;
          history = addStep(history, edited.value);
          if (JSON.stringify(all.at(-1)) !== JSON.stringify(edited.value)) all.push(edited.value);
        }
        for (const terms of all.toReversed()) {
          expect(standingIn(history)).toEqual(terms);
          history = undo(history);
        }
        expect(canUndo(history)).toBe(false);
        for (const terms of all.slice(1)) {
          history = redo(history);
          expect(standingIn(history)).toEqual(terms);
        }
        expect(canRedo(history)).toBe(false);
        const other = { ...all[0]!, words: "another way" };
        expect(canRedo(addStep(undo(history), other))).toBe(false);
      }),
    );
  });
});

const untiedVoice = (of: RewriteTerms, voice: number) =>
  of.events.filter((event) => event.voice === voice).map((event) => ({ ...event, tied: [] }));

/** Ties inside the bars that lead nowhere; those of the last of each voice may lead out of them. */
function looseTies({ events }: RewriteTerms): number {
  return events.reduce((sum, event, index) => {
    const next = events
      .slice(index + 1)
      .find(
        (other) =>
          other.staff === event.staff &&
          other.voice === event.voice &&
          other.at.barIndex === event.at.barIndex,
      );
    if (!next) return sum;
    const loose = event.tied.filter(
      (place) => !next.pitches.some((pitch) => isSamePitch(pitch, event.pitches[place]!)),
    );
    return sum + loose.length;
  }, 0);
}
