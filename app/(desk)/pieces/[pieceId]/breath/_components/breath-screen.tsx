"use client";

import { type KeyboardEvent, useCallback, useEffect, useMemo, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { BreathDesk } from "@/app/_data/desk/read-breath";
import type { DeskTalk } from "@/app/_data/desk/read-talk";
import { ListenControls } from "@/app/_sound/listen-controls";
import { usePlaying } from "@/app/_sound/use-playing";
import { nameBars } from "@/app/_ui/name-span";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import { Segmented } from "@/app/_ui/segmented";
import { Sheet } from "@/app/_ui/sheet";
import { Strip } from "@/app/_ui/strip/strip";
import { useNarrow } from "@/app/_ui/use-narrow";
import { RoomLine } from "../../_components/room-line";
import { looksOnStrip, withRoom } from "../../_components/room-marks";
import { useRoomHere, useTellBarLabels } from "../../_components/room-provider";
import { sayHere } from "../../_components/say-here";
import { scoreCuts } from "../../_cuts/score-cuts";
import { airOnStrip, wishesOnStrip } from "./air-on-strip";
import { layBrackets } from "./brackets";
import { BreathLegend } from "./breath-legend";
import { markBreaths, markSuggestions, placeByKey } from "./breath-marks";
import { type BreathPane, BreathPanes } from "./breath-panes";
import { drawnCuts, spanOfCut } from "./breath-question";
import styles from "./breath-screen.module.css";
import { HereBar } from "./here-bar";
import { listenAt } from "./listen-at";
import { MyNumbers } from "./my-numbers";
import { NeedForm } from "./need-form";
import { RestList } from "./rest-list";
import { findRestWords, rowBefore } from "./rest-places";
import { SoloPart } from "./solo-part";
import { findPlaces, indexNotes, keyOfPosition } from "./solo-places";
import { stripKey } from "./strip-key";
import { SuggestionList } from "./suggestion-list";
import { TotalsPanel } from "./totals-panel";
import { useBreathMarking } from "./use-breath-marking";
import { useBreathReport } from "./use-breath-report";
import { useNewBreaths } from "./use-new-breaths";

/** Breath and rest: the strip with the soloist's air over everything, the solo part under it, the rests beside it. */
export function BreathScreen({
  desk,
  breath,
  since,
}: {
  desk: Desk;
  breath: BreathDesk;
  since: DeskTalk["since"];
}) {
  const room = useRoomHere();
  const isNarrow = useNarrow(1000);
  const playing = usePlaying();
  const [pane, setPane] = useState<BreathPane>("part");
  const [view, setView] = useState<BarSpan | null>(null);
  const [second, setSecond] = useState(0);
  const [goTo, setGoTo] = useState({ bar: 0, turn: 0 });
  const [cursorKey, setCursorKey] = useState<string | null>(null);
  const [cutId, setCutId] = useState("agreed");
  const [form, setForm] = useState<{ needId: string | null; rowKey: string | null } | null>(null);
  const open = useMemo(() => drawnCuts(desk, "open"), [desk]);
  const withCut = open.find(({ id }) => id === cutId) ?? null;
  const { report, rows, cuts, problem } = useBreathReport(desk, breath, room.breaths, withCut);
  const news = useNewBreaths(since);
  const { touch, last, canMark } = useBreathMarking(desk);
  useTellBarLabels(desk.bars);
  const { showWhere } = room;
  const topBar = view?.firstBar ?? null;
  useEffect(() => showWhere(topBar), [showWhere, topBar]);

  const places = useMemo(() => findPlaces(desk.bars, breath.notes), [desk.bars, breath.notes]);
  const ends = useMemo(() => indexNotes(desk.bars, breath.notes), [desk.bars, breath.notes]);
  const placeOfNote = useMemo(() => indexPlaces(places, breath), [places, breath]);
  const here = placeByKey(places, cursorKey);
  const marks = useMemo(() => markBreaths(desk, ends, room.breaths, news), [desk, ends, room.breaths, news]);
  const taken = useMemo(() => new Set(marks.map(({ key }) => key)), [marks]);
  const suggestions = useMemo(() => report?.suggestions ?? [], [report]);
  const allMarks = useMemo(
    () => [...marks, ...markSuggestions(desk, suggestions, taken)],
    [marks, desk, suggestions, taken],
  );
  const brackets = useMemo(
    () =>
      report
        ? layBrackets(
            report,
            desk.strip.bars,
            cuts.map(spanOfCut),
            (place) =>
              taken.has(keyOfPosition(desk.bars, place)) && keyOfPosition(desk.bars, place) === cursorKey,
          )
        : [],
    [report, desk, cuts, taken, cursorKey],
  );
  const strip = useMemo(() => {
    const { comments, breaths, pencilledCuts } = room;
    const base = withRoom(desk, { comments, breaths, pencilledCuts });
    const gaps = cuts.flatMap((cut) => cut.gaps);
    return {
      ...base,
      breaths: base.breaths.map((one, index) => ({ ...one, isAgreed: !isNewAt(index, room.breaths, news) })),
      ...(report && { air: airOnStrip(report, gaps) }),
      ...(rows && { wishes: wishesOnStrip(desk, rows) }),
    };
  }, [desk, room, cuts, report, rows, news]);
  const drawn = useMemo(() => scoreCuts(desk), [desk]);
  const restWords = useMemo(() => findRestWords(rows ?? []), [rows]);
  const looks = useMemo(() => looksOnStrip(desk, room.people), [desk, room.people]);

  const onNote = useCallback(
    (noteId: string) => {
      const place = placeOfNote.get(noteId);
      if (!place) return;
      setCursorKey(place.key);
      touch(place);
    },
    [placeOfNote, touch],
  );
  const step = (direction: 1 | -1) => {
    const first = places.findIndex(({ note }) => note.barIndex >= (view?.firstBar ?? 0));
    const index = places.findIndex(({ key }) => key === cursorKey);
    const next = places[index < 0 ? Math.max(0, first) : index + direction];
    if (next) setCursorKey(next.key);
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "ArrowRight") step(1);
    else if (event.key === "ArrowLeft") step(-1);
    else if ((event.key === "b" || event.key === "B") && here) touch(here);
    else return;
    event.preventDefault();
  };
  const go = (bar: number) => {
    setGoTo(({ turn }) => ({ bar, turn: turn + 1 }));
    const at = desk.strip.bars.find(({ barIndex }) => barIndex === bar);
    if (at) setSecond(at.from);
    setPane("part");
  };
  const breathsHere = here ? room.breaths.filter(({ at }) => keyOfPosition(desk.bars, at) === here.key) : [];
  const letter = view && lastLetter(desk, view.firstBar);
  const openForm = (needId: string | null) => {
    const row = rows?.find(({ needs }) => needs.some(({ need }) => need.id === needId));
    setForm({ needId, rowKey: row?.key ?? (rows && rowBefore(desk, rows, second)) ?? null });
    setPane("rests");
  };
  const totals = <TotalsPanel desk={desk} report={report} rows={rows} withCut={withCut} problem={problem} />;
  const suggested = suggestions.flatMap((one) => {
    const place = placeByKey(places, keyOfPosition(desk.bars, one.at));
    return place && !taken.has(place.key) ? [{ place, suggested: one }] : [];
  });
  return (
    <main className={styles.screen} data-pane={pane}>
      <Sheet className={styles.top} aria-label="The strip">
        <div className={styles.strip}>
          <Strip
            piece={strip}
            kind={isNarrow ? "air-stand" : "air"}
            view={view}
            cursor={second}
            marked={null}
            openCutId={withCut?.id ?? null}
            looks={looks}
            playing={playing}
            saysHere={sayHere({ strip }, second)}
            onGo={(bar) => {
              setSecond(bar.from);
              if (form && rows) setForm({ ...form, rowKey: rowBefore(desk, rows, bar.from) });
              else setGoTo(({ turn }) => ({ bar: bar.barIndex, turn: turn + 1 }));
            }}
            onMean={(meant) => {
              if (meant.kind === "cut" && open.some(({ id }) => id === meant.cutId)) setCutId(meant.cutId);
            }}
            onKey={(event) => {
              const bar = stripKey(event, desk.strip, second);
              if (!bar) return;
              event.preventDefault();
              setSecond(bar.from);
              setGoTo(({ turn }) => ({ bar: bar.barIndex, turn: turn + 1 }));
            }}
          />
        </div>
        {!isNarrow && totals}
      </Sheet>
      <div className={styles.work}>
        <RoomLine />
        <Sheet className={styles.part} id="solo" aria-label="The solo part with its breaths">
          <div className={styles.bar}>
            <h2 className={styles.where}>
              {letter && <RehearsalBox text={letter} />}
              {view ? `Bars ${nameBars(desk.bars, view).replace(/^bars? /, "")}` : "Solo part"}
            </h2>
            <BreathLegend desk={desk} hasSuggestions={suggested.length > 0} />
            <ListenControls
              ask={() => listenAt(desk.strip, cuts.map(spanOfCut), second)}
              labelOf={(barIndex) => desk.bars[barIndex]?.label ?? ""}
            />
            {open.length > 0 && (
              <Segmented
                label="Which cuts are made"
                value={withCut?.id ?? "agreed"}
                options={[
                  { value: "agreed", label: "Agreed cuts" },
                  ...open.map(({ id, number }) => ({ value: id, label: `With cut ${number}` })),
                ]}
                onChange={setCutId}
              />
            )}
          </div>
          <SoloPart
            pieceId={desk.pieceId}
            stamp={desk.musicStamp}
            bars={desk.bars}
            ends={ends}
            marks={allMarks}
            brackets={brackets}
            rests={restWords}
            cuts={drawn}
            cursorNote={here?.note ?? null}
            goTo={goTo}
            onNote={onNote}
            onView={setView}
            onKey={onKey}
          />
          <HereBar
            place={here}
            hasBreath={breathsHere.length > 0}
            isMine={breathsHere.some(({ authorId }) => authorId === desk.me.userId)}
            canMark={canMark}
            last={last}
            onStep={step}
            onTouch={() => here && touch(here)}
          />
        </Sheet>
        <aside className={styles.side} aria-label="Rests and numbers">
          {isNarrow && pane === "rests" && <Sheet>{totals}</Sheet>}
          {form && rows && (!isNarrow || pane === "rests") && (
            <NeedForm
              key={form.needId ?? "new"}
              desk={desk}
              rows={rows}
              rowKey={form.rowKey}
              need={breath.needs.find(({ id }) => id === form.needId) ?? null}
              onRow={(rowKey) => setForm({ ...form, rowKey })}
              onDone={() => setForm(null)}
            />
          )}
          {(!isNarrow || pane === "rests") && (
            <RestList
              desk={desk}
              breath={breath}
              rows={rows}
              onNote={() => openForm(null)}
              onChange={openForm}
              onGo={go}
            />
          )}
          {(!isNarrow || pane === "breaths") && report && report.preferences.comfortableSeconds !== null && (
            <SuggestionList
              suggestions={suggested}
              canMark={canMark}
              onTake={(place) => {
                setCursorKey(place.key);
                touch(place);
              }}
              onGo={(place) => {
                setCursorKey(place.key);
                go(place.note.barIndex);
              }}
            />
          )}
          {(!isNarrow || pane === "breaths") && <MyNumbers desk={desk} breath={breath} />}
        </aside>
      </div>
      {isNarrow && (
        <BreathPanes
          pane={pane}
          needCount={breath.needs.filter(({ isRemoved }) => !isRemoved).length}
          suggestionCount={suggested.length}
          onPane={setPane}
        />
      )}
    </main>
  );
}

/** A note under the finger means the breath after it; inside a tie the breath after the tie. */
function indexPlaces(places: ReturnType<typeof findPlaces>, { notes }: BreathDesk) {
  const byNote = new Map(places.map((place) => [place.note.id, place]));
  let next: ReturnType<typeof findPlaces>[number] | undefined;
  for (const note of notes.toReversed()) {
    next = byNote.get(note.id) ?? (note.isTied ? next : undefined);
    if (next) byNote.set(note.id, next);
  }
  return byNote;
}

/** The strip orders breaths as the room does. */
function isNewAt(
  index: number,
  breaths: readonly { readonly id: string }[],
  news: ReadonlySet<string>,
): boolean {
  const one = breaths[index];
  return one !== undefined && news.has(one.id);
}

function lastLetter({ strip }: Desk, barIndex: number): string | null {
  const bar = strip.bars.find((candidate) => candidate.barIndex === barIndex);
  return bar ? (strip.letters.findLast(({ at }) => at <= bar.from + 0.01)?.text ?? null) : null;
}
