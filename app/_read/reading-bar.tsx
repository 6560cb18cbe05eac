"use client";

import Link from "next/link";
import type { ReactNode } from "react";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { Icon } from "@/app/_ui/icon";
import { IconButton } from "@/app/_ui/icon-button";
import { WithFlats } from "@/app/_ui/music-sign";
import { Segmented } from "@/app/_ui/segmented";
import type { Theme } from "@/app/_ui/theme";
import { ThemeLamp } from "@/app/_ui/theme-lamp";
import type { ReadingFor } from "@/lib/engrave/pages/reading-plan";
import type { ReadingCover } from "@/lib/store/readings/reading-cover";
import styles from "./reading-bar.module.css";
import { useFullScreen } from "./use-full-screen";

/**
 * The thin bar over the pages: what is read, which page it is, whose pages they are, and the way out. Its controls can be
 * reached by the keyboard while it is hidden, and then it shows.
 */
export function ReadingBar({
  cover,
  reader,
  onReader,
  pages,
  notes,
  theme,
  isOpen,
  close,
}: {
  cover: ReadingCover;
  reader: ReadingFor;
  onReader: (reader: ReadingFor) => void;
  /** "Page 3 of 12". */
  pages: string | null;
  /** What there is to know now, one sentence each. */
  notes: readonly string[];
  theme: Theme;
  isOpen: boolean;
  /** Where the way out leads, and what is there; null for somebody who came by a link. */
  close: { readonly href: string; readonly to: string } | null;
}) {
  const full = useFullScreen();
  const solo = cover.soloInstrument ?? "Solo";
  return (
    <header className={styles.bar} data-open={isOpen || undefined}>
      {close !== null && (
        <Link
          href={close.href}
          className={styles.close}
          aria-label={`Close, back to ${close.to}`}
          title="Close"
        >
          <Icon name="back" />
        </Link>
      )}
      <div className={styles.title}>
        <h1>
          <WithFlats text={cover.title} /> {cover.movement && <i>{cover.movement}</i>}
        </h1>
        <EditionStamp number={cover.editionNumber} />
        {pages && <p className={styles.pages}>{pages}</p>}
      </div>
      {cover.readers.length > 1 && (
        <div className={styles.whose}>
          <Segmented
            label="Whose pages"
            value={reader}
            options={[
              { value: "pianist", label: "Score" },
              { value: "soloist", label: `${solo} part` },
            ]}
            onChange={onReader}
          />
        </div>
      )}
      <div className={styles.tools}>
        {full && (
          <IconButton
            icon={full.isFull ? "less-screen" : "full-screen"}
            label={full.isFull ? "Leave the full screen" : "Fill the screen"}
            onClick={full.toggle}
          />
        )}
        <ThemeLamp theme={theme} />
      </div>
      {notes.length > 0 && (
        <div className={styles.notes}>
          {notes.map(
            (note): ReactNode => (
              <p key={note}>{note}</p>
            ),
          )}
        </div>
      )}
    </header>
  );
}
