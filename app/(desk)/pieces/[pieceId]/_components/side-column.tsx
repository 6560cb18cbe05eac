"use client";

import { type Dispatch, useEffect, useRef } from "react";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import { spanOf } from "@/app/_ui/score/mark-bars";
import { Sheet } from "@/app/_ui/sheet";
import type { SinceLastVisit } from "@/lib/store/room/read-since-last-visit";
import { CutButtons } from "../_cuts/cut-buttons";
import { CutCard } from "../_cuts/cut-card";
import { CutForm } from "../_cuts/cut-form";
import { CutInFront } from "../_cuts/cut-in-front";
import { NewOnCut } from "../_cuts/cut-thread";
import { PencilList } from "../_cuts/pencil-list";
import { JoinInAWord } from "../_join/join-in-a-word";
import { SearchPanel } from "../_search/search-panel";
import { type SearchPlace, settingsFor } from "../_search/search-settings";
import { SpanComments } from "../_talk/span-comments";
import { WeighSlip } from "../_weigh/weigh-slip";
import type { DeskMove, DeskState } from "./desk-state";
import styles from "./side-column.module.css";
import { SincePanel } from "./since-panel";
import { TimePanel } from "./time-panel";
import { TuttiList } from "./tutti-list";

/** Beside the score: the tuttis, the cut in hand, the other cuts, the comments. */
export function SideColumn({
  desk,
  since,
  state,
  move,
  isNarrow,
  openCut,
}: {
  desk: Desk;
  since: SinceLastVisit | null;
  state: DeskState;
  move: Dispatch<DeskMove>;
  isNarrow: boolean;
  openCut: DeskCut | null;
}) {
  const column = useRef<HTMLDivElement>(null);
  const front = state.draft ? "draft" : state.openCutId;
  const lastFront = useRef(front);
  useEffect(() => {
    if (front === lastFront.current) return;
    lastFront.current = front;
    const block = front === "draft" ? "start" : "nearest";
    column.current?.querySelector("[data-front]")?.scrollIntoView({ block });
  }, [front]);
  const find = (place: SearchPlace) => move({ kind: "search", search: settingsFor(place) });
  const isSearching = state.search !== null;
  useEffect(() => {
    if (isSearching) column.current?.querySelector("[data-search]")?.scrollIntoView({ block: "start" });
  }, [isSearching]);
  const hasPane = (pane: DeskState["pane"]) => !isNarrow || state.pane === pane;
  const go = (bar: number) => {
    const second = desk.strip.bars.find(({ barIndex }) => barIndex === bar)?.from ?? 0;
    move({ kind: "cursor", second, bar });
  };
  return (
    <div ref={column} className={styles.side}>
      {!isNarrow && <SincePanel desk={desk} since={since} move={move} />}
      {hasPane("tutti") && (
        <TuttiList
          desk={desk}
          view={state.view}
          onGo={(tutti) => {
            move({ kind: "cursor", second: tutti.from, bar: tutti.start.barIndex });
            if (isNarrow) move({ kind: "pane", pane: "score" });
          }}
          onFind={(index) => {
            const settings = settingsFor({ kind: "tutti", index });
            move({ kind: "search", search: settings });
            move({ kind: "ask", asked: settings });
          }}
        >
          <Button
            kind="bare"
            small
            onClick={() =>
              find(
                state.marking
                  ? { kind: "marked", span: spanOf(state.marking) }
                  : { kind: "from-here", bar: state.view?.firstBar ?? 0 },
              )
            }
          >
            Find cuts…
          </Button>
          {desk.may.propose && (
            <Button kind="bare" small onClick={() => move({ kind: "draft-marked", desk })}>
              <Icon name="plus" /> Propose a cut
            </Button>
          )}
        </TuttiList>
      )}
      {isNarrow && hasPane("time") && (
        <Sheet>
          <TimePanel desk={desk} openCut={openCut} />
        </Sheet>
      )}
      {hasPane("cuts") && (
        <>
          <WeighSlip desk={desk} state={state} move={move} />
          {isSearching && (
            <div data-search>
              <SearchPanel desk={desk} state={state} move={move} />
            </div>
          )}
        </>
      )}
      {hasPane("cuts") && <Cuts desk={desk} state={state} move={move} openCut={openCut} />}
      {hasPane("comments") && (
        <SpanComments
          desk={desk}
          commenting={state.commenting}
          shownIds={state.shownComments}
          onGo={go}
          onCommented={() => move({ kind: "commented" })}
        />
      )}
      {!isNarrow && desk.notices.length > 0 && (
        <Sheet className={styles.notices}>
          <Evidence
            summary={`Read with ${desk.notices.length === 1 ? "one remark" : `${desk.notices.length} remarks`}`}
          >
            <ul>
              {[...new Set(desk.notices)].map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </Evidence>
        </Sheet>
      )}
    </div>
  );
}

function Cuts({
  desk,
  state,
  move,
  openCut,
}: {
  desk: Desk;
  state: DeskState;
  move: Dispatch<DeskMove>;
  openCut: DeskCut | null;
}) {
  const isDrawn = ({ state: how }: DeskCut) => how === "open" || how === "agreed";
  const others = desk.cuts.filter((cut) => isDrawn(cut) && cut.id !== openCut?.id);
  const aside = desk.cuts.filter((cut) => !isDrawn(cut) && cut.id !== openCut?.id);
  const counter = (cut: DeskCut) =>
    move({ kind: "draft", draft: { from: cut.from, to: cut.to, replaces: cut } });
  const open = (cut: DeskCut) => move({ kind: "open-cut", cutId: cut.id, bar: cut.firstBar });
  const closed = (cut: DeskCut) => (
    <CutCard key={cut.id} desk={desk} cut={cut} isOpen={false} onOpen={() => open(cut)}>
      <JoinInAWord desk={desk} cut={cut} />
      <NewOnCut desk={desk} cut={cut} />
      <CutButtons desk={desk} cut={cut} onCounter={() => counter(cut)} />
    </CutCard>
  );
  return (
    <>
      {state.draft && (
        <div data-front>
          <CutForm
            desk={desk}
            draft={state.draft}
            shown={state.shown}
            onShow={(shown) => move({ kind: "show", shown })}
            onChange={(draft) => move({ kind: "draft", draft })}
            onClose={(id) => {
              move({ kind: "draft", draft: null });
              if (id) move({ kind: "open-cut", cutId: id, bar: null });
            }}
          />
        </div>
      )}
      <PencilList desk={desk} hiddenId={state.draft?.pencilId ?? null} move={move} />
      {openCut && !state.draft && (
        <div data-front className={styles.front}>
          <CutInFront desk={desk} cut={openCut} state={state} move={move} />
        </div>
      )}
      {others.map(closed)}
      {desk.cuts.length === 0 && !state.draft && <NoCuts desk={desk} />}
      {aside.length > 0 && (
        <Sheet className={styles.asideList}>
          <Evidence summary={`Laid aside, ${aside.length}`}>
            <div className={styles.asideCards}>{aside.map(closed)}</div>
          </Evidence>
        </Sheet>
      )}
    </>
  );
}

function NoCuts({ desk }: { desk: Desk }) {
  return (
    <Sheet className={styles.none}>
      <p>
        <b>No cuts yet.</b>{" "}
        {desk.may.propose
          ? "Mark bars in the score or start from a tutti, and propose one."
          : "The two players propose them here."}
      </p>
    </Sheet>
  );
}
