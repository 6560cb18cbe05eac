import styles from "./music-sign.module.css";

/** Outlines drawn for this product, y down. The fermata is 60 by 33, the comma 16 by 30, the flat 18 by 44. */
export const fermataPath =
  "M0 32C2 10 13 0 30 0S58 10 60 32H56.6C53.6 15.5 45 8.2 30 8.2S6.4 15.5 3.4 32ZM30 21.6a5.7 5.7 0 1 1 0 11.4 5.7 5.7 0 0 1 0-11.4Z";
export const commaPath =
  "M7.4 0C12.6 0 15.6 3.7 15.6 9c0 9-5 16.6-12.4 21L2 28.2c4.6-3.8 7-8 7.4-12.6-1 .5-2 .7-3 .7C2.6 16.3 0 13.4 0 8.6 0 3.6 3 0 7.4 0Z";
const flatPath =
  "M0 0H2.2V23.4C4.4 21.6 6.8 20.6 9.6 20.6 14.4 20.6 17.4 23.2 17.4 27.2 17.4 31.2 14 35 9.6 38.4L0 44ZM2.2 27V38.8C8 34.8 11 31 11 27.4 11 24.8 9.4 23.6 7 23.6 5.2 23.6 3.6 24.8 2.2 27Z";

/** The fermata that means "waits for you". Always beside words. */
export function Fermata() {
  return (
    <svg className={styles.fermata} viewBox="0 0 60 33" aria-hidden="true">
      <path d={fermataPath} />
    </svg>
  );
}

function Flat() {
  return (
    <>
      <svg className={styles.flat} viewBox="0 0 18 44" aria-hidden="true">
        <path d={flatPath} />
      </svg>
      <span className={styles.spoken}>-flat</span>
    </>
  );
}

/** Text in which every ♭ is drawn as an outline, because text fonts draw it badly or not at all. */
export function WithFlats({ text }: { text: string }) {
  const pieces = text.split("♭");
  return pieces.map((piece, index) => (
    // The pieces never move: their place is their name.
    // biome-ignore lint/suspicious/noArrayIndexKey: see above
    <span key={index}>
      {piece}
      {index < pieces.length - 1 && <Flat />}
    </span>
  ));
}
