import { SaxesParser } from "saxes";

/** A bar of one part as the file has it: printed number and the time that each voice fills, in ticks. */
export interface WrittenMeasure {
  readonly number: string;
  readonly voices: ReadonlyMap<string, number>;
  readonly wholeBarRests: number;
}

interface Reading {
  part: WrittenMeasure[];
  number: string;
  at: number;
  voices: Map<string, number>;
  wholeBarRests: number;
  duration: number;
  voice: string;
  isChord: boolean;
}

/**
 * Reads, by part, where each voice of each measure ends, from nothing but the durations in the text: notes, `backup`
 * and `forward`. Knows nothing of the code that wrote it.
 *
 * @throws Error where a voice overlaps itself or leaves a gap.
 */
export function readVoices(xml: string): WrittenMeasure[][] {
  const parts: WrittenMeasure[][] = [];
  const now: Reading = emptyReading();
  let text = "";
  const parser = new SaxesParser();
  parser.on("opentag", ({ name, attributes }) => {
    text = "";
    if (name === "part") {
      now.part = [];
      parts.push(now.part);
    }
    if (name === "measure") Object.assign(now, emptyReading(), { part: now.part, number: attributes.number });
    if (name === "note" || name === "forward" || name === "backup") {
      Object.assign(now, { duration: 0, voice: "1", isChord: false });
    }
    if (name === "chord") now.isChord = true;
    if (name === "rest" && attributes.measure === "yes") now.wholeBarRests++;
  });
  parser.on("text", (piece) => {
    text += piece;
  });
  parser.on("closetag", ({ name }) => {
    if (name === "duration") now.duration = Number(text);
    if (name === "voice") now.voice = text;
    if (name === "backup") now.at -= now.duration;
    if ((name === "note" && !now.isChord) || name === "forward") advance(now);
    if (name === "measure")
      now.part.push({ number: now.number, voices: now.voices, wholeBarRests: now.wholeBarRests });
  });
  parser.write(xml).close();
  return parts;
}

function emptyReading(): Reading {
  return {
    part: [],
    number: "",
    at: 0,
    voices: new Map(),
    wholeBarRests: 0,
    duration: 0,
    voice: "1",
    isChord: false,
  };
}

function advance(now: Reading): void {
  const end = now.voices.get(now.voice) ?? 0;
  if (end !== now.at)
    throw new Error(`Bar ${now.number}, voice ${now.voice}: note at ${now.at}, expected ${end}`);
  now.at += now.duration;
  now.voices.set(now.voice, now.at);
}
