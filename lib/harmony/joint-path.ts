/**
 * Costs of hearing keys and chords in a row of frames, in whole units, so that sums are exact in any order. Keys and
 * chords are numbered; the tables may be of any size.
 */
export interface JointModel {
  /** By frame, by key: what the sounding notes say against the key. */
  readonly keyCosts: readonly Int32Array[];
  /** By frame, by chord: what they say against the chord. */
  readonly chordCosts: readonly Int32Array[];
  /** By key, by chord: how far the chord is from the key. Does not count in silent frames. */
  readonly chordInKey: readonly Int32Array[];
  readonly isSilent: readonly boolean[];
  /** From key, to key; 0 on the diagonal. A key changes only together with the chord, or the chord is begun anew. */
  readonly keyChange: readonly Int32Array[];
  /** By frame: cost of beginning another chord there. */
  readonly chordChange: Int32Array;
  /** By chord: those that lead into it, at a lower cost of changing. */
  readonly leadsInto: readonly (readonly number[])[];
  /** How much lower; less than any `chordChange`. */
  readonly leadingGain: number;
  /** Decides between paths of equal cost: the lower is taken. */
  rank(frame: number, key: number, chord: number): number;
}

export interface JointPath {
  /** By frame. */
  readonly keys: readonly number[];
  readonly chords: readonly number[];
  /** By frame, by key: how much more than the best path the best path costs that has this key here. */
  readonly keyExcess: readonly Int32Array[];
  /** By frame, by chord: the same for chords. */
  readonly chordExcess: readonly Int32Array[];
}

/** One row of costs by key and chord: key × number of chords + chord. */
type Row = Int32Array;

/** Lists of chords by chord, laid out flat: those of chord `c` lie from `starts[c]` to `starts[c + 1]`. */
interface Links {
  readonly starts: Int32Array;
  readonly chords: Int32Array;
}

function layFlat(lists: readonly (readonly number[])[]): Links {
  const starts = new Int32Array(lists.length + 1);
  for (const [chord, list] of lists.entries()) starts[chord + 1] = (starts[chord] as number) + list.length;
  return { starts, chords: Int32Array.from(lists.flat()) };
}

function invert(leadsInto: readonly (readonly number[])[]): number[][] {
  const from: number[][] = leadsInto.map(() => []);
  for (const [chord, before] of leadsInto.entries()) for (const other of before) from[other]?.push(chord);
  return from;
}

/** Costs of changing key, [from key × number of keys + to key], and the same with the arrows turned. */
function layChanges(keyChange: readonly Int32Array[]): { forward: Int32Array; back: Int32Array } {
  const forward = Int32Array.from(keyChange.flatMap((row) => [...row]));
  const back = Int32Array.from(keyChange.flatMap((_, to) => keyChange.map((row) => row[to] as number)));
  return { forward, back };
}

class JointSearch {
  private readonly keyCount: number;
  private readonly chordCount: number;
  private readonly into: Links;
  private readonly outOf: Links;
  private readonly changes: { readonly forward: Int32Array; readonly back: Int32Array };
  /** By key: the cheapest of its chords in the row that was looked at last. */
  private readonly bestOfKey: Int32Array;
  /** By key and chord, laid out as rows are. */
  private readonly inKey: Int32Array;

  constructor(private readonly model: JointModel) {
    this.keyCount = model.chordInKey.length;
    this.chordCount = model.leadsInto.length;
    this.bestOfKey = new Int32Array(this.keyCount);
    this.inKey = Int32Array.from(model.chordInKey.flatMap((row) => [...row]));
    this.into = layFlat(model.leadsInto);
    this.outOf = layFlat(invert(model.leadsInto));
    this.changes = layChanges(model.keyChange);
  }

  run(): JointPath {
    const forward = this.goForward();
    return { ...this.measureExcess(forward), ...this.goBack(forward) };
  }

