/** What a worker of this page has loaded: the page itself is not told of it. Addresses without their origin. */
const loaded = new Set<string>();

/** A worker says what it is made of, or a page what its worker works with. */
export function noteWorkerFiles(addresses: readonly string[]): void {
  for (const address of addresses) loaded.add(address);
}

export function listWorkerFiles(): string[] {
  return [...loaded];
}
