import fc from "fast-check";

/** The numbers of one schedule: its seed, then so many operations. */
export function scheduleCodes(operations: { min: number; max: number }): fc.Arbitrary<number[]> {
  const [minLength, maxLength] = [operations.min + 1, operations.max + 1];
  return fc.array(fc.nat(0x7fffffff), { minLength, maxLength, size: "max" });
}
