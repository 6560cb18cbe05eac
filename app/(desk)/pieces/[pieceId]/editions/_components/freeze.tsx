"use client";

import type { WorkingView } from "@/app/_data/editions/editions-view";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { useAction } from "../../_components/use-action";
import { approveEditionAction } from "../../actions/approve-edition";
import { withdrawApprovalAction } from "../../actions/withdraw-approval";
import styles from "./working-card.module.css";

/** A player's yes to exactly what the screen shows, and its taking back. */
export function Freeze({
  pieceId,
  working,
  myId,
  other,
}: {
  pieceId: string;
  working: WorkingView;
  myId: string;
  /** First name of the other player; null while there is none. */
  other: string | null;
}) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const { number, hash, approvals, canFreeze } = working;
  const isMine = approvals.some(({ userId }) => userId === myId);
  const isOthers = approvals.some(({ userId }) => userId !== myId);

  const approve = async () => {
    const approved = await run(approveEditionAction, { pieceId, hash });
    if (!approved.ok) return;
    announce(
      approved.value.frozen
        ? `№ ${number} is frozen.`
        : `You are ready. ${other ?? "The other player"} is asked.`,
    );
  };
  const takeBack = async () => {
    const taken = await run(withdrawApprovalAction, { pieceId });
    if (taken.ok) announce("Your yes is taken back.");
  };

  return (
    <div className={styles.freeze}>
      {problem && <SayProblem>{problem}</SayProblem>}
      {isMine ? (
        <>
          <p className={styles.quiet}>
            {other ?? "The other player"} is asked. № {number} is frozen when both have said yes to exactly
            this.
          </p>
          <Button wide disabled={isBusy} onClick={takeBack}>
            <Icon name="take-back" /> Take my yes back
          </Button>
        </>
      ) : (
        <>
          {isOthers && canFreeze && (
            <p>
              {other} is ready. With your yes № {number} is frozen and never changes.
            </p>
          )}
          <Button kind="settle" wide disabled={isBusy || !canFreeze} onClick={approve}>
            Freeze as № {number}
          </Button>
          {canFreeze && (
            <p className={styles.print}>
              You agree to exactly these terms: <code>{hash.slice(0, 8)}</code>
            </p>
          )}
        </>
      )}
    </div>
  );
}
