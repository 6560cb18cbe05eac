import type { Desk } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";
import { capital } from "@/app/_ui/capital";
import { sayShortDay } from "@/app/_ui/say-short-day";
import { personOf, sayWho } from "../../_components/person";
import styles from "./rewrite-answers.module.css";

const said = {
  agree: "agreed",
  decline: "declined",
  counter: "proposed something else",
  withdraw: "took it back",
  reopen: "reopened it",
} as const;

/** What was said about a rewrite, in the order in which it was said. */
export function RewriteAnswers({ desk, rewrite }: { desk: Desk; rewrite: DeskRewrite }) {
  const { proposal, reason, authorId, createdAt } = rewrite;
  const answers = proposal?.answers ?? [];
  if (answers.length === 0 && reason === "") return null;
  return (
    <ul className={styles.answers}>
      {reason !== "" && (
        <li>
          <b>{capital(sayWho(desk, personOf(desk, authorId)))}</b>, {sayShortDay(createdAt)}: <q>{reason}</q>
        </li>
      )}
      {answers.map(({ userId, answer, reason: why, at }) => (
        <li key={at}>
          <b>{capital(sayWho(desk, personOf(desk, userId)))}</b> {said[answer]}, {sayShortDay(at)}
          {why !== "" && (
            <>
              : <q>{why}</q>
            </>
          )}
        </li>
      ))}
    </ul>
  );
}
