import type { Direction } from "@/lib/score/direction";
import type { TempoMark } from "@/lib/score/tempo-mark";
import type { AttachedTempo } from "./attach-tempi";
import { element, type XmlElement } from "./xml-tree";

/** MusicXML 4.0 `dynamics`; any other mark is written as a text of the file's own. */
const dynamics = new Set(
  "p pp ppp pppp ppppp pppppp f ff fff ffff fffff ffffff mp mf sf sfp sfpp fp rf rfz sfz sffz fz n pf sfzp".split(
    " ",
  ),
);

export function writeDirection(direction: Direction, hasStaves: boolean): XmlElement {
  return wrap([writePrinted(direction)], direction.staff, hasStaves);
}

/** Words with the tempo that they stand for. */
export function writeTempoWords({ mark, words }: AttachedTempo, hasStaves: boolean): XmlElement {
  const printed = words.map(writePrinted);
  if (mark.source === "metronome") printed.push(writeMetronome(mark));
  const sound = mark.source === "sound" ? [writeSoundTempo(mark)] : [];
  return wrap(printed, words[0]?.staff ?? 1, hasStaves, sound);
}

/** A tempo that stands beside no words of a part. */
export function writeTempo(mark: TempoMark): XmlElement {
  const words = mark.words === null ? [] : [element("words", {}, mark.words)];
  if (words.length === 0 && mark.source !== "metronome") return writeSoundTempo(mark);
  const printed = mark.source === "metronome" ? [...words, writeMetronome(mark)] : words;
  return wrap(printed, 1, false, mark.source === "sound" ? [writeSoundTempo(mark)] : []);
}

function wrap(
  printed: readonly XmlElement[],
  staff: number,
  hasStaves: boolean,
  sound: readonly XmlElement[] = [],
): XmlElement {
  return element(
    "direction",
    {},
    ...printed.map((found) => element("direction-type", {}, found)),
    ...(hasStaves ? [element("staff", {}, `${staff}`)] : []),
    ...sound,
  );
}

function writeMetronome({ quartersPerMinute }: TempoMark): XmlElement {
  const perMinute = element("per-minute", {}, `${quartersPerMinute}`);
  return element("metronome", {}, element("beat-unit", {}, "quarter"), perMinute);
}

function writeSoundTempo({ quartersPerMinute }: TempoMark): XmlElement {
  return element("sound", { tempo: `${quartersPerMinute}` });
}

function writePrinted(direction: Direction): XmlElement {
  switch (direction.kind) {
    case "dynamic":
      return element("dynamics", {}, writeDynamic(direction.mark));
    case "wedge":
      return element("wedge", { type: direction.type, number: `${direction.number}` });
    case "words":
      return element("words", {}, direction.text);
    case "rehearsal":
      return element("rehearsal", {}, direction.text);
    case "octave-shift": {
      const { type, size, number } = direction;
      return element("octave-shift", { type, size: `${size}`, number: `${number}` });
    }
    case "pedal":
      return element("pedal", { type: direction.type });
  }
}

function writeDynamic(mark: string): XmlElement {
  return dynamics.has(mark) ? element(mark) : element("other-dynamics", {}, mark);
}
