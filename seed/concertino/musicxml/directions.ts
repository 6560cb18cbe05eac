import type { BarPlan } from "../compose";
import type { Mark } from "../event";
import { type Element, element } from "./element";

/** Something beside the notes at a tick of a bar. */
export interface PlacedMark {
  readonly tick: number;
  readonly mark: Mark;
}

/** Elements that stand at a tick of a bar, before the note that begins there. */
export interface PlacedDirection {
  readonly tick: number;
  readonly make: (offset: number) => Element;
}

/** Rehearsal letter, tempo and words above the system. */
export function systemDirections({ letter, tempo, words }: BarPlan): PlacedDirection[] {
  return [
    ...(letter ? [above(0, [rehearsal(letter)])] : []),
    ...(tempo
      ? [
          above(
            0,
            [tempoWords(tempo.words + NO_BREAK_SPACE), metronome(tempo.quartersPerMinute)],
            tempo.quartersPerMinute,
          ),
        ]
      : []),
    ...words.map(({ tick, words: text }) => above(tick, [italic(text)])),
  ];
}

/** Joins tempo words and metronome mark without letting them touch; a plain space at the end would be trimmed. */
const NO_BREAK_SPACE = "\u00a0";

function above(tick: number, types: readonly Element[], soundTempo?: number): PlacedDirection {
  return {
    tick,
    make: (offset) =>
      element(
        "direction",
        { placement: "above" },
        types.map((type) => element("direction-type", {}, type)),
        offsetElement(offset),
        soundTempo === undefined ? undefined : element("sound", { tempo: soundTempo }),
      ),
  };
}

/** A dynamic, hairpin or word below the staff (words of expression above it). */
export function markDirection({ tick, mark }: PlacedMark, staff: number | undefined): PlacedDirection {
  return {
    tick,
    make: (offset) =>
      element(
        "direction",
        { placement: mark.kind === "words" ? "above" : "below" },
        element("direction-type", {}, markElement(mark)),
        offsetElement(offset),
        staff === undefined ? undefined : element("staff", {}, staff),
      ),
  };
}

function markElement(mark: Mark): Element {
  switch (mark.kind) {
    case "dynamic":
      return element("dynamics", {}, element(mark.text));
    case "wedge":
      return element("wedge", { type: mark.type, number: 1 });
    case "words":
      return italic(mark.text);
  }
}

function offsetElement(offset: number): Element | undefined {
  return offset === 0 ? undefined : element("offset", {}, offset);
}

function rehearsal(letter: string): Element {
  return element("rehearsal", { "font-weight": "bold" }, letter);
}

function tempoWords(words: string): Element {
  return element("words", { "font-weight": "bold" }, words);
}

function italic(words: string): Element {
  return element("words", { "font-style": "italic" }, words);
}

function metronome(quartersPerMinute: number): Element {
  return element(
    "metronome",
    { parentheses: "yes" },
    element("beat-unit", {}, "quarter"),
    element("per-minute", {}, quartersPerMinute),
  );
}
