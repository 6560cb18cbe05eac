import type { Part } from "@/lib/score/part";
import { type BankPreset, bankPresets, type Instrument, instruments } from "./instruments";

export interface ChosenInstrument {
  /** General MIDI program from 0, one that the bank has. */
  readonly program: number;
  /** "trombone played by horn"; null when the bank has the instrument itself. */
  readonly substituted: string | null;
}

/**
 * What plays a part: by its printed name, which a person wrote; else by the file's sound id, else by its General MIDI
 * program, which many files leave at the piano. Where nothing tells, a solo is given to the violin and the rest to the piano.
 */
export function chooseInstrument(
  part: Pick<Part, "name" | "soundId" | "midiProgram" | "role">,
): ChosenInstrument {
  const { name, soundId, midiProgram, role } = part;
  const found =
    instruments.find(({ printed }) => printed.test(name)) ??
    findBySoundId(soundId) ??
    instruments.find(({ midiPrograms }) => midiProgram !== null && midiPrograms.includes(midiProgram));
  const preset: BankPreset = found?.preset ?? (role === "solo" ? "violin" : "piano");
  const heardFor = found?.name ?? name.trim();
  // What a pianist plays from sounds on the piano, whatever the part is called.
  const isItself = heardFor === preset || heardFor === "" || (!found && role === "reduction");
  return { program: bankPresets[preset], substituted: isItself ? null : `${heardFor} played by ${preset}` };
}

/** The longest beginning that fits: "wind.reed.oboe.damore" is no oboe. */
function findBySoundId(soundId: string | null): Instrument | undefined {
  if (soundId === null) return undefined;
  const fits = instruments.flatMap((instrument) =>
    instrument.soundIds.flatMap((id) =>
      soundId === id || soundId.startsWith(`${id}.`) ? [{ instrument, length: id.length }] : [],
    ),
  );
  return fits.sort((a, b) => b.length - a.length)[0]?.instrument;
}
