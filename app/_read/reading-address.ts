import type { ReadingFor } from "@/lib/engrave/pages/reading-plan";

/** What of the reading screen stands in its address. */
export interface ReadingAddress {
  /** Null when the address does not say: then the reader's own pages. */
  readonly for: ReadingFor | null;
  /** The programme that it was opened from, and that its way out leads back to; null for another way. */
  readonly programme: string | null;
  readonly page: number;
}

/** Reads `?for=soloist&programme=…#page-3`; whatever is not understood counts as not said. */
export function readAddress({ search, hash }: { search: string; hash: string }): ReadingAddress {
  const query = new URLSearchParams(search);
  const asked = query.get("for");
  const programme = query.get("programme") ?? "";
  const page = /^#page-(\d{1,4})$/.exec(hash)?.[1];
  return {
    for: asked === "pianist" || asked === "soloist" ? asked : null,
    programme: /^[\w-]{1,64}$/.test(programme) ? programme : null,
    page: Math.max(1, Number(page ?? 1)),
  };
}

/** The end of an address, for somebody who reads their own pages without saying so. */
export function writeAddress({ for: reader, programme, page }: ReadingAddress): string {
  const query = [reader && `for=${reader}`, programme && `programme=${programme}`].filter(Boolean).join("&");
  return `${query && `?${query}`}${page === 1 ? "" : `#page-${page}`}`;
}
