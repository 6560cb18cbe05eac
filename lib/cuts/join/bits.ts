/** Bits set in a 32-bit number. */
export function countBits(bits: number): number {
  let rest = bits - ((bits >>> 1) & 0x55555555);
  rest = (rest & 0x33333333) + ((rest >>> 2) & 0x33333333);
  return Math.imul((rest + (rest >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

/** Shared bits over all bits (Jaccard's index); 1 where neither has any. */
export function shareOfBits(a: number, b: number): number {
  const all = countBits(a | b);
  return all === 0 ? 1 : countBits(a & b) / all;
}
