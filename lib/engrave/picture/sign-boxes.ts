import type { Move, PictureSign } from "./picture-words";

/** Pieces of a curve that are boxed one by one: of a line's length, a slur then leaves room under its arch. */
const pieces = 12;
const numbers = /-?\d*\.?\d+/g;

/**
 * What a slur or a tie covers, in boxes along its curve: the outer edge of the engraver's (verovio 6.3.0) path `M x,y C …`.
 *
 * @param path of the curve, in its own units.
 * @param shift of everything around it.
 */
export function boxesOfCurve(path: string, shift: Move): PictureSign[] {
  const [ax, ay, bx, by, cx, cy, dx, dy] = (path.match(numbers) ?? []).map(Number);
  if (ax === undefined || ay === undefined || bx === undefined || by === undefined) return [];
  if (cx === undefined || cy === undefined || dx === undefined || dy === undefined) return [];
  const at = (t: number, [a, b, c, d]: readonly [number, number, number, number]) =>
    (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t ** 2 * c + t ** 3 * d;
  const points = Array.from({ length: pieces + 1 }, (_, index) => {
    const t = index / pieces;
    return { x: shift.x + at(t, [ax, bx, cx, dx]), y: shift.y + at(t, [ay, by, cy, dy]) };
  });
  return points.slice(1).map((point, index) => boxOf([points[index] ?? point, point]));
}

/** How far a sign of the music font reaches from its place, in thousandths of its size. */
export interface SignReach {
  readonly right: number;
  readonly over: number;
  readonly under: number;
}

/**
 * What a sign of the music font covers.
 *
 * @param transform of its `use` element, which has its size.
 * @param place where it stands, all shifts included.
 */
export function boxOfSign(transform: string, { x, y }: Move, { right, over, under }: SignReach): PictureSign {
  const scale = Number(/scale\(\s*(-?[\d.]+)/.exec(transform)?.[1] ?? 1);
  return {
    ...{ left: x, right: x + right * scale },
    ...{ top: y - over * scale, bottom: y + under * scale },
  };
}

/** What a straight line covers, whose points are given one after the other. */
export function boxOfLine(points: string, shift: Move): PictureSign | null {
  const found = (points.match(numbers) ?? []).map(Number);
  const places = found.flatMap((x, index) =>
    index % 2 === 0 ? [{ x: x + shift.x, y: (found[index + 1] ?? 0) + shift.y }] : [],
  );
  return places.length > 1 ? boxOf(places) : null;
}

function boxOf(points: readonly Move[]): PictureSign {
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  return {
    ...{ left: Math.min(...xs), right: Math.max(...xs) },
    ...{ top: Math.min(...ys) - halfStroke, bottom: Math.max(...ys) + halfStroke },
  };
}

/** Half of what a line is thick, with a little room. */
const halfStroke = 20;
