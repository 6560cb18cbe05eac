import type { BarJumps } from "@/lib/score/bar";
import { compareQuarters, noQuarters, type Quarters } from "@/lib/score/quarters";
import { readTempoWords } from "@/lib/score/read-tempo-words";
import { readJumpWords } from "./jump-words";
import type { MeasureState } from "./measure-state";
import { type Metronome, readMetronome } from "./metronome-element";
import { readDynamics, readLevel } from "./note-element";
import type { Draft, TempoDraft } from "./score-draft";
import { isTempo, readSoundTempo, takeSoundJumps, tellImpossibleTempo } from "./take-sound";
import { child, childElements, textOf, type XmlElement } from "./xml-tree";

/** What one `direction` says, gathered over its direction types. */
interface Said {
  readonly onset: Quarters;
  readonly staff: number;
  words: string[];
  metronome: Metronome | null;
  hasUnreadableMetronome: boolean;
  signs: ("segno" | "coda")[];
}

/** Takes in a `direction`: what is printed, and what its `sound` means for tempo and order. */
export function takeDirection(direction: XmlElement, state: MeasureState): void {
  const staff = state.staffOf(textOf(child(direction, "staff")).trim() || null) ?? 1;
  const onset = offsetFrom(child(direction, "offset"), state);
  const said: Said = { onset, staff, words: [], metronome: null, hasUnreadableMetronome: false, signs: [] };
  for (const type of childElements(direction)) {
    if (type.name === "direction-type") takeDirectionType(type, state, said);
  }
  const sound = child(direction, "sound");
  takeJumps(said, sound, state);
  takeTempo(said, sound, state);
}

/** Takes in a `sound` that stands by itself in a measure. */
export function takeSound(sound: XmlElement, state: MeasureState): void {
  const onset = offsetFrom(child(sound, "offset"), state);
  takeSoundJumps(sound, state, onset);
  const quartersPerMinute = readSoundTempo(sound, state);
  if (quartersPerMinute !== null) addTempo({ onset, words: null, quartersPerMinute, source: "sound" }, state);
}

/** Takes in a `directive` of `attributes`, the old way to print a tempo at the start of a piece. */
export function takeDirective(directive: XmlElement, state: MeasureState): void {
  const text = state.clip(textOf(directive).trim());
  if (text === "") return;
  const placed = { barIndex: state.barIndex, onset: state.at, staff: 1 };
  state.draft.directions.push({ ...placed, kind: "words", text });
  if (readTempoWords(text) === null) return;
  addTempo({ onset: state.at, words: text, quartersPerMinute: null, source: "words" }, state);
}

/** Where it stands: the place that is reached, moved by `offset`, but not to before the bar. */
function offsetFrom(offset: XmlElement | null, state: MeasureState): Quarters {
  const by = offset === null ? null : state.part.lengthOf(textOf(offset));
  if (by === null) return state.at;
  const moved = state.plus(state.at, by);
  return compareQuarters(moved, noQuarters) < 0 ? noQuarters : moved;
}

function takeDirectionType(type: XmlElement, state: MeasureState, said: Said): void {
  const words: string[] = [];
  for (const element of childElements(type)) {
    if (element.name === "words" && words.length < mostWords) words.push(textOf(element));
    else takePrinted(element, state, said);
  }
  const text = state.clip(joinWords(words));
  if (text === "") return;
  said.words.push(text);
  const { onset, staff } = said;
  state.draft.directions.push({ kind: "words", barIndex: state.barIndex, onset, staff, text });
}

/** Changes of face within one text. */
const mostWords = 100;

/** Several `words` in a row are one text that changes its face: a space goes where neither side has one. */
function joinWords(words: readonly string[]): string {
  return words
    .reduce(
      (text, next) => (text === "" || /\s$/.test(text) || /^\s/.test(next) ? text + next : `${text} ${next}`),
      "",
    )
    .trim();
}