  private emptyRow(): Row {
    return new Int32Array(this.keyCount * this.chordCount);
  }

  /** Cost of the best path that ends in each key and chord. */
  private goForward(): Row[] {
    const rows: Row[] = [];
    for (let frame = 0; frame < this.model.keyCosts.length; frame += 1) {
      const row = this.emptyRow();
      const before = rows[frame - 1];
      if (before) this.step(before, row, frame, this.into, this.changes.back);
      this.addCosts(row, frame);
      rows.push(row);
    }
    return rows;
  }

  /** Adds what a frame says, and notes the best of each key. */
  private addCosts(row: Row, frame: number): void {
    const ofKeys = this.model.keyCosts[frame] as Int32Array;
    const ofChords = this.model.chordCosts[frame] as Int32Array;
    const counts = this.model.isSilent[frame] ? 0 : 1;
    let place = 0;
    for (let key = 0; key < this.keyCount; key += 1) {
      const ofKey = ofKeys[key] as number;
      let best = 2 ** 31 - 1;
      for (let chord = 0; chord < this.chordCount; chord += 1) {
        const own = ofKey + (ofChords[chord] as number) + counts * (this.inKey[place] as number);
        const cost = (row[place] as number) + own;
        row[place] = cost;
        if (cost < best) best = cost;
        place += 1;
      }
      this.bestOfKey[key] = best;
    }
  }

  /**
   * The cheapest change from any state of `from`, to which costs were added last, to each of `to`; backwards the same with
   * the arrows turned.
   *
   * @param changes cost of coming from a key, [key there × number of keys + key before].
   */
  private step(from: Row, to: Row, frame: number, { starts, chords }: Links, changes: Int32Array): void {
    const change = this.model.chordChange[frame] as number;
    const lead = change - this.model.leadingGain;
    for (let key = 0; key < this.keyCount; key += 1) {
      const anew = this.cheapestKey(key, changes) + change;
      const first = key * this.chordCount;
      for (let chord = 0; chord < this.chordCount; chord += 1) {
        let least = from[first + chord] as number;
        if (anew < least) least = anew;
        const end = starts[chord + 1] as number;
        for (let link = starts[chord] as number; link < end; link += 1) {
          const cost = (from[first + (chords[link] as number)] as number) + lead;
          if (cost < least) least = cost;
        }
        to[first + chord] = least;
      }
    }
  }

  private findBestOfKeys(row: Row): void {
    let place = 0;
    for (let key = 0; key < this.keyCount; key += 1) {
      let best = row[place] as number;
      for (const end = place + this.chordCount; place < end; place += 1) {
        const cost = row[place] as number;
        if (cost < best) best = cost;
      }
      this.bestOfKey[key] = best;
    }
  }

  private cheapestKey(key: number, changes: Int32Array): number {
    let least = Number.POSITIVE_INFINITY;
    for (let other = 0; other < this.keyCount; other += 1) {
      const cost = (this.bestOfKey[other] as number) + (changes[key * this.keyCount + other] as number);
      if (cost < least) least = cost;
    }
    return least;
  }

  private measureExcess(forward: readonly Row[]): Pick<JointPath, "keyExcess" | "chordExcess"> {
    const keyExcess: Int32Array[] = new Array(forward.length);
    const chordExcess: Int32Array[] = new Array(forward.length);
    let after = this.emptyRow();
    let spare = this.emptyRow();
    for (let frame = forward.length - 1; frame >= 0; frame -= 1) {
      const [ofKeys, ofChords] = this.bestThrough(forward[frame] as Row, after);
      let best = ofKeys[0] as number;
      for (const cost of ofKeys) if (cost < best) best = cost;
      for (let key = 0; key < ofKeys.length; key += 1) ofKeys[key] = (ofKeys[key] as number) - best;
      for (let chord = 0; chord < ofChords.length; chord += 1)
        ofChords[chord] = (ofChords[chord] as number) - best;
      keyExcess[frame] = ofKeys;
      chordExcess[frame] = ofChords;
      this.addCosts(after, frame);
      this.step(after, spare, frame, this.outOf, this.changes.forward);
      [after, spare] = [spare, after];
    }
    return { keyExcess, chordExcess };
  }

