"use client";

import { useSearchParams } from "next/navigation";
import { useCallback, useContext, useEffect, useMemo } from "react";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import type { DeskTalk } from "@/app/_data/desk/read-talk";
import { SoundContext } from "@/app/_sound/sound-context";
import { usePlaying } from "@/app/_sound/use-playing";
import { useToggleSound } from "@/app/_sound/use-toggle-sound";
import { nameSpan } from "@/app/_ui/name-span";
import { inkOf } from "@/app/_ui/party";
import { ScoreView } from "@/app/_ui/score/score-view";
import { Sheet } from "@/app/_ui/sheet";
import { Strip } from "@/app/_ui/strip/strip";
import type { Meant } from "@/app/_ui/strip/targets";
import { useNarrow } from "@/app/_ui/use-narrow";
import { toPosition } from "@/lib/edition/position-terms";
import { comparePositions } from "@/lib/score/position";
import { stretchesOf } from "../_cuts/desk-pencils";
import { readEnds } from "../_cuts/ends-in-address";
import { scoreCuts, scoreLooked } from "../_cuts/score-cuts";
import { FoundCutsProvider } from "../_search/search-provider";
import { TalkProvider } from "../_talk/talk-provider";
import { useWeighAddress } from "../_weigh/use-weigh-address";
import { WeighPanel } from "../_weigh/weigh-panel";
import { findPicked } from "../_weigh/weigh-picks";
import { CueBar } from "./cue-bar";
import { type DeskState, firstToAnswer, type Looked } from "./desk-state";
import { KeysDialog } from "./keys-dialog";
import { listenFrom } from "./listen-from";
import { PaneBar } from "./pane-bar";
import styles from "./piece-desk.module.css";
import { RoomLine } from "./room-line";
import { barPins, cuesOnScore, looksOnStrip, withRoom } from "./room-marks";
import { useRoomHere, useTellBarLabels } from "./room-provider";
import { sayHere } from "./say-here";
import { LookedBar, MarkedBar, ScoreBar } from "./score-bar";
import { SideColumn } from "./side-column";
import { SincePanel } from "./since-panel";
import { TimePanel } from "./time-panel";
import { useDeskKeys } from "./use-desk-keys";
import { useDeskMoves } from "./use-desk-moves";

/** Score and cuts: the strip over everything, the score under it, tutti and cuts beside it. */
export function PieceDesk({ desk, talk }: { desk: Desk; talk: DeskTalk }) {
  return (
    <TalkProvider desk={desk} seenIds={talk.seenIds}>
      <DeskScreen desk={desk} since={talk.since} />
    </TalkProvider>
  );
}

function DeskScreen({ desk, since }: { desk: Desk; since: DeskTalk["since"] }) {
  const room = useRoomHere();
  const [state, move] = useDeskMoves(desk);
  const isNarrow = useNarrow(1000);
  const playing = usePlaying();
  const sound = useContext(SoundContext);
  const listen = useToggleSound(() => listenFrom(desk, state));
  const onKey = useDeskKeys(desk, state, move, listen);
  const { comments, breaths, pencilledCuts } = room;
  const strip = useMemo(
    () => withRoom(desk, { comments, breaths, pencilledCuts }),
    [desk, comments, breaths, pencilledCuts],
  );
  const cuts = useMemo(() => scoreCuts(desk), [desk]);
  const pins = useMemo(() => barPins(room.comments, desk.people), [room.comments, desk.people]);
  const cues = useMemo(() => cuesOnScore(desk, room.cues), [desk, room.cues]);
  const openCut = desk.cuts.find(({ id }) => id === state.openCutId) ?? null;
  const looks = useMemo(() => looksOnStrip(desk, room.people), [desk, room.people]);
  useTellBarLabels(desk.bars);
  useOpenFromAddress(desk, (cut) => move({ kind: "open-cut", cutId: cut.id, bar: cut.firstBar }));
  useLookFromAddress(desk, (looked) => move({ kind: "look", looked }));
  const { showWhere } = room;
  const topBar = state.view?.firstBar ?? null;
  useEffect(() => showWhere(topBar), [showWhere, topBar]);

  // The same at each drawing, so that systems of the score that did not change are not drawn again.
  const showComments = useCallback((ids: readonly string[]) => move({ kind: "show-comments", ids }), [move]);
  const openCue = useCallback((id: string) => move({ kind: "cue", cue: { kind: "open", id } }), [move]);
  const mean = (meant: Meant) => {
    if (meant.kind === "cut") move({ kind: "open-cut", cutId: meant.cutId, bar: null });
    if (meant.kind === "notes") showComments(meant.noteIds);
  };
  const stamp = useMemo(() => stampOf(desk), [desk]);
  const marked = markedStretch(desk, state);
  const { looked: lookedAt, draft } = state;
  const looked = useMemo(() => lookedOnScore(desk, lookedAt, draft), [desk, lookedAt, draft]);
  const [first, second] = state.picks;
  useWeighAddress(state.isWeighing, state.picks, (picks) => move({ kind: "weigh", picks }));
  return (
    <FoundCutsProvider desk={desk} asked={state.asked}>
      <main className={styles.desk} data-pane={state.pane}>
        <Sheet className={styles.top} aria-label="The strip">
          <div className={styles.strip}>
            <Strip
              piece={strip}
              kind={isNarrow ? "stand" : "desk"}
              view={state.view}
              cursor={state.cursor}
              marked={marked}
              openCutId={state.openCutId}
              looks={looks}
              isAsPlayed={state.reading === "as-it-will-read"}
              saysHere={sayHere({ strip }, state.cursor)}
              playing={playing}
              onGo={(bar) => {
                move({ kind: "cursor", second: bar.from, bar: bar.barIndex });
                sound?.goTo(bar.from);
              }}
              onMean={mean}
              onKey={onKey}
            />
          </div>
          {!isNarrow && <TimePanel desk={desk} openCut={openCut} />}
        </Sheet>
        <div className={styles.work}>
          <RoomLine />
          {isNarrow && <SincePanel desk={desk} since={since} isFolded move={move} />}
          <Sheet className={styles.score} id="score">
            <ScoreBar desk={desk} state={state} move={move} />
            <ScoreView
              pieceId={desk.pieceId}
              reading={state.reading}
              stamp={stamp}
              bars={desk.bars}
              cuts={cuts}
              pins={pins}
              cues={cues}
              marking={state.marking}
              looked={looked}
              shown={state.shown}
              playing={playing}
              goTo={state.goTo}
              onMark={(marking) => move({ kind: "mark", marking, desk })}
              onPin={showComments}
              onCue={openCue}
              onView={(view) => move({ kind: "view", view })}
              onKey={onKey}
            />
            <MarkedBar desk={desk} state={state} move={move} />
            <LookedBar desk={desk} state={state} move={move} />
            <CueBar desk={desk} state={state} move={move} />
          </Sheet>
          {state.isWeighing && first && second && (
            <WeighPanel desk={desk} picks={[first, second]} move={move} />
          )}
          <SideColumn
            desk={desk}
            since={since}
            state={state}
            move={move}
            isNarrow={isNarrow}
            openCut={openCut}
          />
        </div>
        {isNarrow && <PaneBar desk={desk} state={state} move={move} />}
        <KeysDialog isOpen={state.areKeysShown} onClose={() => move({ kind: "keys", isShown: false })} />
      </main>
    </FoundCutsProvider>
  );
}

