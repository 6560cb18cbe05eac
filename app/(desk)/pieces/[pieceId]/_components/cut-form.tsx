"use client";

import { type FormEvent, useEffect, useId, useRef, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { TextArea } from "@/app/_ui/field";
import { inkOf } from "@/app/_ui/party";
import { SayProblem } from "@/app/_ui/say";
import { Card } from "@/app/_ui/sheet";
import { ViDe } from "@/app/_ui/vi-de";
import { sayClock } from "@/lib/score/say-clock";
import { counterProposeAction } from "../actions/counter-propose";
import { proposeCutAction } from "../actions/propose-cut";
import type { CutDraft } from "./cut-draft";
import { CutEffects } from "./cut-effects";
import styles from "./cut-form.module.css";
import { firstName, otherPlayer } from "./person";
import { PlaceField } from "./place-field";
import { useAction } from "./use-action";
import { useWeighed } from "./use-weighed";

/** Choosing a cut: its two ends, why, and meanwhile what it would cost and give. */
export function CutForm({
  desk,
  draft,
  onChange,
  onClose,
}: {
  desk: Desk;
  draft: CutDraft;
  onChange: (draft: CutDraft) => void;
  /** With the id of the new proposal when there is one. */
  onClose: (proposalId: string | null) => void;
}) {
  const { replaces } = draft;
  const [reason, setReason] = useState("");
  const weighing = useWeighed(desk.pieceId, draft.from, draft.to, replaces?.number ?? null);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const heading = useRef<HTMLHeadingElement>(null);
  const titleId = useId();
  useEffect(() => heading.current?.focus(), []);
  const other = otherPlayer(desk);
  const ink = inkOf(desk.me.role);
  const name = weighing.last?.name;

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const terms = {
      pieceId: desk.pieceId,
      sourceHash: desk.sourceHash,
      from: draft.from,
      to: draft.to,
      reason,
    };
    const sent = await (replaces
      ? run(counterProposeAction, { ...terms, proposalId: replaces.id, seenState: replaces.state })
      : run(proposeCutAction, terms));
    if (!sent.ok) return;
    announce(`Proposed: cut ${sent.value.number}${name ? `, ${name}` : ""}.`);
    onClose(sent.value.id);
  };

  return (
    <Card edge={ink} aria-labelledby={titleId} className={styles.card}>
      <form className={styles.form} onSubmit={submit}>
        <div className={styles.head}>
          <h3 id={titleId} ref={heading} tabIndex={-1}>
            {replaces ? `Other bars for cut ${replaces.number}` : "Propose a cut"}
          </h3>
          {weighing.last && (
            <span>
              {weighing.last.weight.barCount} bars · {sayClock(weighing.last.weight.savedSeconds)}
            </span>
          )}
        </div>
        <p className={styles.hint}>
          {name ? <b>{capital(name)}.</b> : null} Choose here, or tap the first and the last bar in the score.
        </p>
        <div className={styles.ends}>
          <PlaceField
            label={
              <>
                <ViDe ink={ink} text="Vi–" /> stop before
              </>
            }
            bars={desk.bars}
            place={draft.from}
            onChange={(from) => onChange({ ...draft, from })}
          />
          <PlaceField
            label={
              <>
                <ViDe ink={ink} text="–de" /> go on at
              </>
            }
            bars={desk.bars}
            place={draft.to}
            hasEnd
            onChange={(to) => onChange({ ...draft, to })}
          />
        </div>
        <div
          aria-live="polite"
          className={styles.weighed}
          data-waiting={weighing.status === "weighing" || undefined}
        >
          {weighing.status === "impossible" ? (
            <SayProblem>{weighing.sentence}</SayProblem>
          ) : weighing.last ? (
            <CutEffects desk={desk} weight={weighing.last.weight} />
          ) : (
            <p className={styles.hint}>Reading the bars…</p>
          )}
        </div>
        <TextArea
          label="Why? (if you like)"
          value={reason}
          maxLength={2000}
          placeholder={other ? `${firstName(other)} reads it with the proposal` : "Read with the proposal"}
          onChange={(event) => setReason(event.target.value)}
        />
        <p className={styles.hint}>
          A competition or an examination may require the whole tutti: check its rules first.
        </p>
        {problem && <SayProblem>{problem}</SayProblem>}
        <div className={styles.buttons}>
          <Button
            type="submit"
            kind="propose"
            ink={ink}
            disabled={isBusy || weighing.status === "impossible"}
          >
            {other ? `Propose to ${firstName(other)}` : "Propose"}
          </Button>
          <Button kind="bare" onClick={() => onClose(null)}>
            Leave it
          </Button>
        </div>
      </form>
    </Card>
  );
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
