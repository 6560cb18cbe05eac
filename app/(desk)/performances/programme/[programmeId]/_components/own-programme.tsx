"use client";

import { type FormEvent, useEffect, useState } from "react";
import { OnThisDevice } from "@/app/_offline/on-this-device";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button, buttonClass } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { Icon } from "@/app/_ui/icon";
import { SayNote, SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import dialogStyles from "@/app/(desk)/_performances/dialog-form.module.css";
import { useAction } from "@/app/(desk)/pieces/[pieceId]/_components/use-action";
import type { ProgrammeSum } from "@/lib/edition/sum-programme";
import type { OwnProgramme, ProgrammeRecord } from "@/lib/store/programmes/programme-record";
import { ProgrammeHeadFields } from "../../../_components/programme-head-fields";
import { type ProgrammeHeadInput, readHead } from "../../../_components/read-head";
import { changeProgrammeAction } from "../../../actions/change-programme";
import { removeProgrammeAction } from "../../../actions/remove-programme";
import { restoreProgrammeAction } from "../../../actions/restore-programme";
import { AddEntry, type Choices } from "./add-entry";
import { listEditionsOnIt } from "./editions-on-it";
import { EntryRow } from "./entry-row";
import styles from "./programme.module.css";
import { ProgrammeHeading } from "./programme-heading";
import { keepAll, moveItem, type ProgrammeItem, replaceItem, withoutItem } from "./programme-items";
import { ProgrammeTime } from "./programme-time";

/** A programme of one's own: every change is stored at once, and what stood there stays in the trail. */
export function OwnProgrammeScreen({
  programme,
  own,
  userId,
  sum,
  pieces,
  performances,
  now,
}: {
  programme: ProgrammeRecord;
  own: OwnProgramme;
  /** Of whoever drew it up. */
  userId: string;
  sum: ProgrammeSum;
  now: string;
} & Choices) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const [isHeadOpen, setIsHeadOpen] = useState(false);
  const [moved, setMoved] = useState<string | null>(null);
  useEffect(() => {
    if (isBusy || moved === null) return;
    // Whatever was moved keeps the focus, so that the same key moves it on.
    const buttons = [...document.querySelectorAll<HTMLButtonElement>("button[aria-label]")];
    const named = buttons.find((button) => button.getAttribute("aria-label") === moved);
    // At either end only the way back is left.
    const back = moved.endsWith("earlier") ? named?.nextElementSibling : named?.previousElementSibling;
    const next = named?.disabled ? back : named;
    if (next instanceof HTMLElement) next.focus();
    setMoved(null);
  }, [isBusy, moved]);
  const { id: programmeId, entries } = programme;
  const stands: ProgrammeHeadInput = {
    ...{ kind: own.kind, name: programme.name, on: programme.on, startsAt: programme.startsAt },
    ...{ place: programme.place, limitSeconds: own.limitSeconds, stopsBetween: own.stopsBetween },
    remarks: own.remarks,
  };
  const write = async (items: readonly ProgrammeItem[], said: string, head = stands) => {
    const written = await run(changeProgrammeAction, {
      ...{ ...head, programmeId, revision: own.revision, items },
    });
    if (written.ok) announce(said);
    return written.ok;
  };
  const items = keepAll(entries);
  const move = async (index: number, by: -1 | 1, button: HTMLElement) => {
    const label = button.getAttribute("aria-label");
    if (await write(moveItem(items, index, by), `Now ${index + by + 1} of ${items.length}.`)) setMoved(label);
  };
  const setRemoved = (isRemoved: boolean) =>
    run(isRemoved ? removeProgrammeAction : restoreProgrammeAction, { programmeId });
  return (
    <main className={styles.page} id="main">
      <ProgrammeHeading programme={programme} now={now}>
        {!own.isRemoved && (
          <>
            <Button small onClick={() => setIsHeadOpen(true)}>
              <Icon name="pencil" small /> Change
            </Button>
            <a
              className={buttonClass({ small: true })}
              href={`/api/programmes/${programmeId}/calendar.ics`}
              download
            >
              <Icon name="download" small /> For a calendar
            </a>
            <Button small kind="bare" disabled={isBusy} onClick={() => setRemoved(true)}>
              Take it off
            </Button>
          </>
        )}
      </ProgrammeHeading>
      {own.isRemoved && (
        <SayNote>
          <p>This programme was taken off. Its performances stay with their pieces.</p>
          <Button small disabled={isBusy} onClick={() => setRemoved(false)}>
            Bring it back
          </Button>
        </SayNote>
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
      {!own.isRemoved && (
        <OnThisDevice userId={userId} programmeId={programmeId} editions={listEditionsOnIt(programme)} />
      )}
      <div className={styles.columns}>
        <Sheet className={styles.sheet} aria-labelledby="entries">
          <h2 id="entries">In order</h2>
          {entries.length === 0 && <p className={styles.quiet}>Nothing stands on it yet.</p>}
          <ol className={styles.entries}>
            {entries.map((entry, index) => (
              <EntryRow
                key={entry.itemId}
                entry={entry}
                programmeId={programmeId}
                index={index}
                count={entries.length}
                isBusy={isBusy || own.isRemoved}
                onMove={(by, button) => void move(index, by, button)}
                onReplace={(item) => write(replaceItem(items, index, item), "Changed.")}
                onTakeOut={() => void write(withoutItem(items, index), "Taken out.")}
              />
            ))}
          </ol>
          {!own.isRemoved && (
            <AddEntry
              on={programme.on}
              onProgramme={entries.flatMap((entry) =>
                entry.kind === "performance" ? entry.performance.id : [],
              )}
              pieces={pieces}
              performances={performances}
              isBusy={isBusy}
              onAdd={(item) => write([...items, item], "Added.")}
            />
          )}
        </Sheet>
        <ProgrammeTime sum={sum} own={own} isEmpty={entries.length === 0} />
      </div>
      {isHeadOpen && (
        <HeadDialog
          programme={programme}
          isBusy={isBusy}
          onClose={() => setIsHeadOpen(false)}
          onWrite={async (head) => {
            if (await write(items, "Changed.", head)) setIsHeadOpen(false);
          }}
        />
      )}
    </main>
  );
}

function HeadDialog({
  programme,
  isBusy,
  onClose,
  onWrite,
}: {
  programme: ProgrammeRecord;
  isBusy: boolean;
  onClose: () => void;
  onWrite: (head: ProgrammeHeadInput) => void;
}) {
  const [isWrongLimit, setIsWrongLimit] = useState(false);
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const read = readHead(new FormData(event.currentTarget));
    setIsWrongLimit(!read.ok);
    if (read.ok) onWrite(read.value);
  };
  return (
    <Dialog title={programme.name} isOpen onClose={onClose}>
      <form className={dialogStyles.form} onSubmit={submit}>
        <ProgrammeHeadFields stood={programme} today={programme.on} isWrongLimit={isWrongLimit} />
        <p className={styles.quiet}>Performances that stand on its day and place move along.</p>
        <p className={dialogStyles.buttons}>
          <Button type="submit" kind="settle" disabled={isBusy}>
            Write it down
          </Button>
          <Button kind="bare" onClick={onClose}>
            Not now
          </Button>
        </p>
      </form>
    </Dialog>
  );
}
