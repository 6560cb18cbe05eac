import type { Dispatch } from "react";
import { Button } from "@/app/_ui/button";
import type { DeskMove } from "../_components/desk-state";
import { isSamePick, type WeighPick } from "./weigh-picks";

/** Chooses a cut to be weighed; the second that is chosen opens both side by side. */
export function WeighButton({
  pick,
  name,
  picks,
  small = false,
  move,
}: {
  pick: WeighPick;
  /** "cut 2", "bars 85–96". */
  name: string;
  picks: readonly WeighPick[];
  small?: boolean;
  move: Dispatch<DeskMove>;
}) {
  const isChosen = picks.some((other) => isSamePick(other, pick));
  const isSecond = picks.length > 0 && !isChosen;
  return (
    <Button
      small={small}
      aria-pressed={isChosen}
      aria-label={isSecond ? `Weigh ${name} against the one chosen` : `Weigh ${name}`}
      onClick={() => move(isChosen ? { kind: "drop-pick", pick } : { kind: "pick", pick })}
    >
      {isSecond ? "Weigh against it" : "Weigh"}
    </Button>
  );
}
