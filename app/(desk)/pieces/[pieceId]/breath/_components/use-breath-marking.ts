"use client";

import { useCallback, useRef, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { canMarkBreaths } from "@/lib/room/room-member";
import { firstName, personOf } from "../../_components/person";
import { useRoomHere } from "../../_components/room-provider";
import { type BreathPlace, keyOfPosition } from "./solo-places";

/** What the last touch did, in words, and whether it can be undone. */
export interface LastTouch {
  readonly words: string;
  readonly undo: (() => void) | null;
}

/**
 * Putting breaths in and taking them away, one touch each. What was taken away while the page is open is brought back by
 * touching its place again, as the same breath.
 */
export function useBreathMarking(desk: Pick<Desk, "bars" | "people" | "me">) {
  const room = useRoomHere();
  const announce = useAnnounce();
  const [last, setLast] = useState<LastTouch | null>(null);
  const takenAway = useRef(new Map<string, string>());
  const canMark = canMarkBreaths(desk.me.role);
  const { bars } = desk;
  const say = useCallback(
    (words: string, undo: LastTouch["undo"] = null) => {
      setLast({ words, undo });
      announce(words);
    },
    [announce],
  );
  const touch = useCallback(
    (place: BreathPlace) => {
      if (!canMark) return say("Only the two players mark breaths.");
      const here = room.breaths.filter(({ at }) => keyOfPosition(bars, at) === place.key);
      const mine = here.filter(({ authorId }) => authorId === desk.me.userId);
      const [other] = here;
      if (mine.length > 0) {
        for (const { id } of mine) {
          const taken = room.removeBreath(id);
          if (!taken.ok) return say(taken.sentence);
          takenAway.current.set(place.key, id);
        }
        const undo = () => {
          for (const { id } of mine) room.restoreBreath(id);
          say(`Breath put back: ${place.name}.`);
        };
        return say(`Breath taken away: ${place.name}.`, undo);
      }
      if (other) {
        const name = firstName(personOf(desk, other.authorId));
        return say(`This breath is ${name}’s: only ${name} takes it away.`);
      }
      const before = takenAway.current.get(place.key);
      const written = before === undefined ? room.addBreath(place.at) : room.restoreBreath(before);
      takenAway.current.delete(place.key);
      return say(written.ok ? `Breath put in: ${place.name}.` : written.sentence);
    },
    [room, bars, desk, canMark, say],
  );
  return { touch, last, canMark };
}
