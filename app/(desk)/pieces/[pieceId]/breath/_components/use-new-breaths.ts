"use client";

import { useEffect, useMemo, useState } from "react";
import type { DeskTalk } from "@/app/_data/desk/read-talk";
import type { Breath } from "@/lib/room/breath";
import { useRoomHere } from "../../_components/room-provider";

/**
 * Ids of the breaths that are new to this reader: put in by others since they were last here, or by anybody while the
 * page is open.
 */
export function useNewBreaths(since: DeskTalk["since"]): ReadonlySet<string> {
  const { breaths, status } = useRoomHere();
  const [known, setKnown] = useState<ReadonlySet<string> | null>(null);
  const isHeard = status !== "connecting";
  useEffect(() => {
    if (isHeard) setKnown((before) => before ?? new Set(breaths.map(({ id }) => id)));
  }, [isHeard, breaths]);
  return useMemo(() => findNewBreaths(breaths, known, since), [breaths, known, since]);
}

/** @param known what stood there when the page was first heard of; null before. */
export function findNewBreaths(
  breaths: readonly Pick<Breath, "id">[],
  known: ReadonlySet<string> | null,
  since: Pick<NonNullable<DeskTalk["since"]>, "room"> | null,
): Set<string> {
  const told = (since?.room ?? []).filter(({ map }) => map === "breaths").map(({ key }) => key);
  const isNew = ({ id }: Pick<Breath, "id">) => told.includes(id) || (known !== null && !known.has(id));
  return new Set(breaths.filter(isNew).map(({ id }) => id));
}