function takePrinted(element: XmlElement, state: MeasureState, said: Said): void {
  const placed = { barIndex: state.barIndex, onset: said.onset, staff: said.staff };
  const { directions } = state.draft;
  const { type = "", number, size } = element.attributes;
  switch (element.name) {
    case "dynamics":
      for (const mark of readDynamics(element)) {
        directions.push({ ...placed, kind: "dynamic", mark: state.clip(mark) });
      }
      break;
    case "wedge":
      if (isOneOf(type, wedgeTypes))
        directions.push({ ...placed, kind: "wedge", type, number: readLevel(number) });
      break;
    case "octave-shift":
      if (isOneOf(type, shiftTypes)) {
        directions.push({
          ...placed,
          kind: "octave-shift",
          type,
          size: readSize(size),
          number: readLevel(number),
        });
      }
      break;
    case "rehearsal":
      directions.push({ ...placed, kind: "rehearsal", text: state.clip(textOf(element).trim()) });
      break;
    case "pedal":
      directions.push({ ...placed, kind: "pedal", type: type.slice(0, 20) });
      break;
    case "segno":
    case "coda":
      said.signs.push(element.name);
      break;
    case "metronome":
      said.metronome = readMetronome(element);
      said.hasUnreadableMetronome = said.metronome === null;
  }
}

const wedgeTypes = ["crescendo", "diminuendo", "stop", "continue"] as const;
const shiftTypes = ["up", "down", "stop", "continue"] as const;

function isOneOf<T extends string>(text: string, list: readonly T[]): text is T {
  return (list as readonly string[]).includes(text);
}

/** One octave, two or three, counted with both ends. */
function readSize(text: string | undefined): number {
  const size = Number(text ?? 8);
  return size === 15 || size === 22 ? size : 8;
}

/** `sound` counts; words and signs only for what it does not say. */
function takeJumps(said: Said, sound: XmlElement | null, state: MeasureState): void {
  const meant = sound === null ? [] : takeSoundJumps(sound, state, said.onset);
  if (meant.length > 0) return;
  const add = (kind: keyof BarJumps, source: "words" | "sign") => {
    const name = kind === "dalSegno" ? "segno" : kind === "toCoda" ? "coda" : kind;
    state.bar.jumps.push({ kind, name, offset: said.onset, source });
  };
  const fromWords = readJumpWords(said.words.join(" "));
  if (fromWords !== null) {
    add(fromWords, "words");
    return;
  }
  for (const sign of said.signs) add(sign, "sign");
}

function takeTempo(said: Said, sound: XmlElement | null, state: MeasureState): void {
  const words = said.words.length === 0 ? null : said.words.join(" ");
  const { onset, metronome } = said;
  const fromSound = sound === null ? null : readSoundTempo(sound, state);
  if (metronome?.modulation) {
    const { modulation } = metronome;
    addTempo({ onset, words, quartersPerMinute: fromSound, source: "metronome", modulation }, state);
  } else if (metronome?.quartersPerMinute && isTempo(metronome.quartersPerMinute)) {
    addTempo({ onset, words, quartersPerMinute: metronome.quartersPerMinute, source: "metronome" }, state);
  } else {
    if (metronome || said.hasUnreadableMetronome) tellImpossibleTempo(state);
    if (fromSound !== null) addTempo({ onset, words, quartersPerMinute: fromSound, source: "sound" }, state);
    else if (words !== null && readTempoWords(words) !== null) {
      addTempo({ onset, words, quartersPerMinute: null, source: "words" }, state);
    }
  }
}

type Tempo = Pick<TempoDraft, "onset" | "words" | "quartersPerMinute" | "source"> & { modulation?: number };

function addTempo(tempo: Tempo, state: MeasureState): void {
  const draft: Draft<TempoDraft> = {
    modulation: null,
    ...tempo,
    barIndex: state.barIndex,
    partName: state.draft.identity.name,
  };
  state.score.tempi.push(draft);
}
