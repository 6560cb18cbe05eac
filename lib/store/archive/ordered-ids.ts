import { randomBytes } from "node:crypto";

/**
 * Ids for rows that are to keep the order they are given in: UUIDs of version 7 (RFC 9562), each greater than the one
 * before, as those are that the database client makes one after the other.
 *
 * @param start milliseconds since 1970 of the first.
 */
export function* orderedIds(start = Date.now()): Generator<string, never> {
  for (let count = 0; ; count += 1) {
    // 12 bits count within a millisecond; what is more goes on into the next ones.
    const time = (start + Math.floor(count / 4096)).toString(16).padStart(12, "0");
    const within = (count % 4096).toString(16).padStart(3, "0");
    const random = randomBytes(8);
    random[0] = ((random[0] ?? 0) & 0x3f) | 0x80;
    const rest = random.toString("hex");
    yield `${time.slice(0, 8)}-${time.slice(8)}-7${within}-${rest.slice(0, 4)}-${rest.slice(4)}`;
  }
}
