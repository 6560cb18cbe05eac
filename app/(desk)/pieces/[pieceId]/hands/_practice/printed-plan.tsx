"use client";

import { type ReactNode, useEffect, useRef } from "react";
import { createPortal } from "react-dom";
import styles from "./printed-plan.module.css";

/** A sheet beside the page that alone is printed, at once; it is not seen on the screen. */
export function PrintedPlan({
  title,
  onPrinted,
  children,
}: {
  title: string;
  onPrinted: () => void;
  children: ReactNode;
}) {
  const done = useRef(onPrinted);
  done.current = onPrinted;
  useEffect(() => {
    const end = () => done.current();
    window.addEventListener("afterprint", end);
    window.print();
    return () => window.removeEventListener("afterprint", end);
  }, []);
  return createPortal(
    <div className={styles.paper} aria-hidden="true">
      <h1>{title}</h1>
      {children}
    </div>,
    document.body,
  );
}
