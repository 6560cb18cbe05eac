import { describe, expect, it } from "vitest";
import { chooseInstrument } from "@/lib/sound/choose-instrument";
import { bankPresets, instruments } from "@/lib/sound/instruments";

const part = { name: "", soundId: null, midiProgram: null, role: "solo" } as const;

describe("the instrument of a part", () => {
  it.each([
    ["Clarinet in B♭", bankPresets.clarinet, null],
    ["Klarinette", bankPresets.clarinet, null],
    ["Violino principale", bankPresets.violin, null],
    ["Vl. I", bankPresets.violin, null],
    ["Violoncello", bankPresets.cello, null],
    ["Corno in F", bankPresets.horn, null],
    ["Flöte", bankPresets.flute, null],
    ["Fagotto", bankPresets.bassoon, null],
    ["Tromba", bankPresets.trumpet, null],
    ["Pianoforte", bankPresets.piano, null],
    ["Trombone", bankPresets.horn, "trombone played by horn"],
    ["Corno inglese", bankPresets.oboe, "English horn played by oboe"],
    ["Double Bass", bankPresets.cello, "double bass played by cello"],
    ["Soprano", bankPresets.clarinet, "voice played by clarinet"],
    ["Alto Saxophone", bankPresets.clarinet, "saxophone played by clarinet"],
    ["Theremin", bankPresets.violin, "Theremin played by violin"],
  ])("%s is heard as program %i", (name, program, substituted) => {
    expect(chooseInstrument({ ...part, name })).toEqual({ program, substituted });
  });

  it("is told by the sound id where the name says nothing, by the longest beginning", () => {
    const heard = (soundId: string) => chooseInstrument({ ...part, name: "Solo", soundId }).program;
    expect(heard("wind.reed.clarinet.bflat")).toBe(bankPresets.clarinet);
    expect(heard("strings.viola")).toBe(bankPresets.viola);
    expect(heard("strings.viol.bass")).toBe(bankPresets.cello);
    expect(heard("strings.group")).toBe(bankPresets.strings);
  });

  it("is told by the General MIDI program where nothing else tells", () => {
    expect(chooseInstrument({ ...part, name: "Solo", midiProgram: 69 }).program).toBe(bankPresets.oboe);
  });

  it("is the violin for a solo and the piano for the rest where nothing tells at all", () => {
    expect(chooseInstrument(part)).toEqual({ program: bankPresets.violin, substituted: null });
    expect(chooseInstrument({ ...part, role: "reduction" }).program).toBe(bankPresets.piano);
  });

  it("knows every preset of the bank, and each General MIDI program once at most", () => {
    const presets = new Set(instruments.map(({ preset }) => preset));
    expect([...presets].sort()).toEqual(Object.keys(bankPresets).sort());
    const programs = instruments.flatMap(({ midiPrograms }) => midiPrograms);
    expect(new Set(programs).size).toBe(programs.length);
  });
});
