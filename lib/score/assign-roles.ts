import type { PartRole } from "./part";
import type { Score } from "./score";

/**
 * The same score with other roles; parts that `roles` does not name keep theirs.
 *
 * @param roles by part id; ids that the score does not have are ignored.
 */
export function assignRoles(score: Score, roles: Readonly<Record<string, PartRole>>): Score {
  const parts = score.parts.map((part) => {
    const role = Object.hasOwn(roles, part.id) ? roles[part.id] : undefined;
    return role === undefined || role === part.role ? part : { ...part, role };
  });
  return { ...score, parts };
}
