"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { SayProblem } from "@/app/_ui/say";
import { useAction } from "@/app/(desk)/pieces/[pieceId]/_components/use-action";
import styles from "../../_performances/dialog-form.module.css";
import { drawUpProgrammeAction } from "../actions/draw-up-programme";
import { ProgrammeHeadFields } from "./programme-head-fields";
import { readHead } from "./read-head";

/** Begins a programme; its entries follow on its own screen. */
export function DrawUpDialog({ today, onClose }: { today: string; onClose: () => void }) {
  const { run, isBusy, problem } = useAction();
  const router = useRouter();
  const [isWrongLimit, setIsWrongLimit] = useState(false);
  const submit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const read = readHead(new FormData(event.currentTarget));
    setIsWrongLimit(!read.ok);
    if (!read.ok) return;
    const drawn = await run(drawUpProgrammeAction, read.value);
    if (drawn.ok) router.push(`/performances/programme/${drawn.value.programmeId}`);
  };
  return (
    <Dialog title="Draw up a programme" isOpen onClose={onClose}>
      <form className={styles.form} onSubmit={submit}>
        <ProgrammeHeadFields stood={null} today={today} isWrongLimit={isWrongLimit} />
        {problem && <SayProblem>{problem}</SayProblem>}
        <p className={styles.buttons}>
          <Button type="submit" kind="settle" disabled={isBusy}>
            Draw it up
          </Button>
          <Button kind="bare" onClick={onClose}>
            Not now
          </Button>
        </p>
      </form>
    </Dialog>
  );
}
