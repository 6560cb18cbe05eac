import { readLimits } from "./limits";

/** Openings after which "<" means nothing, each with what closes it. */
const opaque: readonly (readonly [string, string])[] = [
  ["<!--", "-->"],
  ["<![CDATA[", "]]>"],
  ["<?", "?>"],
];

/** Whether any token of the XML text passes `readLimits.tokenCharacters`; told before it is parsed. */
export function hasOverlongToken(text: string): boolean {
  return hasStretchWithoutMarkup(text) || opaque.some(([open, close]) => hasOverlong(text, open, close));
}

/** A stretch of twice the limit without "<" covers one of these windows whole. */
function hasStretchWithoutMarkup(text: string): boolean {
  const limit = readLimits.tokenCharacters;
  for (let from = 0; from + limit <= text.length; from += limit) {
    const next = text.indexOf("<", from);
    if (next < 0 || next - from >= limit) return true;
  }
  return false;
}

function hasOverlong(text: string, open: string, close: string): boolean {
  for (let start = text.indexOf(open); start >= 0; start = text.indexOf(open, start + open.length)) {
    const end = text.indexOf(close, start);
    const length = (end < 0 ? text.length : end) - start;
    if (length > readLimits.tokenCharacters) return true;
    start += length;
  }
  return false;
}
