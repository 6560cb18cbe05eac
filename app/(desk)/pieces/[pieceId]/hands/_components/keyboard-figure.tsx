import { WithFlats } from "@/app/_ui/music-sign";
import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import { midiNumber } from "@/lib/score/pitch";
import { type KeyFigure, listPitches, sayKeyFigure } from "./key-figure";
import { layKeys } from "./key-layout";
import styles from "./keyboard-figure.module.css";

const white = 25;
const height = 58;
const blackHeight = 36;

/**
 * The keys that a hand has at one place, on a drawn keyboard: filled diamonds are struck together, hollow ones alternate with
 * them.
 */
export function KeyboardFigure({
  caption,
  figure,
  range,
}: {
  caption: string;
  figure: KeyFigure | null;
  range: { readonly from: number; readonly to: number };
}) {
  const { keys, width } = layKeys(range.from, range.to);
  const said = sayKeyFigure(figure);
  const pressed = new Map<number, "struck" | "other">();
  for (const pitch of figure?.other ?? []) pressed.set(midiNumber(pitch), "struck");
  // What alternates is drawn hollow: the lower side when there are two.
  for (const pitch of figure?.keys ?? [])
    pressed.set(midiNumber(pitch), (figure?.other.length ?? 0) > 0 ? "other" : "struck");
  return (
    <figure className={styles.figure}>
      <figcaption>{caption}</figcaption>
      <svg viewBox={`-1 -1 ${width * white + 2} ${height + 2}`} role="img" aria-label={sayAll(figure)}>
        {keys.map(({ midi, isBlack, x, width: keyWidth }) => (
          <rect
            key={midi}
            className={isBlack ? styles.black : styles.white}
            x={x * white}
            y={0}
            width={keyWidth * white}
            height={isBlack ? blackHeight : height}
          />
        ))}
        {keys.map(({ midi, isBlack, x, width: keyWidth }) => {
          const how = pressed.get(midi);
          if (!how) return null;
          const [cx, cy] = [(x + keyWidth / 2) * white, isBlack ? blackHeight - 11 : height - 11];
          return (
            <rect
              key={midi}
              className={how === "other" ? styles.hollow : styles.pressed}
              x={cx - 5.5}
              y={cy - 5.5}
              width={11}
              height={11}
              transform={`rotate(45 ${cx} ${cy})`}
            />
          );
        })}
      </svg>
      <p>
        <b>{said.how}</b> <WithFlats text={said.what} />
      </p>
    </figure>
  );
}

function sayAll(figure: KeyFigure | null): string {
  if (figure === null) return "The hand rests";
  const spoken = (pitches: readonly RewritePitch[]) =>
    listPitches(pitches).replaceAll("♭", " flat").replaceAll("♯", " sharp");
  const { keys, other } = figure;
  if (other.length > 0) return `${spoken(keys)} alternating with ${spoken(other)}`;
  return `${spoken(keys)} ${keys.length > 1 ? "struck together" : "struck"}`;
}
