"use client";

import { Button } from "@/app/_ui/button";
import { IconButton } from "@/app/_ui/icon-button";
import { WithFlats } from "@/app/_ui/music-sign";
import styles from "./here-bar.module.css";
import type { BreathPlace } from "./solo-places";
import type { LastTouch } from "./use-breath-marking";

/** At the foot of the part: the note one is at, its neighbours, and the breath after it, for fingers, keys and ears alike. */
export function HereBar({
  place,
  hasBreath,
  isMine,
  canMark,
  last,
  onStep,
  onTouch,
}: {
  place: BreathPlace | null;
  hasBreath: boolean;
  /** The breath here is the reader's own. */
  isMine: boolean;
  canMark: boolean;
  last: LastTouch | null;
  onStep: (direction: 1 | -1) => void;
  onTouch: () => void;
}) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset draws a frame and a legend of its own
    <div className={styles.bar} role="group" aria-label="The note you are at">
      <IconButton icon="back" label="Note before" onClick={() => onStep(-1)} />
      <p className={styles.here}>
        <WithFlats text={place ? place.says : "Touch the part after a note, or step to one."} />
        {place && <span> · {hasBreath ? "breath after it" : "no breath after it"}</span>}
      </p>
      <IconButton icon="forward" label="Note after" onClick={() => onStep(1)} />
      {canMark && place && (!hasBreath || isMine) && (
        <Button small aria-keyshortcuts="B" onClick={onTouch}>
          {hasBreath ? "Take this breath away" : "Breathe after this note"}
        </Button>
      )}
      {last && (
        <p className={styles.last}>
          {last.words}{" "}
          {last.undo && (
            <Button kind="bare" small onClick={last.undo}>
              Bring it back
            </Button>
          )}
        </p>
      )}
    </div>
  );
}
