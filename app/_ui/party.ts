/** Whose ink a thing is drawn in: the pianist's, the soloist's, or graphite for everyone who only reads or comments. */
export type Ink = "pf" | "so" | "graphite";

/** @param role a member's role as the store names it ("pianist", "soloist", "coach", "reader"). */
export function inkOf(role: string): Ink {
  if (role === "pianist") return "pf";
  if (role === "soloist") return "so";
  return "graphite";
}
