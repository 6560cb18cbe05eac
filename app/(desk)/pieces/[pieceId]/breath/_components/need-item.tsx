"use client";

import type { ActionResult } from "@/app/_data/action-result";
import type { Desk } from "@/app/_data/desk/desk";
import type { BreathNeed } from "@/app/_data/desk/read-breath";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { classNames } from "@/app/_ui/class-names";
import { namePlace } from "@/app/_ui/name-span";
import { sayDay } from "@/app/_ui/say-date";
import { firstName, personOf } from "../../_components/person";
import { useAction } from "../../_components/use-action";
import { holdRestNeedAction } from "../../actions/hold-rest-need";
import { releaseRestNeedAction } from "../../actions/release-rest-need";
import { removeRestNeedAction } from "../../actions/remove-rest-need";
import { restoreRestNeedAction } from "../../actions/restore-rest-need";
import { type EntryName, sayEntry } from "./name-entry";
import styles from "./need-item.module.css";
import type { NeedHere } from "./rest-rows";
import { sayAmount } from "./say-breath";
import { sayShort } from "./say-rest";

type NeedAction = (input: unknown) => Promise<ActionResult<unknown>>;

/** A rest that the soloist asked for: how long, why, who noted it, and whether it still holds. */
export function NeedItem({
  desk,
  need,
  here,
  entry,
  mayChange,
  onChange,
}: {
  desk: Desk;
  need: BreathNeed;
  here: NeedHere | null;
  entry: EntryName | null;
  mayChange: boolean;
  onChange: (needId: string) => void;
}) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const now = new Date();
  const where = entry ? sayEntry(entry) : namePlace(desk.bars, need.to);
  const name = `${sayAmount(need.needs)} before ${where}`;
  const send = async (action: NeedAction, done: string) => {
    const answer = await run(action, { pieceId: desk.pieceId, needId: need.id });
    if (answer.ok) announce(`${name}: ${done}.`);
  };
  const isReleased = need.releasedBy !== null;
  const short = here && !isReleased ? sayShort(here.underOpen ?? here.checked) : null;
  return (
    <li
      id={`need-${need.id}`}
      className={classNames(styles.need, (isReleased || need.isRemoved) && styles.released)}
      aria-label={name}
    >
      <div className={styles.words}>
        <p className={styles.what}>
          <b>{sayAmount(need.needs)}</b> {!here && `before ${where} `}for {need.why}
          {short && <b className={styles.short}> · {short}</b>}
        </p>
        <p className={styles.who}>{sayState(desk, need, now)}</p>
      </div>
      {mayChange && (
        <p className={styles.buttons}>
          {need.isRemoved ? (
            <Button small disabled={isBusy} onClick={() => send(restoreRestNeedAction, "back on the list")}>
              Bring it back
            </Button>
          ) : (
            <>
              {isReleased ? (
                <Button small disabled={isBusy} onClick={() => send(holdRestNeedAction, "held again")}>
                  Hold it again
                </Button>
              ) : (
                <Button small disabled={isBusy} onClick={() => send(releaseRestNeedAction, "let go")}>
                  Let it go
                </Button>
              )}
              {!need.isStale && (
                <Button kind="bare" small disabled={isBusy} onClick={() => onChange(need.id)}>
                  Change
                </Button>
              )}
              <Button
                kind="bare"
                small
                disabled={isBusy}
                onClick={() => send(removeRestNeedAction, "taken off the list")}
              >
                Take it off
              </Button>
            </>
          )}
        </p>
      )}
      {problem && (
        <p className={styles.problem} role="alert">
          {problem}
        </p>
      )}
    </li>
  );
}

/** "Noted by Matthis, Thu 26 Nov." and what became of it since. */
function sayState(desk: Desk, need: BreathNeed, now: Date): string {
  const who = (userId: string) => firstName(personOf(desk, userId));
  const noted = `Noted by ${who(need.notedBy)}, ${sayDay(need.notedAt, now)}.`;
  if (need.isRemoved) return `${noted} Taken off the list.`;
  const released =
    need.releasedBy !== null && need.releasedAt !== null
      ? ` Released by ${who(need.releasedBy)}, ${sayDay(need.releasedAt, now)}.`
      : "";
  return `${noted}${released}${need.isStale ? " It was noted on another file: note it anew." : ""}`;
}
