"use client";

import { type ReactNode, useEffect, useRef, useState } from "react";
import styles from "./evidence.module.css";
import { Icon } from "./icon";

/**
 * A figure or a line that opens to what it was computed from.
 *
 * @param isOver it opens over the page: a press beside it or Escape closes it.
 */
export function Evidence({
  summary,
  isOver = false,
  children,
}: {
  summary: ReactNode;
  isOver?: boolean;
  children: ReactNode;
}) {
  const element = useRef<HTMLDetailsElement>(null);
  const [isOpen, setIsOpen] = useState(false);
  useEffect(() => {
    if (!isOver || !isOpen) return;
    const close = () => {
      if (element.current) element.current.open = false;
    };
    const press = (event: Event) => {
      if (event.target instanceof Node && !element.current?.contains(event.target)) close();
    };
    const key = (event: KeyboardEvent) => {
      if (event.key === "Escape") close();
    };
    document.addEventListener("pointerdown", press);
    document.addEventListener("keydown", key);
    return () => {
      document.removeEventListener("pointerdown", press);
      document.removeEventListener("keydown", key);
    };
  }, [isOver, isOpen]);
  return (
    <details
      ref={element}
      className={styles.evidence}
      onToggle={(event) => setIsOpen(event.currentTarget.open)}
    >
      <summary>
        <Icon name="forward" small />
        <span>{summary}</span>
      </summary>
      <div className={styles.body}>{children}</div>
    </details>
  );
}
