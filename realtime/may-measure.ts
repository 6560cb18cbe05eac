import { createHash, timingSafeEqual } from "node:crypto";
import type { IncomingMessage } from "node:http";

const loopbackAddresses = new Set(["127.0.0.1", "::1", "::ffff:127.0.0.1"]);
const loopbackNames = new Set(["localhost", "127.0.0.1", "[::1]"]);
const forwarding = ["forwarded", "x-forwarded-for", "x-forwarded-host", "x-real-ip", "via"];

/**
 * Whether a request may read the measurements: with the token, when there is one, or from this machine itself. What
 * a proxy passes on comes from elsewhere, and so may a page that gave itself a name that points here.
 *
 * @param token what `Authorization: Bearer` has to carry; null when only this machine may ask.
 */
export function mayMeasure(
  { headers, socket }: Pick<IncomingMessage, "headers" | "socket">,
  token: string | null,
): boolean {
  if (token !== null && isSame(headers.authorization ?? "", `Bearer ${token}`)) return true;
  const isHere = loopbackAddresses.has(socket.remoteAddress ?? "");
  const name = (headers.host ?? "").replace(/:\d+$/, "");
  return isHere && loopbackNames.has(name) && forwarding.every((header) => headers[header] === undefined);
}

/** Takes as long for a near miss as for any other. */
function isSame(given: string, wanted: string): boolean {
  const hash = (text: string) => createHash("sha256").update(text).digest();
  return timingSafeEqual(hash(given), hash(wanted));
}
