"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, memo, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { TextArea } from "@/app/_ui/field";
import { inkOf } from "@/app/_ui/party";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { firstName, otherPlayer } from "../../_components/person";
import { useAction } from "../../_components/use-action";
import { endsOfSpan } from "../../_cuts/cut-questions";
import { proposeCutsAction } from "../../actions/propose-cuts";
import type { Looked } from "./plan-sets";
import { countCuts, sayReason, standingCut } from "./plan-words";
import styles from "./propose-set.module.css";

/** Puts the whole set forward at once, with the reason that goes along. */
export const ProposeSet = memo(function ProposeSet({
  desk,
  looked: { set, isBest },
  sentence,
}: {
  desk: Desk;
  looked: Looked;
  /** The plan's own, about its best set. */
  sentence: string;
}) {
  const [written, setWritten] = useState<string | null>(null);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const router = useRouter();
  const { limitSeconds, agreed } = desk;
  const reason =
    written ?? (isBest ? sentence : sayReason(set, { standsSeconds: agreed.seconds, limitSeconds }));
  const standing = set.cuts.flatMap((cut) => standingCut(desk.cuts, cut) ?? []);
  const newCount = set.cuts.length - standing.length;
  const other = otherPlayer(desk);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const answer = await run(proposeCutsAction, {
      pieceId: desk.pieceId,
      sourceHash: desk.sourceHash,
      cuts: set.cuts.map(endsOfSpan),
      reason,
      plan: { limitSeconds },
    });
    if (!answer.ok) return;
    const { proposed, left } = answer.value;
    announce(`${countCuts(proposed.length)} proposed.`);
    const first = proposed[0] ?? left[0];
    router.push(`/pieces/${desk.pieceId}${first ? `?cut=${first.id}` : ""}`);
  };
  return (
    <Sheet className={styles.sheet}>
      <form onSubmit={submit}>
        <TextArea
          label="Your reason"
          hint={`${other ? firstName(other) : "The other player"} reads it with each of the cuts, and what speaks for its join.`}
          value={reason}
          maxLength={2000}
          onChange={(event) => setWritten(event.target.value)}
        />
        {standing.length > 0 && (
          <p className={styles.standing}>
            {sayStanding(standing.map(({ number }) => number))} {newCount > 0 && "The others go out now."}
          </p>
        )}
        {problem && <SayProblem>{problem}</SayProblem>}
        <Button
          kind="propose"
          ink={inkOf(desk.me.role)}
          type="submit"
          wide
          disabled={isBusy || newCount === 0}
        >
          {newCount === 0 ? "All proposed already" : sayButton(newCount, standing.length)}
        </Button>
      </form>
    </Sheet>
  );
});

function sayButton(newCount: number, standingCount: number): string {
  if (standingCount > 0) return newCount === 1 ? "Propose the other one" : `Propose the other ${newCount}`;
  return newCount === 1 ? "Propose this one" : `Propose these ${newCount}`;
}

function sayStanding(numbers: readonly number[]): string {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted.length === 1
    ? `Cut ${sorted[0]} is proposed already and stays as it is.`
    : `Cuts ${sorted.slice(0, -1).join(", ")} and ${sorted.at(-1)} are proposed already and stay as they are.`;
}