/** `?cut=<id>` and `?waits` open a card: links from the list of pieces and from the top of the page. */
function useOpenFromAddress(desk: Desk, open: (cut: DeskCut) => void) {
  const query = useSearchParams();
  const asked = query.get("cut");
  const isForWaiting = query.has("waits");
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each address, not for each change of the piece
  useEffect(() => {
    const cut = isForWaiting ? firstToAnswer(desk.cuts) : desk.cuts.find(({ id }) => id === asked);
    if (cut) open(cut);
  }, [asked, isForWaiting]);
}

/** `?look=84:0~96:0` shows bars that nobody proposed to cut: a link from the plan. */
function useLookFromAddress(desk: Desk, look: (looked: Looked) => void) {
  const asked = useSearchParams().get("look");
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each address, not for each change of the piece
  useEffect(() => {
    const [ends] = readEnds(asked ?? "");
    const found = ends && findPicked(desk, { kind: "ends", ...ends });
    if (found) look({ from: found.from, to: found.to, name: nameSpan(desk.bars, found.from, found.to) });
  }, [asked]);
}

function stampOf({ cuts, musicStamp, rewritesStamp }: Desk): { music: string; decided: string } {
  const agreed = cuts.filter(({ state }) => state === "agreed").map(({ termsHash }) => termsHash);
  return { music: musicStamp, decided: [...agreed.sort(), rewritesStamp].join(" ") };
}

/** What is marked, drafted or looked at, on the strip. */
function markedStretch(desk: Desk, { marking, looked, draft }: DeskState) {
  const { strip } = desk;
  const cut = looked ?? draft;
  const [stretch] = cut ? stretchesOf(desk, cut.from, cut.to) : [];
  if (stretch) return stretch;
  if (marking === null) return null;
  const [first, last] = [Math.min(marking.anchor, marking.head), Math.max(marking.anchor, marking.head)];
  const start = strip.bars.find(({ barIndex }) => barIndex === first);
  const end = strip.bars.find(({ barIndex, from }) => barIndex === last && from >= (start?.from ?? 0));
  return start && end ? { from: start.from, to: end.to } : null;
}

/** A cut that is looked at, or being drafted, drawn on the score; a draft in the ink of whoever drafts it. */
function lookedOnScore(desk: Desk, looked: DeskState["looked"], draft: DeskState["draft"]) {
  const ends = looked ?? draft;
  if (ends === null || comparePositions(toPosition(ends.from), toPosition(ends.to)) >= 0) return null;
  const ink = looked ? "graphite" : inkOf(desk.me.role);
  return scoreLooked(desk, ink, ends, looked ? "Only looked at" : "Draft");
}