  /** The cheapest path through each key, and through each chord, of one frame. */
  private bestThrough(row: Row, after: Row): [Int32Array, Int32Array] {
    const ofKeys = new Int32Array(this.keyCount);
    const ofChords = new Int32Array(this.chordCount).fill(2 ** 31 - 1);
    let place = 0;
    for (let key = 0; key < this.keyCount; key += 1) {
      let best = 2 ** 31 - 1;
      for (let chord = 0; chord < this.chordCount; chord += 1) {
        const cost = (row[place] as number) + (after[place] as number);
        if (cost < best) best = cost;
        if (cost < (ofChords[chord] as number)) ofChords[chord] = cost;
        place += 1;
      }
      ofKeys[key] = best;
    }
    return [ofKeys, ofChords];
  }

  private goBack(forward: readonly Row[]): Pick<JointPath, "keys" | "chords"> {
    const keys: number[] = new Array(forward.length);
    const chords: number[] = new Array(forward.length);
    let place: number | null = null;
    for (let frame = forward.length - 1; frame >= 0; frame -= 1) {
      const row = forward[frame] as Row;
      const ties: number[] = place === null ? this.cheapestOf(row) : this.cheapestBefore(row, frame, place);
      place = this.pick(frame, ties);
      keys[frame] = Math.floor(place / this.chordCount);
      chords[frame] = place % this.chordCount;
    }
    return { keys, chords };
  }

  private cheapestOf(row: Row): number[] {
    const least = row.reduce((best, cost) => Math.min(best, cost));
    return [...row.keys()].filter((place) => row[place] === least);
  }

  /** The states from which `place` in the frame after is reached at the least cost. */
  private cheapestBefore(row: Row, frame: number, place: number): number[] {
    const change = this.model.chordChange[frame + 1] as number;
    const key = Math.floor(place / this.chordCount);
    const first = key * this.chordCount;
    const leads = this.model.leadsInto[place - first] as readonly number[];
    this.findBestOfKeys(row);
    const ofKey = (other: number) =>
      (this.bestOfKey[other] as number) +
      (this.changes.forward[other * this.keyCount + key] as number) +
      change;
    const direct = [
      { place, cost: row[place] as number },
      ...leads.map((lead) => {
        const cost = (row[first + lead] as number) + change - this.model.leadingGain;
        return { place: first + lead, cost };
      }),
    ];
    const keys = Array.from({ length: this.keyCount }, (_, other) => other);
    const least = Math.min(...direct.map(({ cost }) => cost), ...keys.map(ofKey));
    const anew = keys
      .filter((other) => ofKey(other) === least)
      .flatMap((other) => this.bestPlaces(row, other));
    return [...direct.filter(({ cost }) => cost === least).map((state) => state.place), ...anew];
  }

  private bestPlaces(row: Row, key: number): number[] {
    const places = Array.from({ length: this.chordCount }, (_, chord) => key * this.chordCount + chord);
    return places.filter((place) => row[place] === this.bestOfKey[key]);
  }

  private pick(frame: number, ties: readonly number[]): number {
    const rank = (place: number) =>
      this.model.rank(frame, Math.floor(place / this.chordCount), place % this.chordCount);
    return ties.reduce((best, place) => (rank(place) < rank(best) ? place : best));
  }
}

/**
 * The cheapest row of keys and chords (Viterbi's algorithm), with what any other would have cost in each frame. Every
 * change of chord costs the same, but for chords that lead into each other, so that the work grows with the number of
 * keys times the number of chords and not with its square.
 */
export function findJointPath(model: JointModel): JointPath {
  return new JointSearch(model).run();
}
