/** What an address asks for, to be read only. */
type Asked = Pick<URLSearchParams, "get" | "toString">;

/**
 * The change that an address asks for: its place in the rows, from 0. Null for none, and for one that is not there.
 *
 * @param count how many changes there are; they are numbered from 1.
 */
export function readChange(asked: Asked, count: number): number | null {
  const number = Number(asked.get("change"));
  return Number.isInteger(number) && number >= 1 && number <= count ? number - 1 : null;
}

/** The query with the change that is looked at beside everything else that is asked; without a question mark. */
export function writeChange(asked: Asked, chosen: number | null): string {
  const query = new URLSearchParams(asked.toString());
  if (chosen === null) query.delete("change");
  else query.set("change", `${chosen + 1}`);
  return query.toString();
}
