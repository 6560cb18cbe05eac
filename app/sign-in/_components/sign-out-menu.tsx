"use client";

import { unstable_rethrow } from "next/navigation";
import { useState, useTransition } from "react";
import { saveTextFile } from "@/app/_offline/save-text-file";
import { listCopies } from "@/app/_room/copy-name";
import type { LeftWritings } from "@/app/_room/left-writings";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { SayProblem } from "@/app/_ui/say";
import { signOutAction } from "../actions/sign-out";
import { signOutEverywhereAction } from "../actions/sign-out-everywhere";
import styles from "./sign-out-menu.module.css";

const notSignedOut = "You are still signed in: the connection failed. Try again.";
/** So many unsent writings are shown; the file has them all. */
const mostShown = 12;

interface Leaving {
  readonly action: () => Promise<never>;
  readonly left: readonly LeftWritings[];
}

/** Signs out, here or everywhere. What is not sent yet is shown first. */
export function SignOutMenu({ userId, name }: { userId: string; name: string }) {
  const [leaving, setLeaving] = useState<Leaving | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [isPending, startTransition] = useTransition();
  const leave = (action: () => Promise<never>) =>
    startTransition(async () => {
      try {
        await action();
      } catch (error) {
        // A sign-out that worked arrives as the way to the sign-in page, which forgets what was kept here.
        unstable_rethrow(error);
        setLeaving(null);
        setProblem(notSignedOut);
      }
    });
  const ask = (action: () => Promise<never>) =>
    startTransition(async () => {
      setProblem(null);
      const left = await readLeft(userId, name).catch(() => null);
      if (left === null) setProblem(notSignedOut);
      else if (left.length === 0) leave(action);
      else setLeaving({ action, left });
    });
  return (
    <>
      <Button wide disabled={isPending} onClick={() => ask(signOutAction)}>
        Sign out
      </Button>
      <Button wide disabled={isPending} onClick={() => ask(signOutEverywhereAction)}>
        Sign out on every device
      </Button>
      {problem && <SayProblem>{problem}</SayProblem>}
      <Dialog title="Not sent yet" isOpen={leaving !== null} onClose={() => setLeaving(null)}>
        {leaving && (
          <Unsent
            left={leaving.left}
            isPending={isPending}
            onStay={() => setLeaving(null)}
            onLeave={() => leave(leaving.action)}
          />
        )}
      </Dialog>
    </>
  );
}

async function readLeft(userId: string, name: string): Promise<LeftWritings[]> {
  const copies = await listCopies();
  if (!copies.some((copy) => copy.userId === userId)) return [];
  const { findLeftWritings } = await import("@/app/_room/left-writings");
  return findLeftWritings(userId, name, new Date());
}

function Unsent({
  left,
  isPending,
  onStay,
  onLeave,
}: {
  left: readonly LeftWritings[];
  isPending: boolean;
  onStay: () => void;
  onLeave: () => void;
}) {
  const writings = left.flatMap((piece) => piece.writings.map((one) => ({ ...one, pieceId: piece.pieceId })));
  const more = writings.length - mostShown;
  return (
    <div className={styles.unsent}>
      <p>
        {writings.length === 1 ? "One thing you wrote is" : `${writings.length} things you wrote are`} only in
        this browser. If you sign out they stay here under your name, and go when you sign in here again.
      </p>
      <ul>
        {writings.slice(0, mostShown).map(({ pieceId, key, kind, text }) => (
          <li key={`${pieceId} ${key}`}>{text ? <q>{text}</q> : `a ${kind}`}</li>
        ))}
        {more > 0 && <li>and {more} more</li>}
      </ul>
      <p className={styles.buttons}>
        <Button kind="settle" onClick={onStay}>
          Stay
        </Button>
        <Button onClick={() => saveAll(left)}>Save as a file</Button>
        <Button disabled={isPending} onClick={onLeave}>
          Sign out
        </Button>
      </p>
    </div>
  );
}

function saveAll(left: readonly LeftWritings[]): void {
  for (const { pieceId, file } of left) saveTextFile(`not-sent-${pieceId}.json`, file);
}
