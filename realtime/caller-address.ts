import type { IncomingMessage } from "node:http";
import net from "node:net";

/**
 * From where a request comes: the socket's address, or with a proxy of ours in front the last one that it noted.
 * Of an IPv6 address only the first 64 bits, which is what one household or host is given (RFC 6177).
 */
export function callerAddress(
  { headers, socket }: Pick<IncomingMessage, "headers" | "socket">,
  trustsProxy: boolean,
): string {
  const noted = String(headers["x-forwarded-for"] ?? "")
    .split(",")
    .at(-1)
    ?.trim();
  return networkOf((trustsProxy && noted) || socket.remoteAddress || "unknown");
}

function networkOf(address: string): string {
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1];
  if (mapped) return mapped;
  if (!net.isIPv6(address)) return address;
  const [before = "", after] = address.split("::");
  const groups = before === "" ? [] : before.split(":");
  const rest = after === undefined || after === "" ? [] : after.split(":");
  const missing = after === undefined ? 0 : Math.max(0, 8 - groups.length - rest.length);
  const all = [...groups, ...Array<string>(missing).fill("0"), ...rest];
  return all
    .slice(0, 4)
    .map((group) => Number.parseInt(group, 16).toString(16))
    .join(":");
}
