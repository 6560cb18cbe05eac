import type { BarBox } from "../screen-engraving";

interface OpenElement {
  readonly classes: readonly string[];
  /** The shift of the element and all around it. */
  readonly x: number;
  readonly y: number;
}

interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/**
 * Finds the bars of a system by its staff lines: the horizontal paths directly inside `g.staff`, which the engraver
 * (verovio 6.3.0) draws from bar line to bar line. Fed with the elements of the picture in document order.
 */
export class BarBoxReader {
  private readonly around: OpenElement[] = [];
  private readonly bars: { barIndex: number; staves: Box[] }[] = [];

  constructor(private readonly barOfId: ReadonlyMap<string, number>) {}

  open(name: string, classes: readonly string[], attributes: Readonly<Record<string, string>>): void {
    const parent = this.around.at(-1);
    const [x, y] = readShift(attributes.transform);
    if (name === "path" && parent?.classes.includes("staff")) this.addLine(attributes.d ?? "", parent);
    this.around.push({ classes, x: (parent?.x ?? 0) + x, y: (parent?.y ?? 0) + y });
    if (name !== "g") return;
    const barIndex = this.barOfId.get(attributes.id ?? "");
    if (classes.includes("measure") && barIndex !== undefined) this.bars.push({ barIndex, staves: [] });
    if (classes.includes("staff")) {
      this.bars.at(-1)?.staves.push({ left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity });
    }
  }

  close(): void {
    this.around.pop();
  }

  private addLine(path: string, { x, y }: OpenElement): void {
    const line = /^M\s*(-?[\d.]+)[\s,]+(-?[\d.]+)\s*L\s*(-?[\d.]+)[\s,]+(-?[\d.]+)\s*$/.exec(path);
    const staff = this.bars.at(-1)?.staves.at(-1);
    if (!line || !staff) return;
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = line.slice(1).map(Number);
    if (y1 !== y2) return;
    staff.left = Math.min(staff.left, x1 + x);
    staff.right = Math.max(staff.right, x2 + x);
    staff.top = Math.min(staff.top, y1 + y);
    staff.bottom = Math.max(staff.bottom, y1 + y);
  }

  /** How far what is open is shifted, with all around it. */
  shift(): { readonly x: number; readonly y: number } {
    const { x = 0, y = 0 } = this.around.at(-1) ?? {};
    return { x, y };
  }

  /** The bar that is open or was last. */
  current(): { readonly barIndex: number | null; readonly isFirst: boolean } {
    return { barIndex: this.bars.at(-1)?.barIndex ?? null, isFirst: this.bars.length < 2 };
  }

  /** Left upper corner of the bar that is open or was last, as elements directly inside it have it. */
  corner(): { readonly x: number; readonly top: number } | null {
    const staff = this.bars.at(-1)?.staves.find(({ left, right }) => left < right);
    const around = this.around.at(-1);
    if (!staff || !around) return null;
    return { x: staff.left - around.x, top: staff.top - around.y };
  }

  /** The bars in the order of the picture; a bar without staff lines has no place and is left out. */
  list(): BarBox[] {
    return this.bars.flatMap(({ barIndex, staves }): BarBox[] => {
      const drawn = staves.filter((staff) => staff.left < staff.right).sort((a, b) => a.top - b.top);
      const [highest, lowest] = [drawn[0], drawn.at(-1)];
      if (!highest || !lowest) return [];
      const left = Math.min(...drawn.map((staff) => staff.left));
      const right = Math.max(...drawn.map((staff) => staff.right));
      return [
        {
          barIndex,
          x: left,
          width: right - left,
          top: highest.top,
          bottom: lowest.bottom,
          staves: drawn.map(({ top, bottom }) => ({ top, bottom })),
        },
      ];
    });
  }
}

function readShift(transform: string | undefined): [number, number] {
  const match = /translate\(\s*(-?[\d.]+)[\s,]+(-?[\d.]+)\s*\)/.exec(transform ?? "");
  return match ? [Number(match[1]), Number(match[2])] : [0, 0];
}
