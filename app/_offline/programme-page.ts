const pattern = /^\/performances\/programme\/([\w-]{1,64})$/;

/** The page of a programme. */
export function programmePage(programmeId: string): string {
  return `/performances/programme/${programmeId}`;
}

/** The programme whose page an address is; null elsewhere. */
export function programmeOf(pathname: string): string | null {
  return pattern.exec(pathname)?.[1] ?? null;
}
