import type { BarJumps } from "@/lib/score/bar";
import type { Quarters } from "@/lib/score/quarters";
import type { MeasureState } from "./measure-state";
import type { XmlElement } from "./xml-tree";

/** Slower and faster than any music is played; what lies outside is a slip. */
const slowest = 1;
const fastest = 5_000;

/** Characters of the name that pairs a jump with its target. */
const longestName = 80;

/** A usable number of quarter notes a minute. */
export function isTempo(quartersPerMinute: number): boolean {
  return quartersPerMinute >= slowest && quartersPerMinute <= fastest;
}

/** `tempo` of a `sound` element; null when it gives none or an impossible one, which is told. */
export function readSoundTempo(sound: XmlElement, state: MeasureState): number | null {
  const { tempo } = sound.attributes;
  if (tempo === undefined) return null;
  const quartersPerMinute = tempo.trim() === "" ? Number.NaN : Number(tempo);
  if (isTempo(quartersPerMinute)) return quartersPerMinute;
  tellImpossibleTempo(state);
  return null;
}

export function tellImpossibleTempo(state: MeasureState): void {
  state.tell("tempo-impossible", "A tempo is no number that can be played; it was left out.");
}

/**
 * Takes in the jumps of a `sound` element (MusicXML 4.0: `segno`, `coda`, `tocoda`, `dalsegno` carry the name that pairs
 * them, `dacapo` and `fine` are flags).
 *
 * @returns the kinds it gave.
 */
export function takeSoundJumps(
  { attributes }: XmlElement,
  state: MeasureState,
  offset: Quarters,
): (keyof BarJumps)[] {
  const named: readonly (readonly [keyof BarJumps, string | undefined])[] = [
    ["segno", attributes.segno],
    ["coda", attributes.coda],
    ["toCoda", attributes.tocoda],
    ["dalSegno", attributes.dalsegno],
    ["daCapo", attributes.dacapo === "yes" ? "yes" : undefined],
    // "yes", or the number of the verse that ends here.
    ["fine", attributes.fine === "no" ? undefined : attributes.fine],
  ];
  const given = named.filter(([, name]) => name !== undefined);
  for (const [kind, name = ""] of given) {
    state.bar.jumps.push({ kind, name: name.trim().slice(0, longestName) || kind, offset, source: "sound" });
  }
  return given.map(([kind]) => kind);
}
