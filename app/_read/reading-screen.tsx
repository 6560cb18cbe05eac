"use client";

import { useEffect, useState } from "react";
import { programmePage } from "@/app/_offline/programme-page";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { readTheme, type Theme, themeCookie } from "@/app/_ui/theme";
import type { Reading, ReadingFor } from "@/lib/engrave/pages/reading-plan";
import type { ReadingCover } from "@/lib/store/readings/reading-cover";
import { fitPages } from "./fit-pages";
import { firstBarOf, pageOfBar } from "./page-of-bar";
import { Pages } from "./pages";
import { readAddress, writeAddress } from "./reading-address";
import { ReadingBar } from "./reading-bar";
import styles from "./reading-screen.module.css";
import { sayPages } from "./say-page";
import type { WindowSize } from "./tap-zone";
import { type Leaves, pagesShown, type Turn, turned } from "./turning";
import { useKeys } from "./use-hands";
import { useReading } from "./use-reading";
import { useWakeLock } from "./use-wake-lock";
import { useWindowSize } from "./use-window-size";

interface Open {
  readonly cover: ReadingCover;
  /** Where the plan of the pages is asked for, and under what their pictures lie. */
  readonly planAddress: string;
  readonly pictureAddress: string;
  /** Whose pages are opened unless the address says otherwise. */
  readonly mine: ReadingFor;
  /** Where the way out leads, unless it was opened from a programme; null for somebody who came by a link. */
  readonly close: string | null;
}

/** An edition, full screen, page by page. Nothing on it can be changed by accident: it only turns. */
export function ReadingScreen(open: Open) {
  const size = useWindowSize();
  const theme = useKeptTheme();
  // Before the browser has said how large it is and what its address asks for, there is nothing to lay out.
  if (size === null || theme === null) return <main className={styles.stand} />;
  return <Stand {...open} size={size} theme={theme} />;
}

const noLeaves: Leaves = { pageCount: 0, sideBySide: 1 };
const howTo = "Tap on the right to turn on, on the left to turn back. The top edge brings this bar.";
const keepAwake = "Keep the screen on in the tablet’s settings: this browser cannot.";

function Stand({
  cover,
  planAddress,
  pictureAddress,
  mine,
  close,
  size,
  theme,
}: Open & { size: WindowSize; theme: Theme }) {
  const [at, setAt] = useState(() => readAddress(window.location));
  const reader = at.for !== null && cover.readers.includes(at.for) ? at.for : mine;
  const { state, retry } = useReading(planAddress, reader, cover.readers);
  const [isBarOpen, setIsBarOpen] = useState(true);
  const [hasTurned, setHasTurned] = useState(false);
  const isAwake = useWakeLock();
  const announce = useAnnounce();
  const reading = state.status === "ready" && state.for === reader ? state.reading : null;
  const leaves = reading ? leavesOf(reading, size) : noLeaves;
  const shown = pagesShown(at.page, leaves);
  useEffect(() => {
    const { pathname } = window.location;
    window.history.replaceState(window.history.state, "", pathname + writeAddress(at));
  }, [at]);

  const ask = (what: Turn | "bar") => {
    if (what === "bar") return setIsBarOpen((last) => !last);
    if (!reading) return;
    setIsBarOpen(false);
    setHasTurned(true);
    const page = turned(at.page, what, leaves);
    setAt((last) => ({ ...last, page }));
    announce(sayPages(pagesShown(page, leaves), leaves.pageCount));
  };
  useKeys(ask);
  const keepBar = useBarKept(reader, reading, (page) => setAt((last) => ({ ...last, page })));
  const changeReader = (next: ReadingFor) => {
    if (reading) keepBar(firstBarOf(reading, shown[0] ?? 1));
    setAt((last) => ({ ...last, for: next === mine ? null : next }));
  };

  const turn = reading?.pages.find(({ number }) => number === shown.at(-1))?.turn;
  const notes = [
    ...(hasTurned ? [] : [howTo]),
    ...(isAwake === false && !hasTurned ? [keepAwake] : []),
    ...(turn?.sign ? [turn.sentence] : []),
  ];
  return (
    <div className={styles.stand}>
      <ReadingBar
        {...{ cover, reader, theme, notes }}
        close={wayOut(close, at.programme)}
        onReader={changeReader}
        pages={reading && sayPages(shown, leaves.pageCount)}
        isOpen={isBarOpen || !reading}
      />
      <main>
        {reading && (
          <Pages
            {...{ reading, size, shown, leaves, pictureAddress }}
            page={at.page}
            onAsk={ask}
            onRetry={retry}
          />
        )}
        {state.status === "working" && (
          <div className={styles.middle}>
            <Progress words={`Engraving № ${cover.editionNumber} for this screen…`} done={state.progress} />
          </div>
        )}
        {state.status === "failed" && (
          <div className={styles.middle}>
            <SayProblem>{state.sentence}</SayProblem>
            <Button onClick={retry}>Try again</Button>
          </div>
        )}
      </main>
    </div>
  );
}

function wayOut(close: string | null, programme: string | null) {
  if (close === null) return null;
  return programme === null
    ? { href: close, to: "the editions" }
    : { href: programmePage(programme), to: "the programme" };
}

const leavesOf = (reading: Reading, size: WindowSize): Leaves => ({
  pageCount: reading.pages.length,
  sideBySide: fitPages(reading, size).sideBySide,
});

/** When the other's pages come, they are opened at the bar that was read. @returns says at which. */
function useBarKept(
  reader: ReadingFor,
  reading: Reading | null,
  onPage: (page: number) => void,
): (barIndex: number) => void {
  const [bar, setBar] = useState<{ from: ReadingFor; index: number } | null>(null);
  useEffect(() => {
    if (bar === null || reading === null || bar.from === reader) return;
    onPage(pageOfBar(reading, bar.index));
    setBar(null);
  });
  return (index) => setBar({ from: reader, index });
}

/** The theme that this browser keeps, which a page from the device may have been put by without; null until it is read. */
function useKeptTheme(): Theme | null {
  const [theme, setTheme] = useState<Theme | null>(null);
  useEffect(() => {
    const kept = document.cookie.split("; ").find((pair) => pair.startsWith(`${themeCookie}=`));
    const read = readTheme(kept?.split("=")[1]);
    document.documentElement.dataset.theme = read;
    setTheme(read);
  }, []);
  return theme;
}
