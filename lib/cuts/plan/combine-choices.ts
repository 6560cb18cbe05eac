/** The cuts of a set, as it was put together. */
type CutTree = null | number | readonly [CutTree, CutTree];

/** A set of cuts that nothing beats: cheaper sets save less. */
export interface Choice {
  readonly savedMilliseconds: number;
  /** In thousandths. */
  readonly cost: number;
  readonly count: number;
  /** Indices of the caller's candidates; read them with `listCuts`. */
  readonly cuts: CutTree;
}

export const noCuts: Choice = { savedMilliseconds: 0, cost: 0, count: 0, cuts: null };

/** From the least saved and cheapest up: no other set saves as much for less. */
export type Choices = readonly Choice[];

/** Indices of the candidates of a set, in order. */
export function listCuts({ cuts }: Choice): number[] {
  const found: number[] = [];
  const open: CutTree[] = [cuts];
  while (open.length > 0) {
    const tree = open.pop() ?? null;
    if (typeof tree === "number") found.push(tree);
    else if (tree !== null) open.push(tree[0], tree[1]);
  }
  return found.sort((a, b) => a - b);
}

const mostOf = (choices: Choices): number => choices.at(-1)?.savedMilliseconds ?? 0;

/**
 * One slot for each length that can be saved, holding the cheapest sum that saves exactly so much: a slot for each
 * millisecond where sums are many, else only for those that occur.
 */
class Slots {
  private readonly numbers: Map<number, number> | null;
  private readonly saved: Float64Array;
  private readonly cost: Float64Array;
  private readonly count: Uint32Array;
  private readonly pair: Uint32Array;
  private readonly left: Uint32Array;
  private readonly right: Uint32Array;

  constructor(most: number, sumCount: number) {
    const isSparse = sumCount * 8 < most;
    this.numbers = isSparse ? new Map() : null;
    const size = isSparse ? sumCount : most + 1;
    this.saved = new Float64Array(size);
    this.cost = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
    this.count = new Uint32Array(size);
    this.pair = new Uint32Array(size);
    this.left = new Uint32Array(size);
    this.right = new Uint32Array(size);
  }

  private slotOf(saved: number): number {
    if (!this.numbers) return saved;
    const known = this.numbers.get(saved);
    if (known !== undefined) return known;
    this.numbers.set(saved, this.numbers.size);
    return this.numbers.size - 1;
  }

  add(pair: number, left: Choices, right: Choices): void {
    for (let i = 0; i < left.length; i += 1) {
      const a = left[i] as Choice;
      for (let j = 0; j < right.length; j += 1) {
        const b = right[j] as Choice;
        const saved = a.savedMilliseconds + b.savedMilliseconds;
        const slot = this.slotOf(saved);
        const cost = a.cost + b.cost;
        const best = this.cost[slot] as number;
        const count = a.count + b.count;
        if (cost > best || (cost === best && count >= (this.count[slot] as number))) continue;
        this.saved[slot] = saved;
        this.cost[slot] = cost;
        this.count[slot] = count;
        this.pair[slot] = pair;
        this.left[slot] = i;
        this.right[slot] = j;
      }
    }
  }

  /** Slots in use, the most saved first. */
  private order(): Iterable<number> {
    if (this.numbers) return [...this.numbers].sort((a, b) => b[0] - a[0]).map(([, slot]) => slot);
    const slots: number[] = [];
    for (let slot = this.cost.length - 1; slot >= 0; slot -= 1) {
      if (this.cost[slot] !== Number.POSITIVE_INFINITY) slots.push(slot);
    }
    return slots;
  }

  unbeaten(pairs: readonly (readonly [Choices, Choices])[]): Choice[] {
    const kept: Choice[] = [];
    let best = Number.POSITIVE_INFINITY;
    for (const slot of this.order()) {
      const cost = this.cost[slot] as number;
      if (cost >= best) continue;
      best = cost;
      const [left, right] = pairs[this.pair[slot] as number] as readonly [Choices, Choices];
      const [a, b] = [left[this.left[slot] as number] as Choice, right[this.right[slot] as number] as Choice];
      const savedMilliseconds = this.saved[slot] as number;
      kept.push({ savedMilliseconds, cost, count: this.count[slot] as number, cuts: [a.cuts, b.cuts] });
    }
    return kept.reverse();
  }
}

/** The unbeaten sets among all sums of one set from either side of a pair. */
export function addChoices(pairs: readonly (readonly [Choices, Choices])[]): Choices {
  const [only] = pairs;
  if (pairs.length === 1 && only?.[0].length === 1 && only[0][0] === noCuts) return only[1];
  const most = Math.max(0, ...pairs.map(([left, right]) => mostOf(left) + mostOf(right)));
  const sumCount = pairs.reduce((sum, [left, right]) => sum + left.length * right.length, 0);
  const slots = new Slots(most, sumCount);
  pairs.forEach(([left, right], index) => {
    slots.add(index, left, right);
  });
  return slots.unbeaten(pairs);
}

/**
 * The sets of cuts of a whole piece that nothing beats, from the choices of its clusters: from "play everything" to "as
 * short as it gets".
 */
export function combineChoices(clusters: readonly Choices[]): Choices {
  return clusters.reduce((sum, choices) => addChoices([[sum, choices]]), [noCuts] as Choices);
}
