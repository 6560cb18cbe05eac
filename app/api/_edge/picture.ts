import { gunzipSync } from "node:zlib";

/** A year, as long as anything is kept. For addresses that name their content. */
const forGood = "private, max-age=31536000, immutable";

/**
 * A picture of music that is kept packed. Sent unpacked: Next (16.4) takes `content-encoding` off what a route answers, and
 * packs the answer itself.
 *
 * @param mayKeep whether the browser may show it again without asking.
 */
export function picture(packed: Uint8Array<ArrayBuffer>, mayKeep = true): Response {
  const headers = new Headers({
    "content-type": "image/svg+xml; charset=utf-8",
    // Opened by itself it is a document: it may draw, and nothing else.
    "content-security-policy": "default-src 'none'; style-src 'unsafe-inline'; sandbox",
    "x-content-type-options": "nosniff",
    "cache-control": mayKeep ? forGood : "private, no-store",
    vary: "cookie",
  });
  return new Response(gunzipSync(packed), { headers });
}

/** The number of a system as an address has it; -1, which none has, for anything else. */
export const systemIndex = (text: string): number => (/^\d{1,6}$/.test(text) ? Number(text) : -1);
