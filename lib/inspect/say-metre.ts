import type { Metre } from "@/lib/score/bar";

/** "4/4", "3+2/8", "3/8 + 2/4"; "free" for senza misura. */
export function sayMetre({ groups }: Metre): string {
  if (groups.length === 0) return "free";
  return groups.map(({ beats, beatType }) => `${beats.join("+")}/${beatType}`).join(" + ");
}
