import type { Pitch, Step } from "@/lib/score/pitch";
import { type Quarters, quarters, readQuarters } from "@/lib/score/quarters";

/** What one token of the text notation stands for; the notation itself is described in build-score.ts. */
export type Token =
  | { kind: "notes"; pitches: Pitch[]; duration: Quarters | null; flags: string[]; isTied: boolean }
  | { kind: "rest"; duration: Quarters | null; flags: string[] }
  | { kind: "whole-bar-rest"; times: number; flags: string[] }
  | { kind: "words" | "rehearsal" | "dynamic" | "jump" | "wedge"; text: string }
  | { kind: "tempo"; source: "metronome" | "sound"; quartersPerMinute: number }
  | { kind: "metre"; beats: number; beatType: number }
  | { kind: "key"; fifths: number }
  | { kind: "bar-line" | "repeat-start" }
  | { kind: "repeat-end"; times: number }
  | { kind: "ending"; numbers: number[] }
  | { kind: "ending-stop" };

const lengths: Readonly<Record<string, Quarters>> = {
  w: quarters(4),
  h: quarters(2),
  q: quarters(1),
  e: quarters(1, 2),
  s: quarters(1, 4),
  t: quarters(1, 8),
};

/** "q", "h.", "e3" (a triplet eighth) or a fraction of a quarter such as "7/2". */
export function readLength(text: string): Quarters {
  const match = /^([whqest])(\.*)(3?)$/.exec(text);
  const exact = match ? lengths[match[1] ?? ""] : readQuarters(text);
  if (!exact || exact.num <= 0) throw new RangeError(`Not a note value: "${text}"`);
  const dots = match?.[2]?.length ?? 0;
  const dotted = quarters(exact.num * (2 ** (dots + 1) - 1), exact.den * 2 ** dots);
  return match?.[3] ? quarters(dotted.num * 2, dotted.den * 3) : dotted;
}

export function readPitch(text: string): Pitch {
  const match = /^([a-g])(#{0,2}|b{0,2})(-?\d)$/.exec(text);
  if (!match) throw new RangeError(`Not a pitch: "${text}"`);
  const accidental = match[2] ?? "";
  const alter = accidental.startsWith("b") ? -accidental.length : accidental.length;
  return { step: (match[1] ?? "c").toUpperCase() as Step, alter, octave: Number(match[3]) };
}

const dynamics = new Set(["ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "sf", "sfz", "fp"]);
const barLines: Readonly<Record<string, Token[]>> = {
  "|": [{ kind: "bar-line" }],
  "|:": [{ kind: "bar-line" }, { kind: "repeat-start" }],
  ":|": [{ kind: "repeat-end", times: 2 }, { kind: "bar-line" }],
  ":|:": [{ kind: "repeat-end", times: 2 }, { kind: "bar-line" }, { kind: "repeat-start" }],
};
const jumps = new Set(["$segno", "$coda", "$tocoda", "$ds", "$dc", "$fine"]);

function readSign(text: string): Token[] | null {
  const times = /^:\|x(\d+)$/.exec(text);
  if (times) return [{ kind: "repeat-end", times: Number(times[1]) }, { kind: "bar-line" }];
  const ending = /^\[(\d+(?:,\d+)*)\.$/.exec(text);
  if (ending) return [{ kind: "ending", numbers: (ending[1] ?? "").split(",").map(Number) }];
  if (text === "]") return [{ kind: "ending-stop" }];
  const rehearsal = /^\[([A-Z0-9]+)\]$/.exec(text);
  if (rehearsal) return [{ kind: "rehearsal", text: rehearsal[1] ?? "" }];
  if (text.startsWith('"')) return [{ kind: "words", text: text.slice(1, -1) }];
  if (dynamics.has(text)) return [{ kind: "dynamic", text }];
  if (text === "<" || text === ">" || text === "/") return [{ kind: "wedge", text }];
  if (jumps.has(text)) return [{ kind: "jump", text: text.slice(1) }];
  return barLines[text] ?? null;
}

function readSetting(text: string): Token | null {
  const metre = /^(\d+)\/(\d+)$/.exec(text);
  if (metre) return { kind: "metre", beats: Number(metre[1]), beatType: Number(metre[2]) };
  const key = /^key=(-?\d)$/.exec(text);
  if (key) return { kind: "key", fifths: Number(key[1]) };
  const tempo = /^(sound|[whqest]\.?)=(\d+(?:\.\d+)?)$/.exec(text);
  if (!tempo) return null;
  const [, unit = "", figure = ""] = tempo;
  const beat = unit === "sound" ? quarters(1) : readLength(unit);
  const source = unit === "sound" ? "sound" : "metronome";
  return { kind: "tempo", source, quartersPerMinute: (Number(figure) * beat.num) / beat.den };
}

function readEvent(text: string): Token {
  const match = /^([^:()~]+?)(?::([^()~]+))?(~)?(?:\(([^)]*)\))?$/.exec(text);
  if (!match) throw new RangeError(`Not a note, rest or sign: "${text}"`);
  const [, head = "", length, tie, flagText] = match;
  const flags = flagText ? flagText.split(",") : [];
  const whole = /^R(?:\*(\d+))?$/.exec(head);
  if (whole) return { kind: "whole-bar-rest", times: Number(whole[1] ?? 1), flags };
  const duration = length === undefined ? null : readLength(length);
  if (head === "r") return { kind: "rest", duration, flags };
  return {
    kind: "notes",
    pitches: head.split("+").map(readPitch),
    duration,
    flags,
    isTied: tie !== undefined,
  };
}

/** @throws RangeError with the text that is no token. */
export function readNotation(text: string): Token[] {
  const pieces = text.match(/"[^"]*"|\S+/g) ?? [];
  return pieces.flatMap((piece) => readSign(piece) ?? readSetting(piece) ?? readEvent(piece));
}
