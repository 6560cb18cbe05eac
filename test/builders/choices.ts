import fc from "fast-check";

/** Choices made one after the other from a list of numbers; when they run out, always the first. Shrinks with the list. */
export class Choices {
  private at = 0;

  constructor(private readonly numbers: readonly number[]) {}

  /** From 0, below `count`. */
  below(count: number): number {
    const number = this.numbers[this.at] ?? 0;
    this.at += 1;
    return number % count;
  }

  pick<T>(list: readonly [T, ...T[]] | readonly T[]): T {
    const picked = list[this.below(list.length)];
    if (picked === undefined) throw new RangeError("Nothing to pick from");
    return picked;
  }

  /** True once in `times`. */
  oneIn(times: number): boolean {
    return this.below(times) === times - 1;
  }

  /** `most` things at most, each made by `make`. */
  upTo<T>(most: number, make: (index: number) => T): T[] {
    return Array.from({ length: this.below(most + 1) }, (_, index) => make(index));
  }
}

export const arbitraryChoices: fc.Arbitrary<Choices> = fc
  .array(fc.nat(9_999), { minLength: 20, maxLength: 900, size: "max" })
  .map((numbers) => new Choices(numbers));
