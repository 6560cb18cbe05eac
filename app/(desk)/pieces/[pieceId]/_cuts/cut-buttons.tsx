"use client";

import { useState } from "react";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { inkOf } from "@/app/_ui/party";
import { SayProblem } from "@/app/_ui/say";
import { firstName, otherPlayer } from "../_components/person";
import { useAction } from "../_components/use-action";
import { answerProposalAction } from "../actions/answer-proposal";
import { reopenProposalAction } from "../actions/reopen-proposal";
import { withdrawProposalAction } from "../actions/withdraw-proposal";
import styles from "./cut-buttons.module.css";
import { DeclineForm } from "./decline-form";
import { sayAgreed } from "./say-cut";

/** What this member can do with this cut now. Each button is there only when it would work. */
export function CutButtons({
  desk,
  cut,
  onCounter,
}: {
  desk: Desk;
  cut: DeskCut;
  /** Opens the form with this cut's bars: to counter-propose, to change one's own, to put it forward again. */
  onCounter: () => void;
}) {
  const [isDeclining, setIsDeclining] = useState(false);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  if (!desk.may.propose) return null;
  const about = { pieceId: desk.pieceId, proposalId: cut.id };
  const isMine = cut.proposedBy === desk.me.userId;
  const other = otherPlayer(desk);
  /** The button that was pressed goes away: the focus stays with its card. */
  const stay = () => document.getElementById(`cut-${cut.id}`)?.focus();

  const agree = async () => {
    const said = await run(answerProposalAction, { ...about, answer: "agree", termsHash: cut.termsHash });
    if (!said.ok) return;
    if (cut.weight) announce(sayAgreed(cut.weight.runningAfter, desk.limitSeconds));
    stay();
  };
  const withdraw = async () => {
    const taken = await run(withdrawProposalAction, about);
    if (!taken.ok) return;
    announce("Withdrawn. It stays in the list.");
    stay();
  };
  const reopen = async () => {
    const reopened = await run(reopenProposalAction, { ...about, reason: "" });
    if (!reopened.ok) return;
    announce("Reopened. The bars are played again until you both agree.");
    stay();
  };

  return (
    <div className={styles.buttons}>
      {problem && <SayProblem>{problem}</SayProblem>}
      {isDeclining ? (
        <DeclineForm
          to={other ? firstName(other) : "them"}
          isBusy={isBusy}
          onCancel={() => setIsDeclining(false)}
          onDecline={async (reason) => {
            const input = { ...about, answer: "decline", termsHash: cut.termsHash, reason };
            if (!(await run(answerProposalAction, input)).ok) return;
            announce("Declined, with your reason.");
            stay();
          }}
        />
      ) : cut.waitsForMe ? (
        <div className={styles.three}>
          {!cut.isStale && (
            <Button kind="settle" disabled={isBusy} onClick={agree} data-answer="agree">
              <Icon name="check" /> Agree
            </Button>
          )}
          <Button kind="propose" ink={inkOf(desk.me.role)} disabled={isBusy} onClick={onCounter}>
            Counter-propose
          </Button>
          <Button disabled={isBusy} onClick={() => setIsDeclining(true)} data-answer="decline">
            Decline
          </Button>
        </div>
      ) : cut.state === "open" && isMine ? (
        <div className={styles.row}>
          <Button disabled={isBusy} onClick={onCounter}>
            Change
          </Button>
          <Button disabled={isBusy} onClick={withdraw}>
            Withdraw
          </Button>
        </div>
      ) : cut.state === "agreed" ? (
        <div className={styles.row}>
          <Button disabled={isBusy} onClick={reopen}>
            {cut.frozenIn.length > 0 ? `Reopen in № ${Math.max(...cut.frozenIn) + 1}` : "Reopen"}
          </Button>
          <Button disabled={isBusy} onClick={onCounter}>
            Propose a change
          </Button>
        </div>
      ) : cut.state !== "open" && cut.state !== "superseded" && !cut.isStale ? (
        <div className={styles.row}>
          <Button disabled={isBusy} onClick={onCounter}>
            {isMine ? "Propose again" : "Propose it yourself"}
          </Button>
        </div>
      ) : null}
    </div>
  );
}
