import type { SoundAt, SoundState } from "./sound-context";

/** "with the cut" while both sides of a join are heard in turn; null otherwise. */
export function saySection(
  section: SoundAt["section"],
  { request }: Pick<SoundState, "request">,
): string | null {
  if (request?.kind !== "join" || request.how !== "in-turn") return null;
  return section === "with-the-cut" ? "with the cut" : "as written";
}
