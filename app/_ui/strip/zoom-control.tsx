import { IconButton } from "../icon-button";
import styles from "./zoom-control.module.css";

export const zoomSteps = [1, 2, 4, 8] as const;
export type Zoom = (typeof zoomSteps)[number];

/** Wider or narrower; "Fit" is one tap away as soon as the strip is wider than its room. */
export function ZoomControl({ zoom, onChange }: { zoom: Zoom; onChange: (zoom: Zoom) => void }) {
  const at = zoomSteps.indexOf(zoom);
  const step = (by: 1 | -1) => {
    const next = zoomSteps[at + by];
    if (next) onChange(next);
  };
  return (
    <div className={styles.zoom}>
      {zoom > 1 && (
        <>
          <button type="button" className={styles.fit} onClick={() => onChange(1)}>
            Fit
          </button>
          <span>×{zoom}</span>
          <IconButton
            className={styles.step}
            icon="zoom-out"
            label="Narrower strip"
            onClick={() => step(-1)}
          />
        </>
      )}
      {zoom < 8 && (
        <IconButton className={styles.step} icon="zoom-in" label="Wider strip" onClick={() => step(1)} />
      )}
    </div>
  );
}
