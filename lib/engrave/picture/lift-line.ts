type Attributes = Readonly<Record<string, string>>;

/** Least distance of a line over a staff from its top line, in units of the picture: as one with hooks has it (verovio 6.3.0). */
const leastRise = 165;
/** Lower than this under the top line, it is no line over the staff. */
const overStaff = 40;
const pair = /(-?\d*\.?\d+)([\s,]+)(-?\d*\.?\d+)/g;

/**
 * Lifts a line over a staff, such as that of a cut that is shown: where it has no hooks, the engraver (verovio 6.3.0) lays it
 * on the staff's own top line.
 *
 * @param staffTop in the units of the line.
 * @param written what is written of the line; changed in place.
 */
export function liftLine(attributes: Attributes, staffTop: number, written: [string, string][]): void {
  for (const key of ["d", "points"]) {
    const points = attributes[key];
    const entry = written.find(([each]) => each === key);
    if (points === undefined || !entry) continue;
    const line = Math.min(...[...points.matchAll(pair)].map(([, , , y]) => Number(y)));
    const lift = line - (staffTop - leastRise);
    if (!(lift > 0) || line > staffTop + overStaff) continue;
    entry[1] = points.replace(pair, (_, x: string, between: string, y: string) => {
      return `${x}${between}${Math.round(Number(y) - lift)}`;
    });
  }
}
