/** How much room each cut gets on the sheet, in points. */
export interface SectionPlan {
  /** Of the line that names a cut. */
  readonly lineHeight: number;
  /** Of each join's picture; 0 for one that is only named. */
  readonly pictureHeights: readonly number[];
  /** Under a picture. */
  readonly space: number;
}

/** Pictures are made smaller before one is left out, but not too small to read on a stand. */
const scales = [1, 0.9, 0.8, 0.7];
const space = 8;

/**
 * Divides the room for the cuts: all joins engraved if they fit, smaller if they must be, else as many as fit from the
 * first, the others named on a line each.
 *
 * @param heights of the pictures at full width.
 */
export function fitSections(heights: readonly number[], room: number): SectionPlan {
  const lineHeight = Math.min(30, Math.max(11, room / Math.max(1, heights.length)));
  const lines = lineHeight * heights.length;
  for (const scale of scales) {
    const pictures = heights.map((height) => height * scale);
    if (lines + sum(pictures) + space * heights.length <= room)
      return { lineHeight, pictureHeights: pictures, space };
  }
  const smallest = scales.at(-1) ?? 1;
  const tight = Math.min(lineHeight, 22);
  let left = room - tight * heights.length;
  const pictureHeights = heights.map((height) => {
    const needed = height * smallest + space;
    if (needed > left) return 0;
    left -= needed;
    return height * smallest;
  });
  return { lineHeight: tight, pictureHeights, space };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
