"use client";

import { useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { firstName, personOf } from "../../_components/person";
import { useAction } from "../../_components/use-action";
import { DeclineForm } from "../../_cuts/decline-form";
import { answerProposalAction } from "../../actions/answer-proposal";
import { reopenProposalAction } from "../../actions/reopen-proposal";
import styles from "./rewrite-buttons.module.css";

/** What this member can do with a rewrite that they did not write: answer exactly the notes that are on the screen. */
export function RewriteButtons({ desk, rewrite }: { desk: Desk; rewrite: DeskRewrite }) {
  const [isDeclining, setIsDeclining] = useState(false);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const { proposal, termsHash, waitsForMe, isStale, authorId } = rewrite;
  if (!desk.may.propose || proposal === null) return null;
  const about = { pieceId: desk.pieceId, proposalId: proposal.id };
  const stay = () => document.getElementById("passage")?.focus();
  const answer = async (said: "agree" | "decline", reason: string) => {
    const sent = await run(answerProposalAction, { ...about, answer: said, termsHash, reason });
    if (!sent.ok) return;
    announce(said === "agree" ? "Agreed. It goes into the edition." : "Declined, with your reason.");
    setIsDeclining(false);
    stay();
  };
  const reopen = async () => {
    if (!(await run(reopenProposalAction, { ...about, reason: "" })).ok) return;
    announce("Reopened. The print is played until you both agree.");
    stay();
  };
  if (isDeclining && waitsForMe) {
    return (
      <div className={styles.buttons}>
        {problem && <SayProblem>{problem}</SayProblem>}
        <DeclineForm
          to={firstName(personOf(desk, authorId))}
          isBusy={isBusy}
          onCancel={() => setIsDeclining(false)}
          onDecline={(reason) => void answer("decline", reason)}
        />
      </div>
    );
  }
  if (!waitsForMe && proposal.state !== "agreed") return null;
  return (
    <div className={styles.buttons}>
      {problem && <SayProblem>{problem}</SayProblem>}
      <div className={styles.row}>
        {waitsForMe && !isStale && (
          <Button kind="settle" disabled={isBusy} onClick={() => void answer("agree", "")}>
            <Icon name="check" /> Agree
          </Button>
        )}
        {waitsForMe && (
          <Button disabled={isBusy} onClick={() => setIsDeclining(true)}>
            Decline
          </Button>
        )}
        {proposal.state === "agreed" && (
          <Button disabled={isBusy} onClick={reopen}>
            Reopen
          </Button>
        )}
      </div>
    </div>
  );
}
