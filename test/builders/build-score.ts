import type { Position } from "@/lib/score/position";
import { compareQuarters, noQuarters, quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { TempoMark } from "@/lib/score/tempo-mark";
import { atPitch, type Transposition } from "@/lib/score/transposition";
import { buildBars } from "./build-bars";
import { buildPart, type PartText } from "./build-part";
import { timeLine } from "./time-line";

/**
 * A score in a line of text:
 *
 *     buildScore({ metre: "4/4", tempo: 60, solo: "c5:q d5:q e5:h | R | c5:w", piano: "c3:w | g3:w | c3:w" })
 *
 * Tokens stand between spaces.
 *
 * - `c5:q` a note: letter, accidentals (`c#5`, `eb4`), octave (middle C is `c4`), `:` and the note value: `w h q e s t`
 *   for whole to 32nd, dots (`h.`), `e3` for a triplet eighth, or a fraction of a quarter (`7/2`). Without `:` the value
 *   before it in the same part goes on.
 * - `c4+e4+g4:h` a chord · `c5:w~` tied to the next note of the same pitch.
 * - `r:q` a rest · `R` a rest of the whole bar · `R*12` twelve bars of rest.
 * - `c5:q(cue)` flags in parentheses, several with commas: `cue`, `grace` (takes no time), `hidden`, `fermata`, `rolled`, or any
 *   articulation (`staccato`). Rests take `cue`, `hidden` and `fermata`.
 * - `|` a bar line · `|:` and `:|` repeat signs, `:|x3` played three times, `:|:` both.
 * - `[1.` an ending begins, it stops at the next `:|` or at `]`; `[1,2.` for several.
 * - `$segno $coda $tocoda $ds $dc $fine` jump signs of their bar.
 * - `3/4` a new metre, `key=-3` a new key, at the start of a bar.
 * - `"poco rit."` words · `[B]` a rehearsal letter · `p`, `ff` dynamics · `<` `>` `/` hairpins and their end.
 * - `q=120`, `h.=60` a metronome mark · `sound=96` a tempo that only playback knows. Tempo words count as tempo marks.
 *
 * Bars, metres, keys and signs may stand in any one part. A part may be a list of lines, one for each staff. The
 * first bar may be short: it is then an upbeat with the label "0". Elsewhere all parts must fill a bar to the same
 * length; a length other than the metre's is an irregular bar.
 */
export interface ScoreText {
  readonly metre?: `${number}/${number}`;
  readonly key?: number;
  /** A metronome mark at the beginning, in quarters a minute. */
  readonly tempo?: number;
  readonly title?: string;
  readonly solo?: string;
  /** From written to sounding pitch. */
  readonly soloTransposition?: Transposition;
  readonly soloName?: string;
  /** One line, or one for each staff. */
  readonly piano?: string | readonly string[];
  /** Orchestra parts by name. */
  readonly orchestra?: Readonly<Record<string, string>>;
  /** Printed bar labels; by default the numbers from 1, or from 0 with an upbeat. */
  readonly labels?: readonly string[];
}

/** A position by bar index and offset in quarters: `at(4)`, `at(4, "3/2")`. */
export function at(barIndex: number, offset: string | number = 0): Position {
  const [num = "0", den = "1"] = `${offset}`.split("/");
  return { barIndex, offset: quarters(Number(num), Number(den)) };
}

function partTexts(text: ScoreText): PartText[] {
  const parts: Omit<PartText, "id">[] = [];
  const rest = { soundId: null, midiProgram: null, transposition: atPitch };
  if (text.solo !== undefined) {
    const transposition = text.soloTransposition ?? atPitch;
    parts.push({ ...rest, name: text.soloName ?? "Flute", role: "solo", transposition, staves: [text.solo] });
  }
  for (const [name, staff] of Object.entries(text.orchestra ?? {})) {
    parts.push({ ...rest, name, role: "orchestra", staves: [staff] });
  }
  if (text.piano !== undefined) {
    const staves = typeof text.piano === "string" ? [text.piano] : text.piano;
    parts.push({
      ...rest,
      name: "Piano",
      role: "reduction",
      soundId: "keyboard.piano",
      midiProgram: 1,
      staves,
    });
  }
  return parts.map((part, index) => ({ ...part, id: `P${index + 1}` }));
}

/** @throws RangeError where the text is no notation or the parts do not fit together. */
export function buildScore(text: ScoreText): Score {
  const texts = partTexts(text);
  const lines = texts.map(({ staves }) => staves.map(timeLine));
  const bars = buildBars(text, lines.flat());
  const parts = texts.map((part, index) => buildPart(part, index, bars, lines[index] ?? []));
  const opening: TempoMark[] =
    text.tempo === undefined
      ? []
      : [{ barIndex: 0, onset: noQuarters, words: null, quartersPerMinute: text.tempo, source: "metronome" }];
  const tempoMarks = [...opening, ...parts.flatMap((part) => part.tempoMarks)];
  return {
    title: text.title ?? null,
    movement: null,
    composer: null,
    bars,
    parts: parts.map(({ part }) => part),
    tempoMarks: tempoMarks.toSorted((a, b) => compareQuarters(a.onset, b.onset)),
  };
}
