import type { ReadingFor } from "@/lib/engrave/pages/reading-plan";

/** What of the reading screen stands in its address. */
export interface ReadingAddress {
  /** Null when the address does not say: then the reader's own pages. */
  readonly for: ReadingFor | null;
  readonly page: number;
}

/** Reads `?for=soloist#page-3`; whatever is not understood counts as not said. */
export function readAddress({ search, hash }: { search: string; hash: string }): ReadingAddress {
  const asked = new URLSearchParams(search).get("for");
  const page = /^#page-(\d{1,4})$/.exec(hash)?.[1];
  return {
    for: asked === "pianist" || asked === "soloist" ? asked : null,
    page: Math.max(1, Number(page ?? 1)),
  };
}

/** The end of an address, for somebody who reads their own pages without saying so. */
export function writeAddress({ for: reader, page }: ReadingAddress): string {
  return `${reader === null ? "" : `?for=${reader}`}${page === 1 ? "" : `#page-${page}`}`;
}
