"use client";

import { useEffect, useRef, useState } from "react";
import type { DeskHint } from "@/app/_data/desk/hands-desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { hintSource, type VoicingHint } from "@/lib/practice/voicing-hints";
import { Moment } from "../../_components/moment";
import { useAction } from "../../_components/use-action";
import { setCueHintAction } from "../../actions/set-cue-hint";
import { EarlierHints } from "./earlier-hints";
import { hintAnchor } from "./hint-anchor";
import { HintForm } from "./hint-form";
import styles from "./hint-item.module.css";

/** How to sound like one instrument: the duo's own words where they have any, else the usual ones. */
export function HintItem({
  pieceId,
  hint: { key, name, text: usual },
  written,
  mayWrite,
}: {
  pieceId: string;
  hint: VoicingHint;
  /** What the duo wrote for it, the newest first. */
  written: readonly DeskHint[];
  mayWrite: boolean;
}) {
  const { run, isBusy, problem, clear } = useAction();
  const announce = useAnnounce();
  const [isChanging, setChanging] = useState(false);
  const element = useRef<HTMLLIElement>(null);
  const anchor = hintAnchor(key);
  useEffect(() => {
    // The list is not there yet when the browser looks for what the address names.
    if (decodeURIComponent(window.location.hash.slice(1)) === anchor) element.current?.scrollIntoView();
  }, [anchor]);
  const [newest] = written;
  const own = newest && newest.text !== "" ? newest : null;
  const send = async (text: string): Promise<boolean> => {
    const answer = await run(setCueHintAction, { pieceId, instrument: key, text });
    if (!answer.ok) return false;
    setChanging(false);
    announce(`${capital(name)}: ${text === "" ? "the usual words again" : "kept"}.`);
    return true;
  };
  return (
    <li ref={element} id={anchor} className={styles.hint} aria-label={capital(name)}>
      <h3>
        <b className={styles.cue}>{key}</b> {name}
      </h3>
      {isChanging ? (
        <HintForm
          name={name}
          text={own?.text ?? usual}
          draftName={`${pieceId}-hint-${key}`}
          isBusy={isBusy}
          problem={problem}
          onKeep={send}
          onUsual={own ? () => send("") : null}
          onLeave={() => {
            clear();
            setChanging(false);
          }}
        />
      ) : (
        <>
          <p className={styles.text}>{own?.text ?? usual}</p>
          <p className={styles.foot}>
            <small>
              {own ? (
                <>
                  {own.authorName}, <Moment iso={own.at} />
                </>
              ) : (
                hintSource
              )}
            </small>
            {mayWrite && (
              <Button kind="bare" small onClick={() => setChanging(true)}>
                Change
              </Button>
            )}
          </p>
        </>
      )}
      {written.length > (own ? 1 : 0) && (
        <EarlierHints written={own ? written.slice(1) : written} onTake={mayWrite && !isBusy ? send : null} />
      )}
    </li>
  );
}
