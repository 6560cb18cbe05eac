import type { PageRoom } from "../pages/page-room";

/** A system on a page. */
export interface PlacedSystem {
  readonly index: number;
  /** Upper edge, from the top of the page. */
  readonly y: number;
}

/** Systems are moved apart to fill a page, at most by a share of their mean height: more looks like music that is missing. */
const widestGapShare = 0.7;

/**
 * Places systems down their pages. Those of a page that is full enough are spread to its foot.
 *
 * @param heights of the systems, in order.
 * @param counts how many of them stand on each page.
 */
export function placeSystems(
  heights: readonly number[],
  counts: readonly number[],
  room: PageRoom,
): PlacedSystem[][] {
  let next = 0;
  return counts.map((count, pageIndex) => {
    const indices = Array.from({ length: count }, (_, index) => next + index);
    next += count;
    return spread(indices, heights, pageIndex === 0 ? room.firstTop : room.top, room);
  });
}

function spread(
  indices: readonly number[],
  heights: readonly number[],
  top: number,
  room: PageRoom,
): PlacedSystem[] {
  const used = indices.reduce((sum, index) => sum + (heights[index] ?? 0), 0);
  const space = (room.bottom - top - used) / Math.max(1, indices.length - 1);
  const widest = Math.max(room.gap, (used / Math.max(1, indices.length)) * widestGapShare);
  const gap = Math.min(Math.max(room.gap, space), widest);
  let y = top;
  return indices.map((index) => {
    const placed = { index, y };
    y += (heights[index] ?? 0) + gap;
    return placed;
  });
}
