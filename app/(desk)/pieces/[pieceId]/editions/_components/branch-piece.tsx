"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { readClock } from "@/app/_ui/clock";
import { Dialog } from "@/app/_ui/dialog";
import { SelectField, TextField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { sayClock } from "@/lib/score/say-clock";
import { useAction } from "../../_components/use-action";
import { branchPieceAction } from "../../actions/branch-piece";
import styles from "./edition-dialog.module.css";

const unreadable = "Write minutes and seconds, such as 12:00.";

interface BranchOf {
  readonly pieceId: string;
  /** What this one is for; null while nobody has named it. */
  readonly occasion: string | null;
  readonly limitSeconds: number | null;
  /** Numbers of the editions it can begin with, the newest first. */
  readonly editions: readonly number[];
  /** First name of the other player. */
  readonly other: string;
}

/** The way to a piece of its own for another occasion of the same music. */
export function BranchPiece(piece: BranchOf) {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <>
      <Button small onClick={() => setIsOpen(true)}>
        Prepare it for another occasion
      </Button>
      <Dialog title="Prepare it for another occasion" isOpen={isOpen} onClose={() => setIsOpen(false)}>
        <BranchForm {...piece} onClose={() => setIsOpen(false)} />
      </Dialog>
    </>
  );
}

function BranchForm({
  pieceId,
  occasion,
  limitSeconds,
  editions,
  other,
  onClose,
}: BranchOf & { onClose: () => void }) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const router = useRouter();
  const [name, setName] = useState("");
  const [thisName, setThisName] = useState("");
  const [start, setStart] = useState(`${editions[0] ?? ""}`);
  const [limit, setLimit] = useState("");
  const [unread, setUnread] = useState<string | null>(null);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const seconds = limit.trim() === "" ? null : readClock(limit);
    if (limit.trim() !== "" && seconds === null) return setUnread(unreadable);
    setUnread(null);
    const made = await run(branchPieceAction, {
      ...{ pieceId, name, limitSeconds: seconds },
      thisName: occasion === null ? thisName : null,
      editionNumber: start === "" ? null : Number(start),
    });
    if (!made.ok) return;
    announce(`${name} is there.`);
    router.push(`/pieces/${made.value.pieceId}/editions`);
  };
  return (
    <form className={styles.body} onSubmit={submit}>
      <p>
        The same music in a piece of its own: its own limit, cuts, editions and talk. Your breaths, cues and
        needed rests come along; {other} and the coach are in it from the start.
      </p>
      <TextField
        label="The other occasion"
        placeholder="Recital"
        required
        maxLength={40}
        value={name}
        onChange={(event) => setName(event.target.value)}
      />
      {occasion === null && (
        <TextField
          label="What this one is for"
          placeholder="Jury"
          hint="So that both have a name."
          required
          maxLength={40}
          value={thisName}
          onChange={(event) => setThisName(event.target.value)}
        />
      )}
      <SelectField label="Begin" value={start} onChange={(event) => setStart(event.target.value)}>
        {editions.map((number) => (
          <option key={number} value={number}>
            with the cuts of № {number}, for {other} to answer
          </option>
        ))}
        <option value="">without any cuts</option>
      </SelectField>
      <TextField
        label="Limit"
        inputMode="numeric"
        placeholder={limitSeconds === null ? "15:00" : `here ${sayClock(limitSeconds)}`}
        hint="Empty: the clock does not matter there."
        value={limit}
        problem={unread}
        onChange={(event) => setLimit(event.target.value)}
      />
      <p className={styles.quiet}>
        Readers and links are not taken along: whoever else belongs there is invited there, under its own
        Settings. Whoever does not belong to it sees nothing of it, not even its name.
      </p>
      {problem && <SayProblem>{problem}</SayProblem>}
      <div className={styles.buttons}>
        <Button onClick={onClose}>Leave it</Button>
        <Button kind="settle" type="submit" disabled={isBusy}>
          Prepare it
        </Button>
      </div>
    </form>
  );
}
