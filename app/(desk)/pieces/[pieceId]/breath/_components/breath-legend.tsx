import type { Desk } from "@/app/_data/desk/desk";
import { commaPath } from "@/app/_ui/music-sign";
import { inkOf } from "@/app/_ui/party";
import { soloistOf } from "../../_components/person";
import styles from "./breath-legend.module.css";

/** What the commas over the part mean. */
export function BreathLegend({ desk, hasSuggestions }: { desk: Desk; hasSuggestions: boolean }) {
  const soloist = soloistOf(desk);
  const looks = [
    { look: styles.breath, words: "breath" },
    { look: styles[inkOf(soloist?.role ?? "soloist")], words: "new" },
    ...(hasSuggestions ? [{ look: styles.suggested, words: "suggested" }] : []),
  ];
  return (
    <ul className={styles.legend} aria-label="What the commas mean">
      {looks.map(({ look, words }) => (
        <li key={words} className={look}>
          <svg viewBox="-1 -1 18 31" aria-hidden="true">
            <path d={commaPath} />
          </svg>
          {words}
        </li>
      ))}
    </ul>
  );
}
