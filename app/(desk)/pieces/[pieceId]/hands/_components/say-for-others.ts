import type { Desk } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";
import { firstName, personOf, soloistOf } from "../../_components/person";

/** How it stands with a rewrite, for those who did not write it. */
export function sayForOthers(desk: Pick<Desk, "people" | "me">, rewrite: DeskRewrite): string {
  const { sharing, stands, proposal, frozenIn, authorId, isStale } = rewrite;
  const author = firstName(personOf(desk, authorId));
  const soloist = soloistOf(desk);
  const answerer = soloist?.userId === desk.me.userId ? "you" : soloist ? firstName(soloist) : "the soloist";
  if (isStale) return "written for another file";
  if (stands && frozenIn.length > 0) return `in № ${Math.max(...frozenIn)}`;
  if (sharing === "told") return `${author} told it`;
  switch (proposal?.state) {
    case "open":
      return `waits for ${answerer}`;
    case "agreed":
      return "agreed";
    case "declined":
      return `${answerer} declined`;
    default:
      return `${author} took it back`;
  }
}
