"use client";

import type { CSSProperties } from "react";
import type { Reading } from "@/lib/engrave/pages/reading-plan";
import { fitPages } from "./fit-pages";
import styles from "./pages.module.css";
import { SheetPage } from "./sheet-page";
import type { WindowSize } from "./tap-zone";
import { fetchOrder, type Leaves, pagesReady } from "./turning";
import { type Ask, useFingers } from "./use-hands";
import { usePictures } from "./use-pictures";

/** The pages on the stand, under the reader's fingers. */
export function Pages({
  reading,
  size,
  page,
  shown,
  leaves,
  pictureAddress,
  onAsk,
  onRetry,
}: {
  reading: Reading;
  size: WindowSize;
  page: number;
  shown: readonly number[];
  leaves: Leaves;
  pictureAddress: string;
  onAsk: Ask;
  /** What did not arrive is asked for again, the plan of the pages included. */
  onRetry: () => void;
}) {
  const pictures = usePictures(reading, pictureAddress, fetchOrder(page, leaves));
  const fingers = useFingers(onAsk);
  const { width, height, sideBySide } = fitPages(reading, size);
  const ready = new Set(pagesReady(page, leaves));
  const style = { "--page-width": `${width}px`, "--page-height": `${height}px` } as CSSProperties;
  return (
    <>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: keys are heard everywhere, and the buttons below do the same */}
      <div
        className={styles.pages}
        data-side-by-side={sideBySide}
        style={style}
        {...fingers}
        onContextMenu={(event) => event.preventDefault()}
      >
        {pictures &&
          reading.pages
            .filter(({ number }) => ready.has(number))
            .map((each) => (
              <SheetPage
                // Other pages of the same number are another drawing.
                key={`${reading.key} ${each.number}`}
                page={each}
                size={reading}
                pictures={pictures}
                isShown={shown.includes(each.number)}
                onRetry={() => {
                  pictures.retry();
                  onRetry();
                }}
              />
            ))}
      </div>
      {/* For those who neither see where to tap nor have keys: a screen reader presses these. */}
      <div className={styles.spoken}>
        <button type="button" tabIndex={-1} onClick={() => onAsk("back")}>
          Turn back
        </button>
        <button type="button" tabIndex={-1} onClick={() => onAsk("on")}>
          Turn on
        </button>
      </div>
    </>
  );
}
