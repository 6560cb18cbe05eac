/** Postgres takes payloads shorter than 8,000 bytes. */
export const largestPayloadBytes = 7_500;

/** How every payload of a node begins: whoever sent it knows it again without reading the rest. */
export function startOfPayload(node: string): string {
  return `{"node":${JSON.stringify(node)},`;
}

/**
 * Puts items into as few payloads `{"node": …, "<name>": [items]}` as hold them, in order.
 *
 * @throws RangeError if an item alone is too large for a payload.
 */
export function packPayloads(node: string, name: string, items: readonly unknown[]): string[] {
  const start = `${startOfPayload(node)}${JSON.stringify(name)}:[`;
  const room = largestPayloadBytes - Buffer.byteLength(start) - "]}".length;
  const payloads: string[] = [];
  let packed: string[] = [];
  let bytes = 0;
  for (const item of items) {
    const text = JSON.stringify(item);
    const length = Buffer.byteLength(text) + 1;
    if (length > room) throw new RangeError(`an item of ${length} bytes for a payload of ${room}`);
    if (bytes + length > room) {
      payloads.push(`${start}${packed.join()}]}`);
      packed = [];
      bytes = 0;
    }
    packed.push(text);
    bytes += length;
  }
  if (packed.length > 0) payloads.push(`${start}${packed.join()}]}`);
  return payloads;
}
