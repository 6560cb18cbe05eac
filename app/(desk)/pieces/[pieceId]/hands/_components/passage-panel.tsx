"use client";

import { useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";
import { useAnswer } from "@/app/_study/use-answer";
import { useAnnounce } from "@/app/_ui/announcer";
import { capital } from "@/app/_ui/capital";
import { Evidence } from "@/app/_ui/evidence";
import { nameBars } from "@/app/_ui/name-span";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import { sayStrain } from "@/lib/hands/say-strain";
import { barSpanOf } from "@/lib/rewrites/bars-of-terms";
import type { HandsAtTempo, PassageAtPace } from "@/lib/study/hands-at-tempo";
import { firstName, otherPlayer } from "../../_components/person";
import { useAction } from "../../_components/use-action";
import { keepRewriteAction } from "../../actions/keep-rewrite";
import { forgetDraft } from "../_editor/draft";
import { NoteEditor } from "../_editor/note-editor";
import { lastLetter } from "./last-letter";
import type { ListedPlace } from "./list-places";
import { ListenHere } from "./listen-here";
import { nameBeat } from "./name-beat";
import styles from "./passage-panel.module.css";
import { type Bars, rewriteOf } from "./passage-state";
import { sayOverBracket } from "./passage-words";
import { PrintedPassage } from "./printed-passage";
import { ShareVersion } from "./share-version";
import { StandingRewrite } from "./standing-rewrite";
import { SuggestedOssia } from "./suggested-ossia";
import { TempoSlider } from "./tempo-slider";
import { useCuesOver } from "./use-cues-over";

/** What is being done in the panel beside looking. */
type Doing =
  | { readonly kind: "looking" }
  | { readonly kind: "writing"; readonly from: RewriteTerms }
  /** `back` is where "Not yet" leads. */
  | { readonly kind: "sharing"; readonly terms: RewriteTerms; readonly back: Doing };

const looking: Doing = { kind: "looking" };

/** One passage: as it is printed and why it is awkward, what could be played instead, and what the pianist decides. */
export function PassagePanel({
  desk,
  hands,
  place,
  bars,
  written,
  rewriteId,
  view,
  pace,
  settledPace,
  onPace,
  onRewrite,
  onKept,
}: {
  desk: Desk;
  hands: HandsProfile;
  /** What the list says of it; null for other bars. */
  place: ListedPlace | null;
  bars: Bars;
  /** Everything that is written for these bars. */
  written: readonly DeskRewrite[];
  /** Which of it is looked at; null for what is played. */
  rewriteId: string | null;
  /** Null while the piece is being judged. */
  view: HandsAtTempo | null;
  pace: number;
  /** The pace that suggestions are made for. */
  settledPace: number;
  onPace: (pace: number) => void;
  onRewrite: (rewriteId: string) => void;
  /** Another version holds for these bars. */
  onKept: (bars: Bars) => void;
}) {
  const [doing, setDoing] = useState<Doing>(looking);
  const [seesOthers, setSeesOthers] = useState(false);
  const [index, setIndex] = useState(0);
  const { run, isBusy, problem, clear } = useAction();
  const announce = useAnnounce();
  const soloist = otherPlayer(desk);
  const other = soloist ? firstName(soloist) : "the soloist";
  const rewrite = written.find(({ id }) => id === rewriteId) ?? rewriteOf(written, bars);
  const cues = useCuesOver(bars);
  const { sourceHash, pieceId } = desk;
  // Not before the piece is judged: both would read every bar.
  const suggested = useAnswer(
    view && {
      kind: "rewrite",
      question: { sourceHash, fromBar: bars.fromBar, toBar: bars.toBar, hands, pace: settledPace },
    },
  );
  const name = nameBars(desk.bars, { firstBar: bars.fromBar, lastBar: bars.toBar });
  const letter = lastLetter(desk, bars.fromBar);
  const passage = place?.passage ?? null;
  const tempo = view?.tempi[bars.fromBar];
  const keep = async (terms: RewriteTerms, sharing: DeskRewrite["sharing"], reason: string) => {
    const input = { pieceId, terms, sharing, replaces: rewrite?.id ?? null, reason };
    const kept = await run(keepRewriteAction, input);
    if (!kept.ok) return;
    forgetDraft(window.sessionStorage, { pieceId, sourceHash, ...barSpanOf(terms) });
    setDoing(looking);
    setSeesOthers(false);
    onKept(bars);
    announce(sharing === "only_me" ? "Kept, for you alone." : `Kept. ${other} sees it.`);
    document.getElementById("passage")?.focus();
  };
  const share = (terms: RewriteTerms, back: Doing) => {
    clear();
    setDoing({ kind: "sharing", terms, back });
  };
  return (
    <Sheet className={styles.panel} id="passage" tabIndex={-1} aria-label={`Passage: ${name}`}>
      <header className={styles.head}>
        {letter && <RehearsalBox text={letter} />}
        <h2>{passage ? `Passage ${place?.number}: ${name}` : capital(name)}</h2>
        {tempo && view && (
          <TempoSlider
            pace={pace}
            beat={tempo.beat}
            perMinute={tempo.perMinute}
            comfortablePace={easyUpTo(view, bars)}
            isEasyWhenShared={passage?.isEasyWhenShared ?? false}
            onPace={onPace}
          />
        )}
      </header>
      <section className={styles.printed} aria-label="As the reduction prints it">
        <div className={styles.title}>
          <h3>As the reduction prints it</h3>
          <Reasons desk={desk} passage={passage} isJudged={view !== null} />
          <ListenHere desk={desk} bars={bars} rewrite={null} pace={pace} what={`${name} as printed`} />
        </div>
        <PrintedPassage
          pieceId={pieceId}
          sourceHash={sourceHash}
          bars={bars}
          awkward={awkwardBars(view, bars)}
          worst={passage?.strain.at.barIndex ?? null}
          words={passage ? sayOverBracket(passage.strain) : null}
          label={`${name} as printed`}
        />
      </section>
      {doing.kind === "writing" ? (
        <div className={styles.writing}>
          <NoteEditor
            {...{ pieceId, sourceHash, hands }}
            pace={settledPace}
            terms={doing.from}
            onKeep={(terms) => share(terms, { kind: "writing", from: terms })}
            onLeave={() => setDoing(looking)}
          />
        </div>
      ) : doing.kind === "sharing" ? (
        <ShareVersion
          {...{ desk, hands, other, cues, pace, settledPace, isBusy, problem }}
          terms={doing.terms}
          onShare={({ sharing, reason, shown }) => void keep({ ...doing.terms, shown }, sharing, reason)}
          onLeave={() => setDoing(doing.back)}
        />
      ) : rewrite && !seesOthers ? (
        <StandingRewrite
          {...{ desk, hands, rewrite, other, cues, pace }}
          others={written.filter(({ id }) => id !== rewrite.id)}
          onRewrite={onRewrite}
          strain={passage?.strain ?? null}
          settledPace={settledPace}
          onChange={() => setDoing({ kind: "writing", from: rewrite.terms })}
          onOthers={() => setSeesOthers(true)}
        />
      ) : (
        <SuggestedOssia
          {...{ desk, hands, other, cues, pace }}
          passage={passage}
          settledPace={settledPace}
          answer={suggested}
          isBusy={isBusy}
          index={index}
          onIndex={setIndex}
          onUse={(terms) => share(terms, looking)}
          onWrite={(from) => setDoing({ kind: "writing", from })}
          onPrint={(printed) => void keep({ ...printed, words: "as printed" }, "only_me", "")}
          onBack={rewrite ? () => setSeesOthers(false) : null}
        />
      )}
      {doing.kind !== "sharing" && problem && <SayProblem>{problem}</SayProblem>}
    </Sheet>
  );
}

/** The share of the tempo up to which all of these bars are comfortable. */
function easyUpTo(view: HandsAtTempo, { fromBar, toBar }: Bars): number {
  return Math.min(...view.bars.slice(fromBar, toBar + 1).map(({ comfortablePace }) => comfortablePace));
}

function awkwardBars(view: HandsAtTempo | null, { fromBar, toBar }: Bars): ReadonlySet<number> {
  const all = view?.bars.slice(fromBar, toBar + 1) ?? [];
  return new Set(all.flatMap(({ isEasyAsPrinted }, index) => (isEasyAsPrinted ? [] : [fromBar + index])));
}

/** Why it is awkward, in a sentence that opens to everything it was computed from. */
function Reasons({
  desk,
  passage,
  isJudged,
}: {
  desk: Desk;
  passage: PassageAtPace | null;
  isJudged: boolean;
}) {
  if (passage === null) {
    return <p className={styles.reason}>{isJudged ? "It lies well under your hands at this tempo." : ""}</p>;
  }
  const { strain, strains, isEasyWhenShared, difficulty } = passage;
  return (
    <div className={styles.reason}>
      <Evidence summary={sayStrain(strain)}>
        <ul>
          {strains.map((one) => (
            <li key={`${one.kind} ${one.hand}`}>
              {sayStrain(one)} {capital(nameBeat(desk.bars, one.at))}: {Math.round(one.load * 100) / 100}{" "}
              times what is comfortable
              {one.load >= 2 ? ", which cannot be done" : ""}.
            </li>
          ))}
          <li>
            Difficulty {difficulty} of 100, the notes shared between the hands in the easiest way: up to 50 it
            is comfortable, from 67 on it cannot be done.
            {passage.kind === "repeated chord" &&
              " Chords of an octave and wider are held against your octaves in a row, others against your repeated chords."}
            {isEasyWhenShared && " Shared so, every bar of it is easy: the other hand takes a part."}
          </li>
        </ul>
      </Evidence>
    </div>
  );
}
