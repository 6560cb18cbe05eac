/** A system on a page. */
export interface PlacedSystem {
  readonly index: number;
  /** Upper edge, from the top of the page. */
  readonly y: number;
}

export interface PageRoom {
  /** Where music may start, on the first page and on the others. */
  readonly firstTop: number;
  readonly top: number;
  readonly bottom: number;
  /** Least distance between two systems. */
  readonly gap: number;
}

/** How many times the least distance systems are moved apart to fill a page: more looks like music that is missing. */
const widestGapRatio = 8;

/**
 * Puts systems on pages, as many as fit on each but evenly: no page but the last is much emptier than the others. The
 * systems of a page that is nearly full are spread to its foot.
 *
 * @param heights of the systems. One higher than a page still gets a page.
 */
export function planPages(heights: readonly number[], room: PageRoom): PlacedSystem[][] {
  const counts = evenCounts(heights, room);
  const pages: PlacedSystem[][] = [];
  let next = 0;
  for (const count of counts) {
    const indices = Array.from({ length: count }, (_, index) => next + index);
    pages.push(spread(indices, heights, pages.length === 0 ? room.firstTop : room.top, room));
    next += count;
  }
  return pages;
}

/** Systems on each page. Of all ways with the fewest pages the one that leaves the least uneven space. */
function evenCounts(heights: readonly number[], room: PageRoom): number[] {
  // best[i]: the fewest pages, then the least squared space, for the first i systems.
  const best: { pages: number; waste: number; from: number }[] = [{ pages: 0, waste: 0, from: 0 }];
  for (let end = 1; end <= heights.length; end += 1) {
    let found: { pages: number; waste: number; from: number } | null = null;
    let used = -room.gap;
    for (let start = end - 1; start >= 0; start -= 1) {
      used += (heights[start] ?? 0) + room.gap;
      const space = room.bottom - (start === 0 ? room.firstTop : room.top) - used;
      if (space < 0 && start < end - 1) break;
      const before = best[start];
      if (!before) continue;
      const isLast = end === heights.length;
      const waste = before.waste + (isLast ? 0.2 : 1) * Math.max(0, space) ** 2;
      const pages = before.pages + 1;
      if (!found || pages < found.pages || (pages === found.pages && waste < found.waste)) {
        found = { pages, waste, from: start };
      }
    }
    best.push(found ?? { pages: end, waste: 0, from: end - 1 });
  }
  const counts: number[] = [];
  for (let end = heights.length; end > 0; end = best[end]?.from ?? 0)
    counts.unshift(end - (best[end]?.from ?? 0));
  return counts;
}

function spread(
  indices: readonly number[],
  heights: readonly number[],
  top: number,
  room: PageRoom,
): PlacedSystem[] {
  const used = indices.reduce((sum, index) => sum + (heights[index] ?? 0), 0);
  const space = (room.bottom - top - used) / Math.max(1, indices.length - 1);
  const gap = space > room.gap * widestGapRatio ? room.gap * 1.5 : Math.max(room.gap, space);
  let y = top;
  return indices.map((index) => {
    const placed = { index, y };
    y += (heights[index] ?? 0) + gap;
    return placed;
  });
}
