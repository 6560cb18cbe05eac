"use client";

import { useState } from "react";
import { useDeviceText } from "@/app/_practice/use-device-text";
import type { PracticeLog } from "@/app/_practice/use-practice-log";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { Evidence } from "@/app/_ui/evidence";
import { TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { IconButton } from "@/app/_ui/icon-button";
import { BeatSign, sayBeat } from "@/app/_ui/metronome-mark";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { sayNeed } from "@/lib/practice/order-passages";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { ladderScheme, type TempoLadder } from "@/lib/practice/tempo-ladder";
import { LadderFigure } from "./ladder-figure";
import { PassageLog } from "./passage-log";
import styles from "./passage-practice.module.css";
import { SoundAtTempo } from "./sound-at-tempo";

/** One rung of a passage at a time: heard, clicked, tried and logged. */
export function PassagePractice({
  passage,
  ladder,
  log,
  rewrites,
  draftName,
}: {
  passage: PracticePassage;
  ladder: TempoLadder;
  log: PracticeLog;
  rewrites: readonly RewriteTerms[];
  draftName: string;
}) {
  const announce = useAnnounce();
  // Another rung than the log's, for as long as the log says the same.
  const [picked, setPicked] = useState({ at: ladder.current, rung: ladder.current });
  const [note, setNote] = useDeviceText(draftName);
  const tried = Math.min(
    ladder.rungs.length - 1,
    picked.at === ladder.current ? picked.rung : ladder.current,
  );
  const perMinute = ladder.rungs[tried]?.perMinute ?? passage.tempo.perMinute;
  const pick = (rung: number) => setPicked({ at: ladder.current, rung });
  const write = (held: boolean) => {
    log.log(passage, { beat: ladder.beat, perMinute, held }, note.trim());
    setNote("");
    // The log decides which rung comes next, even when it is the same.
    pick(ladder.current);
    announce(`${capital(passage.label)}: ${perMinute} ${held ? "held" : "did not hold"}. It is in the log.`);
  };
  return (
    <div className={styles.practice}>
      <LadderFigure ladder={ladder} tried={tried} />
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset draws a frame and a legend of its own */}
      <div className={styles.tempo} role="group" aria-label="Tempo to try">
        <IconButton
          icon="minus"
          label="A rung slower"
          disabled={tried === 0}
          onClick={() => pick(tried - 1)}
        />
        <output aria-label={`${perMinute} ${sayBeat(ladder.beat)}s a minute`}>
          <BeatSign beat={ladder.beat} /> = <b>{perMinute}</b>
        </output>
        <IconButton
          icon="plus"
          label="A rung faster"
          disabled={tried === ladder.rungs.length - 1}
          onClick={() => pick(tried + 1)}
        />
        <p className={styles.why}>{ladder.why}</p>
      </div>
      <SoundAtTempo {...{ passage, rewrites, perMinute }} />
      <div className={styles.log}>
        <TextField
          label="A note for the log"
          isLabelHidden
          placeholder="A note for the log, if you like"
          maxLength={500}
          value={note}
          onChange={(event) => setNote(event.target.value)}
        />
        <Button kind="settle" onClick={() => write(true)}>
          <Icon name="check" /> It held at {perMinute}
        </Button>
        <Button onClick={() => write(false)}>It did not hold</Button>
      </div>
      <PassageLog passage={passage} log={log} />
      <Evidence summary="Where this stands in the list, and how the ladder is made">
        <p>{capital(sayNeed(passage))}.</p>
        <p>
          {ladder.start} {ladderScheme}
        </p>
      </Evidence>
    </div>
  );
}
