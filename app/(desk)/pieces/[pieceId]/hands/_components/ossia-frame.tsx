"use client";

import type { ReactNode } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { classNames } from "@/app/_ui/class-names";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { barSpanOf } from "@/lib/rewrites/bars-of-terms";
import { PassageDrawing } from "../_editor/passage-drawing";
import { ListenHere } from "./listen-here";
import styles from "./ossia-frame.module.css";

/** What is played instead, drawn and to be heard. Dashed while it is only suggested or asked, unbroken once it stands. */
export function OssiaFrame({
  desk,
  title,
  words,
  terms,
  pace,
  isSettled,
  children,
}: {
  desk: Desk;
  title: string;
  words: ReactNode;
  terms: RewriteTerms;
  pace: number;
  isSettled: boolean;
  children?: ReactNode;
}) {
  const { fromBar, toBar } = barSpanOf(terms);
  return (
    <section className={classNames(styles.frame, isSettled && styles.settled)} aria-label={title}>
      <div className={styles.head}>
        <h3>{title}</h3>
        <div className={styles.words}>{words}</div>
        <ListenHere desk={desk} bars={{ fromBar, toBar }} rewrite={terms} pace={pace} what={title} />
      </div>
      <PassageDrawing
        pieceId={desk.pieceId}
        sourceHash={terms.sourceHash}
        {...{ fromBar, toBar }}
        rewrite={terms}
        as="instead"
        label={title}
      />
      {children}
    </section>
  );
}
