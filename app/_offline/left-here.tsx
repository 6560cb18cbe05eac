"use client";

import { useCallback, useEffect, useState } from "react";
import { listCopies } from "@/app/_room/copy-name";
import type { LeftWritings } from "@/app/_room/left-writings";
import { Button } from "@/app/_ui/button";
import { SayNote } from "@/app/_ui/say";
import { saveTextFile } from "./save-text-file";

/**
 * What this person wrote in pieces that they no longer belong to, and that was never sent: it is in this browser
 * only, and no other screen leads to it.
 */
export function LeftHere({
  userId,
  name,
  pieceIds,
}: {
  userId: string;
  name: string;
  /** The pieces they belong to. */
  pieceIds: readonly string[];
}) {
  const [left, setLeft] = useState<readonly LeftWritings[]>([]);
  const own = pieceIds.join(" ");
  const look = useCallback(async () => {
    const isElsewhere = (pieceId: string) => !own.split(" ").includes(pieceId);
    const copies = await listCopies();
    if (!copies.some((copy) => copy.userId === userId && isElsewhere(copy.pieceId))) return setLeft([]);
    const { findLeftWritings } = await import("@/app/_room/left-writings");
    const found = await findLeftWritings(userId, name, new Date());
    setLeft(found.filter(({ pieceId }) => isElsewhere(pieceId)));
  }, [userId, name, own]);
  useEffect(() => {
    // What it takes to read them did not load: they are found at the next visit.
    look().catch(() => {});
  }, [look]);
  const letGo = async (pieceId: string) => {
    const { letGoOfCopy } = await import("@/app/_room/left-writings");
    await letGoOfCopy({ userId, pieceId });
    await look();
  };
  return left.map(({ pieceId, writings, file }) => (
    <SayNote key={pieceId}>
      <p>
        You no longer belong to a piece in which you wrote{" "}
        {writings.length === 1 ? "something that was" : `${writings.length} things that were`} not sent.
      </p>
      <ul>
        {writings.map(({ key, kind, text }) => (
          <li key={key}>{text ? <q>{text}</q> : `a ${kind}`}</li>
        ))}
      </ul>
      <Button small onClick={() => saveTextFile(`not-sent-${pieceId}.json`, file)}>
        Save as a file
      </Button>{" "}
      <Button small kind="bare" onClick={() => void letGo(pieceId)}>
        Let it go
      </Button>
    </SayNote>
  ));
}
