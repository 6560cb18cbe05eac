"use client";

import { useRouter } from "next/navigation";
import { useEffect, useMemo, useTransition } from "react";
import type { WorkingView } from "@/app/_data/editions/editions-view";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { shortHash } from "@/lib/edition/short-hash";
import { hashMarks } from "@/lib/room/hash-marks";
import { pickStandingMarks } from "@/lib/room/standing-marks";
import { useRoomHere } from "../../_components/room-provider";
import { useAction } from "../../_components/use-action";
import { approveEditionAction } from "../../actions/approve-edition";
import { withdrawApprovalAction } from "../../actions/withdraw-approval";
import styles from "./working-card.module.css";

/** A player's yes to exactly the list over it, and its taking back. */
export function Freeze({
  pieceId,
  working,
  myId,
  other,
  isRenewed,
  onLooked,
}: {
  pieceId: string;
  working: WorkingView;
  myId: string;
  /** First name of the other player; null while there is none. */
  other: string | null;
  /** The list is another than the one that the player has looked at. */
  isRenewed: boolean;
  onLooked: () => void;
}) {
  const { run, isBusy, problem, clear } = useAction();
  const announce = useAnnounce();
  const isBehind = useBehindRoom(working.agreeing.marksHash);
  const { number, approvals, canFreeze } = working;
  const { hash } = working.agreeing;
  const isMine = approvals.some(({ userId }) => userId === myId);

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
  const look = () => {
    clear();
    onLooked();
    announce("The list is as it stands now.");
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
      ) : isRenewed ? (
        <>
          <p>Something changed while you looked. It is marked in the list above.</p>
          <Button wide disabled={isBusy} onClick={look}>
            <Icon name="check" /> I have seen what changed
          </Button>
        </>
      ) : (
        <>
          {approvals.length > 0 && canFreeze && (
            <p>
              {other} is ready. With your yes № {number} is frozen and never changes.
            </p>
          )}
          <Button kind="settle" wide disabled={isBusy || isBehind || !canFreeze} onClick={approve}>
            {isBehind ? "Something changes this moment…" : `Freeze as № ${number}`}
          </Button>
          {canFreeze && (
            <p className={styles.print}>
              You agree to exactly these terms: <code>{shortHash(hash)}</code>
            </p>
          )}
        </>
      )}
    </div>
  );
}

/**
 * Whether the room has marks that the list does not tell of yet, or the other way round. Then the list is asked for anew.
 * While the room is not reached nothing is known of it; the server refuses a yes to what no longer stands.
 *
 * @param marksHash of the marks that the list was told from.
 */
function useBehindRoom(marksHash: string): boolean {
  const router = useRouter();
  const [isRefreshing, startRefresh] = useTransition();
  const { status, unsavedCount, breaths, cues, comments } = useRoomHere();
  const here = useMemo(
    () => hashMarks(pickStandingMarks({ breaths, cues, comments })),
    [breaths, cues, comments],
  );
  const isBehind = status === "live" && unsavedCount === 0 && here !== marksHash;
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked once for each state of the room and of the list
  useEffect(() => {
    if (isBehind) startRefresh(() => router.refresh());
  }, [isBehind, here, marksHash]);
  return isBehind || isRefreshing;
}
