import styles from "./icon.module.css";

/** Strokes on a 20 by 20 grid. */
const strokes = {
  check: "M3.5 10.8 8 15.2 16.8 5",
  cross: "M4.5 4.5l11 11M15.5 4.5l-11 11",
  plus: "M10 3.5v13M3.5 10h13",
  minus: "M3.5 10h13",
  back: "M12.8 3.8 6.6 10l6.2 6.2",
  forward: "M7.2 3.8 13.4 10l-6.2 6.2",
  down: "M3.8 7.2 10 13.4l6.2-6.2",
  "take-back": "M7.5 4 3.5 8l4 4M3.8 8h8a4.2 4.2 0 0 1 0 8.4H7.5",
  warning: "M10 3.2 17.6 16.5H2.4zM10 8.2v4.2M10 14.4v.2",
  note: "M3.2 3.8h13.6v9.7H9.2l-3.6 3.3v-3.3H3.2z",
  pencil: "M3.6 16.4l.9-3.8L13 4.1l2.9 2.9-8.5 8.5zM11.4 5.7l2.9 2.9",
  page: "M4.8 2.6h7.1l3.6 3.6v11.2H4.8zM11.7 2.8v3.6h3.6",
  lamp: "M6.2 3h7.6l2.8 7.6H3.4zM10 10.8v6M6.4 17h7.2",
  people:
    "M7.2 9.2a2.9 2.9 0 1 0 0-5.8 2.9 2.9 0 0 0 0 5.8zM2 16.8c0-3 2-5 5.2-5s5.2 2 5.2 5M13 9.4a2.5 2.5 0 1 0-.6-4.9M14.2 12c2.4.3 3.8 2 3.8 4.6",
  settings: "M3 5.6h8M15 5.6h2M13 3.6v4M3 14.4h2M9 14.4h8M7 12.4v4",
  print: "M5.6 7.2V3h8.8v4.2M5.6 13.6H3V7.2h14v6.4h-2.6M5.6 11.4h8.8V17H5.6z",
  download: "M10 3v9.6M5.8 8.6l4.2 4.2 4.2-4.2M3.4 16.6h13.2",
  upload: "M10 13V3.4M5.8 7.4 10 3.2l4.2 4.2M3.4 16.6h13.2",
  trash: "M3.6 5.4h12.8M8 5.2V3.2h4v2M5.2 5.6l.8 11.2h8l.8-11.2",
  keys: "M2.6 5h14.8v10H2.6zM5.6 8.2h.1M8.6 8.2h.1M11.6 8.2h.1M14.4 8.2h.1M6.4 11.8h7.2",
  link: "M8.4 11.6a3 3 0 0 0 4.3 0l3-3a3 3 0 0 0-4.3-4.3l-1 1M11.6 8.4a3 3 0 0 0-4.3 0l-3 3a3 3 0 0 0 4.3 4.3l1-1",
  leave: "M8 3.4H3.6v13.2H8M7.6 10h9M13 6.2 16.8 10 13 13.8",
  clock: "M10 17.2a7.2 7.2 0 1 0 0-14.4 7.2 7.2 0 0 0 0 14.4zM10 5.8V10l3 2",
  "zoom-in": "M8.6 14.2a5.6 5.6 0 1 0 0-11.2 5.6 5.6 0 0 0 0 11.2zM12.8 12.8 17 17M8.6 6.2v4.8M6.2 8.6H11",
  "zoom-out": "M8.6 14.2a5.6 5.6 0 1 0 0-11.2 5.6 5.6 0 0 0 0 11.2zM12.8 12.8 17 17M6.2 8.6H11",
  "full-screen": "M3.4 7.6V3.4h4.2M12.4 3.4h4.2v4.2M16.6 12.4v4.2h-4.2M7.6 16.6H3.4v-4.2",
  "less-screen": "M7.6 3.4v4.2H3.4M16.6 7.6h-4.2V3.4M12.4 16.6v-4.2h4.2M3.4 12.4h4.2v4.2",
  play: "M6 3.8v12.4L16.2 10z",
  pause: "M5.2 4h2.8v12H5.2zM12 4h2.8v12H12z",
  stop: "M4.8 4.8h10.4v10.4H4.8z",
} as const;

export type IconName = keyof typeof strokes;

/** What starts and stops sound is solid, as on every machine that plays. */
const solid: ReadonlySet<IconName> = new Set<IconName>(["play", "pause", "stop"]);

/** A drawn sign beside a word. It is hidden from readers of text: the word says it. */
export function Icon({ name, small = false }: { name: IconName; small?: boolean }) {
  return (
    <svg className={small ? styles.small : styles.icon} viewBox="0 0 20 20" aria-hidden="true">
      <path d={strokes[name]} fill={solid.has(name) ? "currentColor" : undefined} />
    </svg>
  );
}
