/** From a moment of the sound clock on, the music goes on from a place at a pace. */
interface Anchor {
  /** Of the sound clock, in seconds. */
  readonly at: number;
  /** Of the music at full tempo, in seconds. */
  readonly place: number;
  /** Share of the tempo. */
  readonly pace: number;
}

/**
 * Which place of the music sounds at which moment. A change counts from its moment on, so that what was sent ahead for
 * the time before it stays right.
 */
export class MusicClock {
  private anchors: Anchor[];

  constructor(at: number, place: number, pace: number) {
    this.anchors = [{ at, place, pace }];
  }

  /** The place that sounds at a moment. */
  placeAt(moment: number): number {
    const { at, place, pace } = this.anchorAt(moment);
    return place + (moment - at) * pace;
  }

  /** When a place is reached by the newest change. */
  momentOf(place: number): number {
    const last = this.last();
    return last.at + (place - last.place) / last.pace;
  }

  /** Another pace from a moment on, at the place that is reached then. */
  setPace(from: number, pace: number): void {
    this.put({ at: from, place: this.placeAt(from), pace });
  }

  /** Another place from a moment on. */
  jump(from: number, place: number): void {
    this.put({ at: from, place, pace: this.last().pace });
  }

  private put(anchor: Anchor): void {
    this.anchors = [...this.anchors.filter(({ at }) => at < anchor.at), anchor].slice(-16);
  }

  private anchorAt(moment: number): Anchor {
    return this.anchors.findLast(({ at }) => at <= moment) ?? (this.anchors[0] as Anchor); // there is always one
  }

  private last(): Anchor {
    return this.anchors.at(-1) as Anchor; // there is always one
  }
}
